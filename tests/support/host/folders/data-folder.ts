/*
 * A data folder of a test's own, so that no host under test sees the runs of another or leaves any behind.
 */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const made = new Set<string>();

// For what runs without vitest, whose workers end without this.
process.on('exit', removeDataFolders);

/** Empty; gone when the test file that it was made for is over. */
export function freshDataFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'lanecall-data-'));
  made.add(folder);
  return folder;
}

/** All that were made in this process. */
export function removeDataFolders(): void {
  for (const folder of made) rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
  made.clear();
}
