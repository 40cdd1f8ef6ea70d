/*
 * How late the host's loop really wakes up: every wake-up of a train of them against its absolute
 * time, with the machine idle and with one core kept busy, beside an interval timer that counts its
 * own ticks, as a clock must not.
 */

import { spawn } from 'node:child_process';
import { systemClock } from '../../app/host/time/clock.ts';
import { startLoop } from '../../app/host/time/loop.ts';
import { systemTimers } from '../../app/host/time/timers.ts';
import { row, type Row } from './table.ts';

const WAKE_UPS = 10_000;

/** In ms: far denser than any session, so that 10 000 take less than a minute. */
const PERIOD = 5;

export async function benchLoop(): Promise<readonly Row[]> {
  const idle = await measure();
  const stopBusy = keepOneCoreBusy();
  const busy = await measure();
  stopBusy();
  return [...rowsOf('nothing else to do', idle), ...rowsOf('one core busy', busy)];
}

interface Lateness {
  readonly loop: readonly number[];
  readonly naive: readonly number[];
}

/** Both trains run in the same process at the same time, until the loop's is through. */
async function measure(): Promise<Lateness> {
  const stopNaive = naiveLateness();
  const loop = await loopLateness();
  return { loop, naive: stopNaive() };
}

function loopLateness(): Promise<readonly number[]> {
  return new Promise((resolve) => {
    const clock = systemClock();
    const late: number[] = [];
    const origin = clock.now() + 100;
    const loop = startLoop(clock, systemTimers, [
      {
        due: (from) => origin + Math.max(late.length, Math.ceil((from - origin) / PERIOD)) * PERIOD,
        take: ({ to }) => {
          const now = clock.now();
          while (late.length < WAKE_UPS && origin + late.length * PERIOD < to) {
            late.push(now - (origin + late.length * PERIOD));
          }
          if (late.length < WAKE_UPS) return;
          // Stopped after this wake-up has armed the next.
          setImmediate(() => loop.stop());
          resolve(late);
        },
      },
    ]);
  });
}

/** What counting ticks makes of the time: the n-th tick against n periods. Ends, and gives the ticks so far, when called. */
function naiveLateness(): () => readonly number[] {
  const late: number[] = [];
  const start = performance.now();
  const timer = setInterval(() => {
    late.push(performance.now() - (start + (late.length + 1) * PERIOD));
  }, PERIOD);
  return () => {
    clearInterval(timer);
    return late;
  };
}

function keepOneCoreBusy(): () => void {
  const child = spawn(process.execPath, ['-e', 'for (;;);'], { stdio: 'ignore' });
  return () => void child.kill('SIGKILL');
}

function rowsOf(condition: string, { loop, naive }: Lateness): readonly Row[] {
  return [
    row(`loop, ${condition}: ${WAKE_UPS} wake-ups, ${PERIOD} ms apart`, lateness(loop)),
    row(`  counting setInterval beside it`, lateness(naive)),
  ];
}

function lateness(late: readonly number[]): string {
  const sorted = [...late].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!.toFixed(2);
  const tenth = Math.floor(late.length / 10);
  const growth = median(late.slice(-tenth)) - median(late.slice(0, tenth));
  return `late p50 ${at(0.5)}, p99 ${at(0.99)}, max ${at(1)} ms; growth ${growth.toFixed(2)} ms`;
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}
