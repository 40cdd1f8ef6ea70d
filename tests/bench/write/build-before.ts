/*
 * The program as it was with a text area for an editor, built from the repository's own history; null where that is
 * not at hand.
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const COMMIT = '4b16624';

export function buildBefore(): string | null {
  const folder = freshDataFolder();
  const archive = spawnSync('git', ['archive', COMMIT], { cwd: ROOT, maxBuffer: 1e9 });
  if (archive.status !== 0) return null;
  spawnSync('tar', ['-x', '-C', folder], { input: archive.stdout });
  symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'));
  const dist = join(folder, 'dist');
  mkdirSync(dist);
  const built = spawnSync(process.execPath, [join(folder, 'app/cli/launcher/build.mjs'), 'before', dist], {
    cwd: folder,
    stdio: ['ignore', 2, 2],
  });
  return built.status === 0 ? dist : null;
}
