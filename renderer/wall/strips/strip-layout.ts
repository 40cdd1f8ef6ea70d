/*
 * The strip of a lane: how large its digits are and where everything in it stands. The digits of the leave come
 * first; where what stands beside them would be too small to read, they give way a little.
 */

import { CAP, widthOf } from '../../ui/digits/digits.ts';
import type { Box } from '../faces/clock-face.ts';
import type { WallChoice } from '../screen/wall-choice.ts';

/** What the strips are laid out for. */
export interface Strips {
  readonly lanes: number;
  /** The most swimmers in a lane: each has a dot. */
  readonly swimmers: number;
  /** The widest reading there can be, `88:88`. */
  readonly widest: string;
  /** Whether the screen is wide; else it hangs on end. */
  readonly wide: boolean;
  /** Of the screen's shorter side. */
  readonly side: number;
  readonly shows: Shows;
}

/** What the screen's settings leave in a strip, and how the strips may stand. */
export type Shows = Pick<WallChoice, 'words' | 'after' | 'leavesOnly' | 'twoColumns'>;

/** From the edge that swimmers push off from, in px; no width where there is no room for it. */
export interface Place {
  readonly x: number;
  readonly width: number;
}

/** All in px; `cap` is the height of digits as drawn. */
export interface StripLayout {
  /** The words in columns beside the digits, all in one column there, or in lines below them. */
  readonly form: 'columns' | 'stack' | 'below';
  /** Of words that stand below the digits: one for all, one for rep and round and one for interval and target, or one for each. */
  readonly lines: 1 | 2 | 4;
  readonly columns: number;
  readonly rows: number;
  readonly width: number;
  readonly height: number;
  /** Between two strips of a column. */
  readonly gap: number;
  readonly cap: number;
  /** Height of what the digits take: the whole strip, unless words stand below them. */
  readonly main: number;
  /** Rows that they stand in: all in one, or the leave above lane number and seconds. */
  readonly tiers: 1 | 2;
  readonly number: Place;
  readonly leave: Place;
  readonly seconds: Place;
  readonly rep: Place;
  readonly interval: Place;
  readonly words: Place;
  readonly after: Place;
  /** Dots, and whose turn is next; in the place of what stands there otherwise. */
  readonly leaving: Place;
  readonly dot: number;
  /** Sizes of type: of rep, interval and target, and of lesser words. */
  readonly large: number;
  readonly small: number;
}

/** Height of the digits as a share of the strip's: the most, and from four lanes on about the least. */
const MOST_DIGITS = 0.9;
const LEAST_DIGITS = 0.765;
/** With a line of words below them, which needs every pixel. */
const DIGITS_ABOVE = 0.752;
const FEW = 3;

/** From so many lanes on they stand in two columns by themselves, where that makes the leaves larger. */
const TWO_COLUMNS = 8;

/** Widths in heights of the leave's digits. */
const NUMBER = 0.95;
const BEFORE_SECONDS = 0.36;
const SECONDS = 1.32;
const BEFORE_WORDS = 0.36;

/** Widths in sizes of the words: "round 2 of 3", "hold 1:35", "12/6 at 1:45", "then 12:00". */
const REP = 5.2;
const INTERVAL = 4.4;
const WORDS = 5;
const AFTER = 4.6;

/** All in one column: "hold 1:35" and "10 of 12" as wide as it is; a round, and whose turn is next, are set smaller there. */
export const STACKED = 3.8;

/** Words smaller than this share of the screen's shorter side count against the digits beside them. */
const READABLE = 0.032;

/** The largest leaves that are worth having: see `worth`. */
export function stripLayout(strips: Strips, body: Box, most: number): StripLayout {
  let best: StripLayout | null = null;
  for (const columns of mayHaveTwo(strips) ? [1, 2] : [1]) {
    const rows = Math.max(1, Math.ceil(strips.lanes / columns));
    const gutter = strips.side * 0.035;
    const grid = { columns, rows, width: Math.floor((body.width - (columns - 1) * gutter) / columns) };
    const room = { grid, height: body.height / rows, most, strips };
    const wide = strips.shows.leavesOnly ? [] : [inColumns(room, true)];
    const few = strips.lanes <= FEW ? [below(room, true), tiered(room)] : [];
    for (const candidate of [...wide, inColumns(room, false), stacked(room), below(room, false), ...few]) {
      if (!best || worth(candidate, strips) > worth(best, strips) * 1.001) best = candidate;
    }
  }
  const spare = body.height - best!.rows * best!.height;
  const gap = Math.floor(Math.min(spare / Math.max(1, best!.rows - 1), best!.height * 0.35));
  // A gap that looks like a fault is none.
  return { ...best!, gap: gap < best!.height * 0.06 ? 0 : gap };
}

