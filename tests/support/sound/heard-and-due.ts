/*
 * What was heard against what was due: which belongs to which, and by how much each was off once the
 * one delay that all have in common is taken out.
 */

/** Two times further apart than this, in ms, do not belong together; all that is due lies further apart. */
const TOGETHER = 300;

export interface Errors {
  /** In ms, of each that was heard and due, in order of time. */
  readonly errors: readonly number[];
  /** The delay that all have in common, in ms. */
  readonly delay: number;
  /** All that was due, as it was handed in. */
  readonly due: readonly number[];
  /** Due and not heard; heard and not due; in the time of what is due. */
  readonly missing: readonly number[];
  readonly extra: readonly number[];
}

/** `due` and `heard` in ms, by rising time, on clocks that agree to within 300 ms. */
export function errorsOf(due: readonly number[], heard: readonly number[]): Errors {
  const pairs: { due: number; heard: number }[] = [];
  const missing: number[] = [];
  const left = new Set(heard);
  for (const time of due) {
    const best = closest([...left], time);
    if (best !== undefined && Math.abs(best - time) <= TOGETHER) {
      pairs.push({ due: time, heard: best });
      left.delete(best);
    } else missing.push(time);
  }
  const delay = median(pairs.map((pair) => pair.heard - pair.due));
  return { errors: pairs.map((pair) => pair.heard - pair.due - delay), delay, due, missing, extra: [...left] };
}

function closest(times: readonly number[], to: number): number | undefined {
  let best: number | undefined;
  for (const time of times) if (best === undefined || Math.abs(time - to) < Math.abs(best - to)) best = time;
  return best;
}

export interface Spread {
  readonly p50: number;
  readonly p99: number;
  readonly max: number;
  readonly sd: number;
}

/** Of the errors' sizes; sd of the errors themselves. */
export function spreadOf(errors: readonly number[]): Spread {
  const sizes = errors.map(Math.abs).sort((a, b) => a - b);
  const at = (share: number): number => sizes[Math.min(sizes.length - 1, Math.floor(share * sizes.length))] ?? NaN;
  const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
  const sd = Math.sqrt(errors.reduce((sum, error) => sum + (error - mean) ** 2, 0) / errors.length);
  return { p50: at(0.5), p99: at(0.99), max: at(1), sd };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >>> 1] ?? NaN;
}
