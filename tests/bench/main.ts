/*
 * `npm run bench`: measures what the program promises about time on this machine and prints one table.
 * Takes about two minutes, nearly all of it real wake-ups.
 */

import { cpus, loadavg } from 'node:os';
import { benchLibrary } from './library.ts';
import { benchLoop } from './loop.ts';
import { benchPlan } from './plan.ts';
import { benchRecords } from './records.ts';
import { benchRun } from './run.ts';
import { tableText } from './table.ts';

process.stdout.write(
  `Node ${process.versions.node}, ${cpus().length} cores, load ${loadavg()[0]!.toFixed(1)} before\n`,
);
const rows = [
  ...benchPlan(),
  ...benchRun(),
  ...(await benchRecords()),
  ...(await benchLibrary()),
  ...(await benchLoop()),
];
process.stdout.write(tableText(rows));
