/*
 * From how far away each kind of text on a wall screen can be read, and what would help: all worked out from the
 * layout alone, so that it is known of a screen that stands elsewhere. What is measured on this screen as it is drawn
 * is in `drawn.ts`.
 */

import { reachOf, type Reach, type ScreenSize } from '../../../app/core/screen/sight.ts';
import { CAP } from '../../ui/digits/digits.ts';
import { digitsFace } from '../faces/digits-face.ts';
import { layoutFor, type Layout, type Room } from '../layout.ts';
import type { WallChoice } from '../screen/wall-choice.ts';

/** In order of importance. */
export const KINDS = ['clock', 'leave', 'seconds', 'number', 'rep', 'interval', 'words', 'head'] as const;

export type Kind = (typeof KINDS)[number];

export const KIND_WORDS: { readonly [kind in Kind]: string } = {
  clock: 'clock',
  leave: 'leaves',
  seconds: 'seconds to go',
  number: 'lane numbers',
  rep: 'rep and round',
  interval: 'interval and target',
  words: 'words in the lanes',
  head: 'what is swum, at the top',
};

/** The height of digits and capitals in px; what this screen does not show is not in it. */
export type Heights = { readonly [kind in Kind]?: number };

/** As the layout means them; words that are long may be drawn smaller. */
export function heightsIn(
  { face, clock, lanes, words }: Layout,
  { words: saysWords, leavesOnly }: WallChoice,
): Heights {
  const { cap, large, small, form, interval } = lanes;
  const hasInterval = !leavesOnly && (form === 'below' || interval.width > 0);
  return {
    clock: face.numerals(clock),
    leave: cap,
    seconds: cap * WAITING_SECONDS,
    number: cap * NUMBER,
    rep: large * CAP,
    ...(hasInterval ? { interval: large * CAP } : {}),
    ...(lanes.words.width > 0 ? { words: small * CAP } : {}),
    ...(saysWords ? { head: words.height * SET * CAP } : {}),
  };
}

/** Of the leave's digits; the strips' style sheet has the same. */
const WAITING_SECONDS = 0.84;
const NUMBER = 0.62;

/** Of the head's height: the set that is swum. */
const SET = 0.38;

export interface KindReach extends Reach {
  readonly kind: Kind;
}

export function reachesOf(heights: Heights, screen: ScreenSize): readonly KindReach[] {
  return KINDS.flatMap((kind) => {
    const height = heights[kind];
    return height === undefined ? [] : [{ kind, ...reachOf(height, screen) }];
  });
}

/** Something to do about leaves that are too small, or a dial whose numerals are. */
export interface Help {
  readonly kind: 'fewer words' | 'two columns' | 'shared' | 'leaves only' | 'digits';
  /** The lanes that this screen shows then: fewer where they are shared with another. */
  readonly lanes: readonly number[];
  /** To how many metres its leaves could be read then; with digits in place of a dial, its clock. */
  readonly least: number;
}

/**
 * What makes the leaves readable from a metre farther or more, and the clock no smaller: the least change first; then
 * what makes the clock so, and leaves the leaves far enough: on a dial nothing else makes its numerals much larger. lanes:
 * those that the screen shows, in their order.
 */
export function helpsFor(room: Room, choice: WallChoice, lanes: readonly number[]): readonly Help[] {
  if (lanes.length === 0) return [];
  const drawnWith = (change: Partial<WallChoice>, of = room.lanes): Drawn => {
    const changed = { ...choice, ...change };
    return drawnIn(layoutFor({ ...room, lanes: of, shows: changed }, changed.face));
  };
  // In lane order, wherever lane 1 stands.
  const half = [...lanes].sort((a, b) => a - b).slice(0, Math.ceil(lanes.length / 2));
  const tries: readonly { readonly kind: Help['kind']; readonly then: Drawn; readonly lanes: readonly number[] }[] = [
    { kind: 'fewer words', then: drawnWith({ words: false, after: false }), lanes },
    { kind: 'two columns', then: drawnWith({ twoColumns: true }), lanes },
    { kind: 'shared', then: drawnWith({}, half.length), lanes: half },
    { kind: 'leaves only', then: drawnWith({ words: false, after: false, twoColumns: true, leavesOnly: true }), lanes },
  ];
  const now = drawnWith({});
  const screen = { ...room, diagonal: choice.diagonal };
  const leastOf = ({ cap }: Drawn): number => reachOf(cap, screen).least;
  const helps: Help[] = tries
    .filter(({ then }) => metres(leastOf(then)) > metres(leastOf(now)) && then.clock >= now.clock)
    .map(({ kind, then, lanes: kept }) => ({ kind, lanes: kept, least: leastOf(then) }));
  const inDigits = drawnWith({ face: digitsFace });
  const { least } = reachOf(inDigits.clock, screen);
  const isFarther = metres(least) > metres(reachOf(now.clock, screen).least);
  return isFarther && metres(leastOf(inDigits)) >= Math.min(metres(leastOf(now)), choice.reader)
    ? [...helps, { kind: 'digits', lanes, least }]
    : helps;
}

/** The height in px of the leaves, and of what the clock is read by. */
interface Drawn {
  readonly cap: number;
  readonly clock: number;
}

function drawnIn({ lanes, face, clock }: Layout): Drawn {
  return { cap: lanes.cap, clock: face.numerals(clock) };
}

/** How far a screen's leaves can be read, and what helps. */
export interface Sight extends Reach {
  readonly helps: readonly Help[];
}

/** null where no leaves are shown. lanes: those that the screen shows, in their order. */
export function sightOf(room: Room, choice: WallChoice, lanes: readonly number[]): Sight | null {
  if (lanes.length === 0) return null;
  const { cap } = layoutFor(room, choice.face).lanes;
  return { ...reachOf(cap, { ...room, diagonal: choice.diagonal }), helps: helpsFor(room, choice, lanes) };
}

/** "to 18 m, well to 14 m": whole metres, rounded down so that nobody is promised too much. */
export function reachText({ least, preferred }: Reach): string {
  return `to ${metres(least)} m, well to ${metres(preferred)} m`;
}

export function metres(distance: number): number {
  return Math.floor(distance + 0.05);
}
