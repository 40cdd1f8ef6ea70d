/*
 * `lanes 1-3: 10 x 100 @ 1:20`: which lanes a line is for. The same opening is a lane's setting where what a lane
 * has follows it (`lane 4: css 1:30`).
 */

import type { Flaw } from '../values/flaw.ts';

export interface LanePrefix {
  readonly ranges: readonly LaneRange[];
  /** Where the line itself begins; the text's length where nothing follows. */
  readonly end: number;
}

export interface LaneRange {
  readonly first: number;
  /** The same as `first` for a lane named alone. */
  readonly last: number;
  /** Index into the line's text. */
  readonly at: number;
}

const PREFIX =
  /^lanes?\s+((?:\d+(?:\s*[-\u2010-\u2015\u2212]\s*\d+)?)(?:\s*,\s*\d+(?:\s*[-\u2010-\u2015\u2212]\s*\d+)?)*)\s*:(?:\s+|$)/i;
const RANGE = /(\d+)(?:\s*[-\u2010-\u2015\u2212]\s*(\d+))?/g;
const ONE_LANE = /^lane\s+\d+\s*:/i;
const LANE_VALUE = /^(?:(?:base|css|gap)(?![\p{L}\p{N}-])|\d+\s*swimmers?(?![\p{L}\p{N}-])|\p{L}[^\d,]*(?:,|$))/iu;

/** The lanes that a line of a part begins with; null for any other line, a lane's setting too. */
export function lanePrefixOf(text: string): LanePrefix | null {
  const found = PREFIX.exec(text);
  if (!found) return null;
  const end = found[0].length;
  if (ONE_LANE.test(text) && LANE_VALUE.test(text.slice(end))) return null;
  const start = text.indexOf(found[1]!);
  const ranges: LaneRange[] = [];
  RANGE.lastIndex = 0;
  for (let range = RANGE.exec(found[1]!); range; range = RANGE.exec(found[1]!)) {
    const first = Number(range[1]);
    ranges.push({ first, last: Number(range[2] ?? first), at: start + range.index });
  }
  return { ranges, end };
}

/** Of lanes by number, which are meant, in their order; or what is wrong with one that is named. */
export function lanesMeant({ ranges }: LanePrefix, numbers: readonly number[]): readonly boolean[] | Flaw {
  for (const { first, last, at } of ranges) {
    const missing = [first, last].find((number) => !numbers.includes(number));
    if (missing !== undefined) {
      return { at, message: `${missing} is not a lane of this session: its lanes are ${numbers.join(', ')}` };
    }
    if (first > last) return { at, message: `${first}-${last}: a range of lanes goes from the lower to the higher` };
  }
  return numbers.map((number) => ranges.some(({ first, last }) => number >= first && number <= last));
}
