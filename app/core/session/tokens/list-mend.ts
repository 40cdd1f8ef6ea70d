/*
 * The mend of a line whose lists have another number of values than there are lanes, as after a lane was added or taken
 * out: the last value stands once more for each lane that is missing, and what is too much goes.
 */

import type { Fault } from '../../result.ts';
import type { Mend } from './mend.ts';

export interface ListMend extends Mend {
  /** How many values too many there are; below 0 too few. */
  readonly over: number;
}

const COUNTS = /^a list of (\d+) for (\d+) lanes?:/;

/** Values with slashes between, as of counts, distances, intervals, rests and targets. */
const LIST = /[^\s,/@]+(?:\s*\/\s*[^\s,/@]+)+/g;

/** `raw`: the fault's line. All its lists of that length are mended at once; null for a fault of another kind. */
export function listMend(raw: string, { message }: Pick<Fault, 'message'>): ListMend | null {
  const [, written, wanted] = (COUNTS.exec(message) ?? []).map(Number);
  if (written === undefined || wanted === undefined) return null;
  let [from, to] = [raw.length, 0];
  const right = raw.replace(LIST, (list: string, at: number) => {
    const values = list.split('/').map((value) => value.trim());
    if (values.length !== written) return list;
    [from, to] = [Math.min(from, at), Math.max(to, at + list.length)];
    return fitted(values, wanted).join('/');
  });
  return from < to
    ? { from, to, by: right.slice(from, right.length - (raw.length - to)), over: written - wanted }
    : null;
}

function fitted(values: readonly string[], wanted: number): readonly string[] {
  const last = values[values.length - 1]!;
  return Array.from({ length: wanted }, (_, index) => values[index] ?? last);
}