/** Of the word that stands in place of a leave: as large as that, as far as the y of "in by 7:45" stays off the rope. */
export function wordSize({ cap, main, tiers }: Pick<StripLayout, 'cap' | 'main' | 'tiers'>): number {
  return Math.min(cap * 1.12, (main / tiers) * 0.78 + cap * 0.095);
}

function mayHaveTwo({ lanes, wide, shows }: Strips): boolean {
  return wide && lanes >= (shows.twoColumns ? 2 : TWO_COLUMNS);
}

/** Of the screen's shorter side: leaves that are smaller are worth less than they are high, because words are no good without them. */
const LEAST_LEAVE = 0.084;

/**
 * What a layout is worth: the height of its leaves, less where words come out too small to read, the interval has no room,
 * or all that few lanes say stands in one line, which leaves their width empty.
 */
export function worth({ cap, large, interval, form, lines }: StripLayout, { side, lanes, shows }: Strips): number {
  const readable = side * (lanes <= FEW ? READABLE * 1.6 : READABLE);
  const isThin = lanes <= FEW && form === 'below' && lines === 1;
  const whole = shows.leavesOnly || interval.width > 0 ? 1 : form === 'below' ? (isThin ? 0.95 : 1) : 0.8;
  const high = cap * Math.pow(Math.min(1, cap / (side * LEAST_LEAVE)), 2);
  return high * whole * Math.pow(Math.min(1, large / readable), weightOfWords(shows));
}

/** The less is said, the less its size counts against the leaves. */
function weightOfWords({ words, leavesOnly }: Shows): number {
  return leavesOnly ? 0.2 : words ? 0.8 : 0.25;
}

interface StripRoom {
  readonly grid: Pick<StripLayout, 'columns' | 'rows' | 'width'>;
  readonly height: number;
  readonly most: number;
  readonly strips: Strips;
}

function inColumns(room: StripRoom, withInterval: boolean): StripLayout {
  const { grid, height: most, strips } = room;
  const em = REP + (withInterval ? INTERVAL : 0);
  const cap = capFor(room, fixedWidth(room) + em * 0.36);
  const height = heightFor(room, cap);
  const left = grid.width - fixedWidth(room) * cap;
  // The leave after only where it does not cost the others.
  const withAfter = withInterval && strips.shows.after && left / (em + AFTER * 0.85) >= cap * 0.34;
  const large = Math.min(cap * 0.45, most * 0.4, left / (withAfter ? em + AFTER * 0.85 : em));
  const small = large * 0.85;
  const after = withAfter ? small * AFTER : 0;
  const spare = left - large * em - after;
  const words = strips.shows.words && spare >= small * WORDS ? spare : 0;
  const x = grid.width - left;
  const rep = { x, width: large * REP + (words === 0 ? spare * (withInterval ? 0.5 : 1) : 0) };
  const interval = {
    x: rep.x + rep.width,
    width: withInterval ? large * INTERVAL + (words === 0 ? spare * 0.5 : 0) : 0,
  };
  const own = { x: interval.x + interval.width, width: words };
  const leaving = words > 0 ? own : interval;
  return {
    ...basics(room, cap, height),
    form: 'columns',
    lines: 1,
    main: height,
    rep,
    interval,
    words: own,
    after: { x: grid.width - after, width: after },
    leaving,
    dot: dotSize(room, leaving.width - small * 0.5, large),
    large,
    small,
  };
}

function stacked(room: StripRoom): StripLayout {
  const { grid, strips } = room;
  const cap = capFor(room, fixedWidth(room) + REP * 0.24);
  const height = heightFor(room, cap);
  const left = grid.width - fixedWidth(room) * cap;
  const large = Math.min(height * 0.225, left / STACKED);
  const small = large * 0.85;
  const after = strips.shows.after && left - large * STACKED >= small * AFTER ? small * AFTER : 0;
  const column = { x: grid.width - left, width: left - after };
  return {
    ...basics(room, cap, height),
    form: 'stack',
    lines: 1,
    main: height,
    rep: column,
    interval: strips.shows.leavesOnly ? { x: 0, width: 0 } : column,
    words: { x: 0, width: 0 },
    after: { x: grid.width - after, width: after },
    leaving: column,
    dot: dotSize(room, column.width - small * 0.5, large),
    large,
    small,
  };
}

