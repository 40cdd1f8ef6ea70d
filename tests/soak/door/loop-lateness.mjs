/*
 * Loaded into the program that is tried, before it (`--import`): how late its loop comes to what is due. At each SIGUSR2
 * it writes what it has measured since the last, in ms, to standard error, and begins anew.
 */

import { monitorEventLoopDelay } from 'node:perf_hooks';

const late = monitorEventLoopDelay({ resolution: 1 });
late.enable();

process.on('SIGUSR2', () => {
  const [p50, p99, most] = [late.percentile(50), late.percentile(99), late.max].map((ns) => ns / 1e6);
  process.stderr.write(`loop ${JSON.stringify({ p50, p99, most })}\n`);
  late.reset();
});
