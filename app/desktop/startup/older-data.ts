/*
 * An older desktop program kept its data beside Chromium's. Now it shares the folder of the served program, so that
 * each finds a run that was cut off in the other. What the older folder holds is copied over once.
 */

import { existsSync } from 'node:fs';
import { cp, rename } from 'node:fs/promises';
import { join } from 'node:path';

const KEPT = ['runs', 'windows.json'];

/**
 * What is already in the new folder stays as it is. Rejects when the disk refuses; everything is still in the older
 * folder then.
 */
export async function bringOver(older: string, folder: string): Promise<void> {
  for (const name of KEPT) {
    const from = join(older, name);
    if (!existsSync(from)) continue;
    await cp(from, join(folder, name), { recursive: true, force: false });
    // Renamed, so that it is copied only once.
    await rename(from, `${from}.brought-over`);
  }
}