/** With few lanes two or four large lines may stand below the digits; else one, in the quarter of the strip that they leave. */
function below(room: StripRoom, oneLine: boolean): StripLayout {
  const { grid, height: most, strips } = room;
  const isFew = strips.lanes <= FEW && !strips.shows.leavesOnly && !oneLine;
  const across = Math.min(room.most, grid.width / (fixedWidth(room) - BEFORE_WORDS));
  const cap = Math.max(1, Math.min(across, most * (isFew ? 0.62 : DIGITS_ABOVE)));
  const height = Math.floor(isFew ? most : Math.min(most, cap / DIGITS_ABOVE));
  const main = cap * (isFew ? 1.16 : 1.04);
  const { lines, large } = linesIn(height - main, cap, room, oneLine);
  const x = isFew ? cap * NUMBER * 0.5 : large * 0.4;
  const line = { x, width: grid.width - x - large * 0.4 };
  return {
    ...basics(room, cap, height),
    form: 'below',
    lines,
    main,
    rep: line,
    interval: { x: 0, width: 0 },
    words: { x: 0, width: 0 },
    after: { x: 0, width: 0 },
    leaving: line,
    dot: Math.min(large * 0.5, (grid.width * 0.3) / Math.max(1, strips.swimmers)),
    large,
    small: large,
  };
}

/** The leave alone above lane number and seconds, as wide as the strip lets it; words below them: of few lanes in strips that are more high than wide. */
function tiered(room: StripRoom): StripLayout {
  const { grid, height: most, strips } = room;
  const leaveWidth = widthOf(strips.widest) / CAP;
  const cap = Math.max(1, Math.min(room.most, grid.width / leaveWidth, most * TIER));
  const main = cap * 1.13 * 2;
  const { lines, large } = linesIn(most - main, cap, room);
  // They end one below the other.
  const right = grid.width - Math.min(cap * 0.1, grid.width - cap * leaveWidth);
  const seconds = { x: right - cap * SECONDS, width: cap * SECONDS };
  const leave = { x: right - cap * leaveWidth, width: cap * leaveWidth };
  return {
    ...below(room, false),
    ...basics(room, cap, Math.floor(most)),
    leave,
    seconds,
    main,
    tiers: 2,
    lines,
    large,
    small: large,
  };
}

/** Of the strip's height: the digits of either of two rows. */
const TIER = 0.36;

/** One line of words for many lanes; for few as many as make them largest: rep and round, interval and target, or each of them. */
function linesIn(
  height: number,
  cap: number,
  { grid, strips }: StripRoom,
  oneLine = false,
): Pick<StripLayout, 'lines' | 'large'> {
  if (strips.lanes > FEW || strips.shows.leavesOnly || oneLine)
    return { lines: 1, large: Math.max(1, Math.min(height * 0.95, grid.width / 17)) };
  const two = Math.min(height * 0.4, grid.width / 15, cap * 0.6);
  const four = Math.min(height * 0.2, grid.width / 9, cap * 0.8);
  return four > two ? { lines: 4, large: Math.max(1, four) } : { lines: 2, large: Math.max(1, two) };
}

/** Widths in heights of the digits, of all that every strip has. */
function fixedWidth({ strips }: StripRoom): number {
  return NUMBER + widthOf(strips.widest) / CAP + BEFORE_SECONDS + SECONDS + BEFORE_WORDS;
}

function capFor({ grid, height, most }: StripRoom, widthInCaps: number): number {
  return Math.max(1, Math.min(height * MOST_DIGITS, most, grid.width / widthInCaps));
}

function heightFor({ height, strips }: StripRoom, cap: number): number {
  return Math.floor(strips.lanes <= FEW ? height : Math.min(height, cap / LEAST_DIGITS));
}

function basics(
  { grid, strips }: StripRoom,
  cap: number,
  height: number,
): Pick<
  StripLayout,
  'columns' | 'rows' | 'width' | 'height' | 'gap' | 'cap' | 'tiers' | 'number' | 'leave' | 'seconds'
> {
  const number = { x: 0, width: cap * NUMBER };
  const leave = { x: number.width, width: (cap * widthOf(strips.widest)) / CAP };
  const seconds = { x: leave.x + leave.width + cap * BEFORE_SECONDS, width: cap * SECONDS };
  return { ...grid, height, gap: 0, cap, tiers: 1, number, leave, seconds };
}

/** Dots stand in two rows at most, above whose turn is next. large: the size of that. */
function dotSize({ strips }: StripRoom, width: number, large: number): number {
  const rows = strips.swimmers > 6 ? 2 : 1;
  return Math.max(
    1,
    Math.min(large * (rows > 1 ? 0.45 : 0.55), width / Math.max(1, Math.ceil(strips.swimmers / rows))),
  );
}
