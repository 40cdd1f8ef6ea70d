/*
 * A data folder of a test's own, so that no host under test sees the runs of another or leaves any behind.
 */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const made = new Set<string>();

process.on('exit', () => made.forEach((folder) => rmSync(folder, { recursive: true, force: true })));

/** Empty; gone when the tests are over. */
export function freshDataFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'lanecall-data-'));
  made.add(folder);
  return folder;
}
