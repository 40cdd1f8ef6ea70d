/*
 * Where the marks of the lanes stand on the dial, in hundredths of its radius. Lanes that leave at once share a
 * mark; marks that would cover each other move inwards, the one that is due first staying outside. None stands on a
 * numeral where there is another place for it.
 */

import { MINUTE, type Millis } from '../../../app/core/units.ts';
import { CAP } from '../../ui/digits/digits.ts';
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

/** Where the ticks end, and the dial. */
export const RIM = 86;
const EDGE = 98;

/** How near to the middle marks may come. */
const INNERMOST = 14;

/** The numerals' distance from the middle, and their sizes: those of the quarters, and the others. */
export const NUMERALS = 52;
export const QUARTER = 23;
export const FIVE = 15;

/** Of a mark with one digit; longer ones are wider, up to the most, and then their letters smaller. */
const HEIGHT = 19;
const SIZE = 16;
const MOST_WIDTH = 62;
const LETTER = 0.46;
const BETWEEN = 0.26;

/** Of a mark whose lane does not go when the hand comes there next. */
const LATER = 0.68;

/** Where marks are too many to stand clear of each other all of them are smaller. */
const SCALES = [1, 0.8, 0.65, 0.5] as const;

/** Rather so small, and near the rim, than larger on the way to the middle. */
const LEAST_OUTSIDE = 0.65;

/** Leaves so close to each other share a mark. */
const TOGETHER: Millis = 500;

const URGENCY: readonly FaceMark['look'][] = ['leaving', 'ready', 'waiting', 'later'];

export function placeMarks(marks: readonly FaceMark[]): readonly PlacedMark[] {
  const groups = groupsOf(marks);
  const tries = SCALES.map((scale) => placeAt(groups, scale));
  const best =
    tries.find(({ clear, outside }) => clear && outside) ??
    tries.find(({ clear }) => clear) ??
    tries[tries.length - 1]!;
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

interface Placed {
  readonly placed: PlacedMark[];
  /** Whether none covers another, or a numeral. */
  readonly clear: boolean;
  /** Whether all stand between numerals and rim, and are still large. */
  readonly outside: boolean;
}

function placeAt(groups: readonly (readonly FaceMark[])[], scale: number): Placed {
  const placed: PlacedMark[] = [];
  let clear = true;
  let outside = scale >= LEAST_OUTSIDE;
  for (const group of groups) {
    const own = scale * (group[0]!.look === 'later' ? LATER : 1);
    const tries = radiiFor(own).map((radius) => markAt(group, radius, own));
    const isFree = (mark: PlacedMark): boolean => !placed.some((other) => covers(mark, other));
    const stands = (mark: PlacedMark): boolean =>
      isFree(mark) && isOn(mark) && !NUMERAL_BOXES.some((box) => covers(mark, box));
    const mark = tries.find(stands) ?? tries.find(isFree) ?? tries[tries.length - 1]!;
    clear = clear && stands(mark);
    outside = outside && Math.hypot(mark.x, mark.y) > NUMERALS;
    placed.push(mark);
  }
  return { placed, clear, outside };
}

/** From the rim inwards; before that, for wide ones, a little out over the ticks. */
function radiiFor(scale: number): readonly number[] {
  const usual = RIM - (HEIGHT * scale) / 2 - 1.5;
  const radii = [usual, usual + 2, usual + 4, usual + 6];
  for (let radius = usual - 2; radius >= INNERMOST; radius -= 2) radii.push(radius);
  return radii;
}

function markAt(group: readonly FaceMark[], radius: number, scale: number): PlacedMark {
  const { hand, look } = group[0]!;
  const text = lanesText(group.map(({ lane }) => lane));
  const height = HEIGHT * scale;
  const digits = text.replace(/\D/g, '').length;
  const em = digits * LETTER + (text.length - digits) * BETWEEN;
  const size = Math.min(SIZE * scale, (MOST_WIDTH - height * 0.6) / em);
  const width = Math.max(height, em * size + height * 0.6);
  const angle = (hand / MINUTE) * 2 * Math.PI;
  return { hand, look, text, size, x: Math.sin(angle) * radius, y: -Math.cos(angle) * radius, width, height };
}

type Area = Pick<PlacedMark, 'x' | 'y' | 'width' | 'height'>;

/** Of each numeral, a little within its edges. */
const NUMERAL_BOXES: readonly Area[] = Array.from({ length: 12 }, (_, five) => {
  const angle = (five / 12) * 2 * Math.PI;
  const size = five % 3 === 0 ? QUARTER : FIVE;
  const letters = five === 1 ? 1 : 2;
  const at = { x: Math.sin(angle) * NUMERALS, y: -Math.cos(angle) * NUMERALS };
  return { ...at, width: letters * LETTER * size - 1, height: size * CAP - 1 };
});

/** Whether it stays on the dial. */
function isOn({ x, y, width, height }: Area): boolean {
  return Math.hypot(Math.abs(x) + (width - height) / 2, y) + height / 2 <= EDGE;
}

function covers(a: Area, b: Area): boolean {
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
