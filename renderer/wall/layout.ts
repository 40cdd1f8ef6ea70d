/*
 * Where everything on the wall screen stands and how large it is, worked out from the screen's size
 * and the number of lanes. What swimmers read from the water comes first: the digits of the leaves
 * are made as large as the strips allow, and everything else takes what is left.
 */

import { CAP, widthOf } from '../ui/digits.ts';

export interface Room {
  /** The screen, in px. */
  readonly width: number;
  readonly height: number;
  readonly lanes: number;
  /** The most swimmers in a lane: each has a dot. */
  readonly swimmers: number;
  /** Whether a reading may be past the hour. */
  readonly hours: boolean;
}

/** All in px; `…Cap` is the height of digits or capitals as drawn. */
export interface Layout {
  /** Kept clear at every side, for screens that cut their picture. */
  readonly insetX: number;
  readonly insetY: number;
  /** How far the whole picture may drift from its place. */
  readonly drift: number;
  readonly width: number;
  readonly headHeight: number;
  /** Clock and words beside each other, or the words under the clock. */
  readonly head: 'beside' | 'stacked';
  readonly clockCap: number;
  readonly clockWidth: number;
  /** Where the words of the head begin, and how wide and high they may be. */
  readonly wordsX: number;
  readonly wordsWidth: number;
  readonly wordsHeight: number;
  readonly lanes: StripLayout;
  readonly callout: CalloutLayout;
}

/** While nobody swims: large words, and below them a small place for each lane. */
export interface CalloutLayout {
  readonly height: number;
  readonly columns: number;
  readonly rows: number;
  readonly laneWidth: number;
  readonly laneHeight: number;
}

export interface StripLayout {
  /** All in one row; or the words in a second one, where the screen is narrow. */
  readonly form: 'one-row' | 'two-rows';
  readonly columns: number;
  readonly rows: number;
  readonly width: number;
  readonly height: number;
  readonly cap: number;
  readonly water: number;
  /** Widths of the strip's places, from the pool's edge on; 0 for what there is no room for. */
  readonly number: number;
  readonly leave: number;
  readonly seconds: number;
  readonly dots: number;
  readonly dotColumns: number;
  readonly rep: number;
  readonly words: number;
  readonly after: number;
  /** Sizes of the larger and the smaller words. */
  readonly large: number;
  readonly small: number;
}

/** Overscan: television sets cut up to so much of each side. */
const INSET = 0.05;

/** Of the height, to each side: enough to move every edge off the pixels it stands on. */
const DRIFT = 0.003;

/** Of the height, inset included: the most that the head may take. */
const HEAD_MOST = 0.25;
const HEAD_LEAST = 0.225;

/** The clock is the largest thing there is: leaves are at most so much of it. */
const BELOW_CLOCK = 0.92;

/** Of a strip: digits, and the water at its foot. The rest keeps them apart. */
const DIGITS = 0.855;
const WATER = 0.065;

/** Of the height: 20' of arc at 15 m from a 55-inch screen. Digits grow past it only where the words have room too. */
const PREFERRED = 0.127;

/** More lanes than this share two columns where the screen is wide. */
const ONE_COLUMN = 10;

/** Widths in heights of the leave's digits. */
const NUMBER = 0.95;
const GAP = 0.38;
const SECONDS = 1.62;
const DOT = 0.3;
const LARGE = 0.48;
const SMALL = 0.35;

/** Widths in sizes of the small words: "round 2 of 3", "on 1:35", "50 fast", "then 12:00". */
const REP = 5.6;
const INTERVAL = 3.4;
const SET = 9;
const AFTER = 5;

export function layoutFor(room: Room): Layout {
  const tries = [HEAD_MOST, 0.2375, HEAD_LEAST].map((share) => layoutWithHead(room, share));
  const largest = Math.max(...tries.map((layout) => layout.lanes.cap));
  // Of heads that give the leaves much the same size the highest.
  return tries.find((layout) => layout.lanes.cap * 1.01 >= largest)!;
}

function layoutWithHead(room: Room, share: number): Layout {
  const drift = Math.max(1, Math.round(room.height * DRIFT));
  const insetX = Math.ceil(room.width * INSET) + drift;
  const insetY = Math.ceil(room.height * INSET) + drift;
  const width = room.width - 2 * insetX;
  const headHeight = Math.floor(room.height * share) - insetY;
  const head = room.width > room.height ? 'beside' : 'stacked';
  const clockEm = widthOf(room.hours ? '8:88:88' : '88:88') / CAP;
  const high = headHeight * (head === 'beside' ? 0.86 : 0.56);
  const clockCap = Math.floor(Math.min(high, (width * (head === 'beside' ? 0.4 : 1)) / clockEm));
  const clockWidth = Math.ceil(clockCap * clockEm);
  const lanes = strips(room, width, room.height - 2 * insetY - headHeight, clockCap * BELOW_CLOCK);
  const aside = Math.max(
    clockWidth + clockCap * 0.4,
    lanes.form === 'one-row' && lanes.columns === 1 ? fixed(lanes) : 0,
  );
  const wordsX = head === 'beside' ? Math.round(aside) : 0;
  const wordsHeight = Math.floor(head === 'beside' ? headHeight * 0.92 : headHeight - clockCap * 1.2);
  const place = { wordsX, wordsWidth: width - wordsX, wordsHeight };
  const callout = calloutLayout(room, width, room.height - 2 * insetY - headHeight);
  return { insetX, insetY, drift, width, headHeight, head, clockCap, clockWidth, ...place, lanes, callout };
}

