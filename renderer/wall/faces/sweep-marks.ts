/*
 * Where the marks of the lanes stand on the dial, in hundredths of its radius. Lanes that leave at once share a
 * mark; marks that would cover each other move inwards, the one that is due first staying outside.
 */

import { MINUTE, type Millis } from '../../../app/core/units.ts';
import type { FaceMark } from './clock-face.ts';

export interface PlacedMark extends Pick<FaceMark, 'hand' | 'look'> {
  /** The lanes: "3", "1-4, 6". */
  readonly text: string;
  readonly size: number;
  /** Of its middle. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Where the ticks end. */
export const RIM = 86;

/** How near to the middle marks may come. */
const INNERMOST = 14;

/** Of a mark with one digit; longer ones are wider, up to the most, and then their letters smaller. */
const HEIGHT = 19;
const SIZE = 16;
const MOST_WIDTH = 62;
const LETTER = 0.46;

/** Of a mark whose lane does not go when the hand comes there next. */
const LATER = 0.68;

/** Where marks are too many to stand clear of each other all of them are smaller. */
const SCALES = [1, 0.8, 0.65, 0.5] as const;

/** Leaves so close to each other share a mark. */
const TOGETHER: Millis = 500;

const URGENCY: readonly FaceMark['look'][] = ['leaving', 'ready', 'waiting', 'later'];

export function placeMarks(marks: readonly FaceMark[]): readonly PlacedMark[] {
  const groups = groupsOf(marks);
  const tries = SCALES.map((scale) => placeAt(groups, scale));
  const best = tries.find(({ clear }) => clear) ?? tries[tries.length - 1]!;
  // The one that is due first is drawn last, over the others.
  return best.placed.reverse();
}

/** Those that share a mark, the ones due first before the others. */
function groupsOf(marks: readonly FaceMark[]): readonly (readonly FaceMark[])[] {
  const groups = new Map<string, FaceMark[]>();
  for (const mark of marks) {
    const key = `${Math.round(mark.hand / TOGETHER) % (MINUTE / TOGETHER)} ${mark.look}`;
    groups.set(key, [...(groups.get(key) ?? []), mark]);
  }
  return Array.from(groups.values()).sort(
    ([a], [b]) => URGENCY.indexOf(a!.look) - URGENCY.indexOf(b!.look) || a!.hand - b!.hand,
  );
}

function placeAt(
  groups: readonly (readonly FaceMark[])[],
  scale: number,
): { readonly placed: PlacedMark[]; readonly clear: boolean } {
  const placed: PlacedMark[] = [];
  let clear = true;
  for (const group of groups) {
    const own = scale * (group[0]!.look === 'later' ? LATER : 1);
    let radius = RIM - (HEIGHT * own) / 2 - 1.5;
    let mark = markAt(group, radius, own);
    while (placed.some((other) => covers(mark, other)) && radius - 2 >= INNERMOST) {
      radius -= 2;
      mark = markAt(group, radius, own);
    }
    clear = clear && !placed.some((other) => covers(mark, other));
    placed.push(mark);
  }
  return { placed, clear };
}

function markAt(group: readonly FaceMark[], radius: number, scale: number): PlacedMark {
  const { hand, look } = group[0]!;
  const text = lanesText(group.map(({ lane }) => lane));
  const height = HEIGHT * scale;
  const size = Math.min(SIZE * scale, (MOST_WIDTH - height * 0.6) / (text.length * LETTER));
  const width = Math.max(height, text.length * LETTER * size + height * 0.6);
  const angle = (hand / MINUTE) * 2 * Math.PI;
  return { hand, look, text, size, x: Math.sin(angle) * radius, y: -Math.cos(angle) * radius, width, height };
}

function covers(a: PlacedMark, b: PlacedMark): boolean {
  return Math.abs(a.x - b.x) < (a.width + b.width) / 2 + 1 && Math.abs(a.y - b.y) < (a.height + b.height) / 2 + 1;
}

/** "1-4, 6" of 1, 2, 3, 4 and 6; two lanes in a row stay "1, 2". A space alone would let them be read as 12. */
function lanesText(lanes: readonly number[]): string {
  const sorted = Array.from(lanes).sort((a, b) => a - b);
  const runs: number[][] = [];
  for (const lane of sorted) {
    const run = runs[runs.length - 1];
    if (run && run[run.length - 1] === lane - 1) run.push(lane);
    else runs.push([lane]);
  }
  return runs.map((run) => (run.length > 2 ? `${run[0]}-${run[run.length - 1]}` : run.join(', '))).join(', ');
}
