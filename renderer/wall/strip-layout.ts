/*
 * The strip of a lane: how high its digits are and where everything in it stands, in one of three
 * forms. Where lanes are many or the screen is narrow the digits come first; where they are few the
 * words grow.
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

/** All in px; `cap` is the height of digits as drawn. */
export interface StripLayout {
  /** All in one row; the words in a second one, where the screen is narrow; or high, with large words below the digits. */
  readonly form: 'one-row' | 'two-rows' | 'tall';
  readonly columns: number;
  readonly rows: number;
  readonly width: number;
  readonly height: number;
  readonly cap: number;
  /** Of the row of digits; the whole strip's where all is in one row. */
  readonly main: number;
  /** Lines of words below the digits: 0 in one row, 3 where the rep has the first of them. */
  readonly lines: 0 | 1 | 2 | 3;
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
  /** Those of the rep and the round. */
  readonly repLarge: number;
  readonly repSmall: number;
}

/** Of a strip: digits, and the water at its foot. The rest keeps them apart. */
const DIGITS = 0.855;
const WATER = 0.065;

/** Of the height: 20' of arc at 15 m from a 55-inch screen. Digits grow past it only where the words have room too. */
const PREFERRED = 0.127;

/** Of a high strip: the most that the digits take of it, and of the row they stand in. */
const TALL_DIGITS = 0.56;
const TALL_ROW = 0.88;

/** More lanes than this share two columns where the screen is wide. */
export const ONE_COLUMN = 10;

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

/** From line to line of the words below the digits, in sizes. */
const LINE = 1.15;

export function stripLayout(room: Room, width: number, height: number, mostCap: number): StripLayout {
  const columns = room.lanes > ONE_COLUMN && room.width > room.height ? 2 : 1;
  const rows = Math.max(1, Math.ceil(room.lanes / columns));
  // Two columns have the width of a gap between them.
  const own = Math.floor(columns === 1 ? width : (width - room.height * 0.04) / 2);
  const grid = { columns, rows, width: own };
  const one = oneRow(room, grid, height / rows, mostCap);
  const two = twoRows(room, grid, height / rows, mostCap);
  const flat = two.cap > one.cap * 1.1 ? two : one;
  const high = [true, false].map((beside) => tall(room, grid, height / rows, mostCap, beside));
  // Never at the cost of the digits, and not for smaller words.
  return high.find(({ cap, large }) => cap >= flat.cap * 0.98 && large >= flat.small * 0.95) ?? flat;
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
    main: height,
    lines: 0,
    water: Math.round(height * WATER),
    ...widths(cap, leave, dotColumns),
    rep: words > 0 ? rep : rep + left,
    words,
    after,
    large: cap * LARGE,
    small,
    repLarge: cap * LARGE,
    repSmall: small,
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
    main: height - small * 1.6,
    lines: 1,
    water: Math.round(height * WATER),
    ...widths(cap, leave, 0),
    dots: dotColumns * small * 0.5,
    dotColumns,
    rep,
    words: grid.width - rep - dotColumns * small * 0.5,
    after: 0,
    large: small,
    small,
    repLarge: small,
    repSmall: small,
  };
}

/** beside: whether the rep stands beside the digits, or in the first line below them. */
function tall(room: Room, grid: Grid, height: number, mostCap: number, beside: boolean): StripLayout {
  const leave = leaveWidth(room);
  const dotColumns = dotColumnsFor(room.swimmers, 3);
  const places = NUMBER + leave + GAP + SECONDS + dotColumns * DOT + (dotColumns > 0 ? GAP : 0);
  const across = beside ? places + SMALL * REP : NUMBER + leave + GAP + SECONDS;
  const cap = Math.max(1, Math.min(height * TALL_DIGITS, mostCap, grid.width / across));
  const main = cap / TALL_ROW;
  const water = Math.round(Math.min(height * WATER, cap * 0.16));
  const rest = (height - main - water) * 0.88;
  const lines = beside ? (rest >= cap * SMALL * 2.2 ? 2 : 1) : 3;
  // The last of several lines is smaller than the others.
  const large = Math.max(
    1,
    Math.min(rest / (LINE * (lines === 1 ? 1 : lines - 0.2)), cap * 0.85, grid.width / (beside ? 13 : 12)),
  );
  const small = lines === 1 ? large : large * 0.8;
  const after = small * AFTER;
  const own = { ...widths(cap, leave, beside ? dotColumns : 0), dotColumns };
  const indent = own.number;
  return {
    form: 'tall',
    ...grid,
    height: Math.floor(height),
    cap,
    main,
    lines,
    water,
    ...own,
    rep: beside ? grid.width - places * cap : grid.width - indent - after,
    words: grid.width - indent - after,
    after,
    large,
    small,
    repLarge: beside ? cap * LARGE : large,
    repSmall: beside ? cap * SMALL : small,
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

/** The width of the places that every strip has. */
export function fixedPlaces({ number, leave, seconds, dots }: StripLayout): number {
  return number + leave + seconds + dots;
}