/** The lanes get at most two fifths of what is below the head: they are read at the wall. */
function calloutLayout(room: Room, width: number, height: number): CalloutLayout {
  const most = room.width > room.height ? (room.lanes > ONE_COLUMN ? 3 : 2) : 1;
  const columns = Math.max(1, Math.min(most, room.lanes));
  const rows = Math.max(1, Math.ceil(room.lanes / columns));
  const laneHeight = Math.floor(Math.min(room.height * 0.09, (height * 0.42) / rows));
  const laneWidth = Math.floor((width - (columns - 1) * room.height * 0.03) / columns);
  return { height: height - rows * laneHeight, columns, rows, laneWidth, laneHeight };
}

function strips(room: Room, width: number, height: number, mostCap: number): StripLayout {
  const columns = room.lanes > ONE_COLUMN && room.width > room.height ? 2 : 1;
  const rows = Math.max(1, Math.ceil(room.lanes / columns));
  // Two columns have the width of a gap between them.
  const own = Math.floor(columns === 1 ? width : (width - room.height * 0.04) / 2);
  const grid = { columns, rows, width: own };
  const one = oneRow(room, grid, height / rows, mostCap);
  const two = twoRows(room, grid, height / rows, mostCap);
  return two.cap > one.cap * 1.1 ? two : one;
}

type Grid = Pick<StripLayout, 'columns' | 'rows' | 'width'>;

function oneRow(room: Room, grid: Grid, most: number, mostCap: number): StripLayout {
  const leave = leaveWidth(room);
  const dotColumns = dotColumnsFor(room.swimmers, 3);
  const places = NUMBER + leave + GAP + SECONDS + dotColumns * DOT + (dotColumns > 0 ? GAP : 0);
  const withWords = Math.max(room.height * PREFERRED, grid.width / (places + SMALL * (REP + SET)));
  const cap = Math.min(most * DIGITS, mostCap, grid.width / (places + SMALL * REP), withWords);
  const height = Math.floor(Math.min(most, cap / 0.76));
  const small = cap * SMALL;
  let left = grid.width - places * cap;
  const after = left >= small * (REP + SET + AFTER + 2) ? small * AFTER : 0;
  const rep = Math.min(left, small * REP);
  left -= rep + after;
  const words = left >= small * INTERVAL ? left : 0;
  return {
    form: 'one-row',
    ...grid,
    height,
    cap,
    water: Math.round(height * WATER),
    ...widths(cap, leave, dotColumns),
    rep: words > 0 ? rep : rep + left,
    words,
    after,
    large: cap * LARGE,
    small,
  };
}

function twoRows(room: Room, grid: Grid, most: number, mostCap: number): StripLayout {
  const leave = leaveWidth(room);
  const small = Math.min(grid.width / 22, most * 0.17);
  const across = grid.width / (NUMBER + leave + GAP + SECONDS);
  const cap = Math.max(1, Math.min((most - small * 1.9) * DIGITS, mostCap, across));
  const height = Math.floor(Math.min(most, cap / DIGITS + small * 2.6));
  const dotColumns = dotColumnsFor(room.swimmers, 2);
  const rep = grid.width * 0.46;
  return {
    form: 'two-rows',
    ...grid,
    height,
    cap,
    water: Math.round(height * WATER),
    ...widths(cap, leave, 0),
    dots: dotColumns * small * 0.5,
    dotColumns,
    rep,
    words: grid.width - rep - dotColumns * small * 0.5,
    after: 0,
    large: small,
    small,
  };
}

function widths(
  cap: number,
  leave: number,
  dotColumns: number,
): Pick<StripLayout, 'number' | 'leave' | 'seconds' | 'dots' | 'dotColumns'> {
  return {
    number: cap * NUMBER,
    leave: cap * (leave + GAP),
    seconds: cap * SECONDS,
    dots: dotColumns > 0 ? cap * (dotColumns * DOT + GAP) : 0,
    dotColumns,
  };
}

function leaveWidth(room: Room): number {
  return widthOf(room.hours ? '8:88:88' : '88:88') / CAP;
}

/** Dots stand in a block of so many rows at most; a lane of one needs none. */
function dotColumnsFor(swimmers: number, rows: number): number {
  if (swimmers <= 1) return 0;
  return swimmers <= 4 ? 2 : Math.max(Math.ceil(swimmers / rows), 3);
}

function fixed({ number, leave, seconds, dots }: StripLayout): number {
  return number + leave + seconds + dots;
}
