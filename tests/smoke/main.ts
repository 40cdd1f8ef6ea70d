/*
 * `npm run smoke:desktop [-- FOLDER] [--stand-in]`: the desktop program on the machine it is on, with the runtime, the
 * displays and the sound that are there. Prints one line a check, leaves a picture of each window in the folder
 * (dist/smoke without one), and ends with 1 where a check failed. `--stand-in` tries the script itself where there is
 * no runtime.
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { LAPTOP, ROOT, RUNTIME, STAND_IN, TELEVISION } from '../support/desktop/desktop-program.ts';
import { DISPLAYS } from '../support/electron-stand-in/system/displays-at-first.ts';
import { Report } from './report.ts';
import { smoke } from './smoke.ts';

const words = process.argv.slice(2);
const engine = words.includes('--stand-in') ? STAND_IN : RUNTIME;
const folder = resolve(words.find((word) => !word.startsWith('--')) ?? join(ROOT, 'dist', 'smoke'));
if (engine === null) {
  process.stderr.write(
    'There is no Electron runtime here (npm start fetches it), or no display. --stand-in tries this script alone.\n',
  );
  process.exit(1);
}
const built = spawnSync(process.execPath, [join(ROOT, 'app/cli/launcher/launch.mjs'), 'build'], { stdio: 'inherit' });
if (built.status !== 0) process.exit(built.status ?? 1);
mkdirSync(folder, { recursive: true });
if (engine === STAND_IN) process.env[DISPLAYS] = JSON.stringify([LAPTOP, TELEVISION]);
const report = new Report((line) => process.stdout.write(`${line}\n`));
await smoke(engine, folder, report);
process.stdout.write(`The pictures are in ${folder}.\n`);
process.exit(report.end());
