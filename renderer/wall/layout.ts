/*
 * Where everything on the wall screen stands and how large it is, worked out from the screen's size, the lanes and
 * the clock's face. What swimmers read from the water comes first: of the ways in which the face divides the board
 * the one is taken that makes the leaves largest, and everything else takes what is left.
 */

import type { Box, ClockFace } from './faces/clock-face.ts';
import { stripLayout, worth, type Shows, type StripLayout, type Strips } from './strips/strip-layout.ts';

export interface Room {
  /** The screen, in px. */
  readonly width: number;
  readonly height: number;
  /** 0 without a session. */
  readonly lanes: number;
  /** The most swimmers in a lane: each has a dot. */
  readonly swimmers: number;
  /** The widest reading there can be, `88:88`. */
  readonly widest: string;
  /** Of each side: what a television may cut. */
  readonly inset: number;
  readonly shows: Shows;
}

/** All in px. */
export interface Layout {
  /** Kept clear at every side, drift included. */
  readonly insetX: number;
  readonly insetY: number;
  /** How far the whole picture may drift from its place. */
  readonly drift: number;
  readonly width: number;
  readonly height: number;
  readonly face: ClockFace;
  readonly clock: Box;
  readonly words: Box;
  readonly body: Box;
  readonly lanes: StripLayout;
  readonly callout: CalloutLayout;
}

/** While nobody swims: large words with the time that is left of a talk or break, and a small place for each lane. */
export interface CalloutLayout {
  /** Whether the lanes stand in a column beside the words; else below them. */
  readonly aside: boolean;
  /** Of the words. */
  readonly width: number;
  readonly height: number;
  /** Of the line over the lanes. */
  readonly captionHeight: number;
  /** Of the time left, its digits. */
  readonly leftCap: number;
  readonly columns: number;
  readonly rows: number;
  readonly laneWidth: number;
  readonly laneHeight: number;
}

/** Of the height, to each side: enough to move every edge off the pixels it stands on. */
const DRIFT = 0.003;

/** Of the height: the most that may stand above the lanes, inset included; more with few of them, or on end. */
const HEAD = 0.25;
const HIGH_HEAD = 0.4;
const FEW = 3;

/** Of ways to divide the board that give nearly the largest leaves the face's first is taken: the highest head, for its words. */
const NEARLY = 1.05;

export function layoutFor(room: Room, face: ClockFace): Layout {
  const drift = Math.max(1, Math.round(room.height * DRIFT));
  const insetX = Math.ceil(room.width * room.inset) + drift;
  const insetY = Math.ceil(room.height * room.inset) + drift;
  const [width, height] = [room.width - 2 * insetX, room.height - 2 * insetY];
  const wide = room.width > room.height;
  const strips: Strips = { ...room, wide, side: Math.min(room.width, room.height) };
  const headMost = Math.floor(room.height * (wide && room.lanes > FEW ? HEAD : HIGH_HEAD)) - insetY;
  const tries = face
    .measure({ width, height, headMost, lanes: room.lanes, widest: room.widest, words: room.shows.words })
    .map((division) => ({ division, lanes: stripLayout(strips, division.body, division.most) }));
  const best = Math.max(...tries.map(({ lanes }) => worth(lanes, strips)));
  const nearly = room.shows.words ? NEARLY : 1;
  const { division, lanes } = tries.find((each) => worth(each.lanes, strips) * nearly >= best)!;
  const { clock, body } = division;
  const words = alignedWords(division.words, body, lanes);
  const callout = calloutLayout(strips, body, Math.min(clock.height, body.height * 0.45));
  return { insetX, insetY, drift, width, height, face, clock, words, body, lanes, callout };
}

/** Whether the head's words stand one below the other in a column beside a dial: then they break into several lines. */
export function isColumn({ width, height }: Box): boolean {
  return height > width;
}

/** Words beside the clock begin where the words of the strips do. */
function alignedWords(words: Box, body: Box, { form, columns, rep }: StripLayout): Box {
  if (isColumn(words)) return words;
  const x = body.x + rep.x;
  const isAside = words.x > 0 && words.x < x && form !== 'below' && columns === 1;
  return isAside && x < words.x + words.width * 0.4 ? { ...words, x, width: words.width - (x - words.x) } : words;
}

/** On a broad screen each half is filled: words to one side, lanes to the other. */
function calloutLayout(strips: Strips, body: Box, clockCap: number): CalloutLayout {
  const isBroad = strips.wide && body.width > body.height * BROAD;
  return isBroad ? lanesAside(strips, body, clockCap) : lanesBelow(strips, body, clockCap);
}

const BROAD = 1.3;

/** Of the width: the lanes' share, and what keeps them from the words. */
const ASIDE = 0.46;
const BETWEEN = 0.04;

function lanesAside({ lanes, side }: Strips, body: Box, clockCap: number): CalloutLayout {
  const rows = Math.max(1, lanes);
  const laneWidth = Math.floor(body.width * ASIDE);
  const width = Math.floor(body.width * (1 - ASIDE - BETWEEN));
  const captionHeight = Math.floor(Math.min(side * 0.055, body.height * 0.08));
  const laneHeight = Math.floor(Math.min(side * 0.15, laneWidth * 0.17, (body.height - captionHeight) / rows));
  const leftCap = Math.min(clockCap, body.height * 0.26, width * 0.28);
  const { height } = body;
  return { aside: true, width, height, captionHeight, leftCap, columns: 1, rows, laneWidth, laneHeight };
}

/** The lanes get two fifths of the body, on a screen on end more: they are read at the wall. */
function lanesBelow({ lanes, wide, side }: Strips, body: Box, clockCap: number): CalloutLayout {
  const columns = columnsFor(lanes, wide, body);
  const rows = Math.max(1, Math.ceil(lanes / columns));
  const gap = Math.floor(side * 0.03);
  const laneHeight = Math.floor(Math.min(side * 0.11, (body.height * (wide ? 0.42 : 0.55)) / rows));
  const laneWidth = Math.floor((body.width - (columns - 1) * gap) / columns);
  const captionHeight = Math.floor(Math.min(laneHeight * 0.7, side * 0.05));
  const height = body.height - rows * laneHeight - captionHeight;
  const leftCap = Math.min(clockCap, height * 0.3, body.width * 0.13);
  return { aside: false, width: body.width, height, captionHeight, leftCap, columns, rows, laneWidth, laneHeight };
}

function columnsFor(lanes: number, wide: boolean, body: Box): number {
  const most = wide ? (lanes > 8 ? 3 : 2) : 1;
  const narrow = body.width < body.height * 1.2;
  return Math.max(1, Math.min(narrow ? Math.min(most, 2) : most, Math.ceil(lanes / 2)));
}
