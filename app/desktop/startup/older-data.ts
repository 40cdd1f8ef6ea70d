/*
 * The desktop program once kept its data beside Chromium's. It shares the folder of the served program now, so that a
 * run cut off in one is found by the other; what the older folder holds is brought over once.
 */

import { existsSync } from 'node:fs';
import { cp, rename } from 'node:fs/promises';
import { join } from 'node:path';

const KEPT = ['runs', 'windows.json'];

/** What is there already stays as it is. Rejects where the disk refuses; then all of it is still in the older folder. */
export async function bringOver(older: string, folder: string): Promise<void> {
  for (const name of KEPT) {
    const from = join(older, name);
    if (!existsSync(from)) continue;
    await cp(from, join(folder, name), { recursive: true, force: false });
    // Under another name, so that a run which is ended meanwhile does not come a second time.
    await rename(from, `${from}.brought-over`);
  }
}
