/*
 * A recording of what the machine plays, and the machine's time of each of its samples. The recorder's
 * own clock is not quite right (a virtual device rounds each of its buffers to a whole microsecond), so
 * the time is taken from when the samples came in: late they may be, early never.
 */

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';

export const RATE = 48_000;

/** How far the recording had come when a piece of it came in. */
interface Arrival {
  readonly samples: number;
  /** By the bench's clock, in ms. */
  readonly at: number;
}

export interface Recording {
  /** -1 to 1, one channel. */
  readonly samples: Float32Array;
  /** The bench's time, in ms, at which a second of the recording was played, but for a constant. */
  timeOf(second: number): number;
  /** By how much the recorder's clock is fast against the machine's, in millionths. */
  readonly fast: number;
}

export class Recorder {
  private readonly child: ChildProcess;
  private readonly pieces: Buffer[] = [];
  private readonly arrivals: Arrival[] = [];
  private bytes = 0;

  constructor(device: string, env: NodeJS.ProcessEnv) {
    const format = ['--format=s16le', `--rate=${RATE}`, '--channels=1', '--latency-msec=10', '--raw'];
    this.child = spawn('parec', [`--device=${device}`, ...format], { env, stdio: ['ignore', 'pipe', 'inherit'] });
    this.child.stdout!.on('data', (piece: Buffer) => {
      this.bytes += piece.length;
      this.pieces.push(piece);
      this.arrivals.push({ samples: this.bytes >>> 1, at: performance.now() });
    });
  }

  async stop(): Promise<Recording> {
    const ended = once(this.child, 'close');
    this.child.kill('SIGTERM');
    await ended;
    const all = Buffer.concat(this.pieces);
    const samples = Float32Array.from({ length: all.length >>> 1 }, (_, n) => all.readInt16LE(n * 2) / 32_768);
    const timeOf = clockOf(this.arrivals);
    const seconds = samples.length / RATE;
    const fast = ((seconds - 2) / ((timeOf(seconds - 1) - timeOf(1)) / 1000) - 1) * 1e6;
    return { samples, timeOf, fast };
  }
}

/** In ms of the recording: of each such span the piece that came in soonest says what the time was. */
const SPAN = 4000;

/** The first pieces are what the recorder had in store. */
const SETTLES = 1500;

/** A straight line through the soonest pieces, by least squares; those much later than it are left out and it is laid anew. */
function clockOf(arrivals: readonly Arrival[]): (second: number) => number {
  const soonest = new Map<number, { recorded: number; late: number }>();
  for (const { samples, at } of arrivals) {
    const recorded = (samples / RATE) * 1000;
    if (recorded < SETTLES) continue;
    const span = Math.floor(recorded / SPAN);
    const late = at - recorded;
    const before = soonest.get(span);
    if (!before || late < before.late) soonest.set(span, { recorded, late });
  }
  let points = [...soonest.values()];
  let line = lineThrough(points);
  for (let round = 0; round < 3; round++) {
    points = points.filter(({ recorded, late }) => late - line(recorded) < 0.5);
    line = lineThrough(points);
  }
  return (second) => second * 1000 + line(second * 1000);
}

function lineThrough(points: readonly { recorded: number; late: number }[]): (recorded: number) => number {
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const middle = mean(points.map(({ recorded }) => recorded));
  const height = mean(points.map(({ late }) => late));
  const spread = mean(points.map(({ recorded }) => (recorded - middle) ** 2));
  const slope = mean(points.map(({ recorded, late }) => (recorded - middle) * (late - height))) / spread;
  return (recorded) => height + slope * (recorded - middle);
}
