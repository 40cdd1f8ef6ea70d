/*
 * Where everything on the wall screen stands and how large it is, worked out from the screen's size
 * and the number of lanes. What swimmers read from the water comes first: the digits of the leaves
 * are made as large as the strips allow, and everything else takes what is left.
 */

import type { ClockFace, FaceSize } from './faces/clock-face.ts';
import { stripLayout, fixedPlaces, ONE_COLUMN, type Room, type StripLayout } from './strip-layout.ts';

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
  readonly face: ClockFace;
  readonly clock: FaceSize;
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
  /** Of the line over the lanes. */
  readonly captionHeight: number;
  /** The digits of the time that is left of a talk or break. */
  readonly leftCap: number;
  readonly columns: number;
  readonly rows: number;
  readonly laneWidth: number;
  readonly laneHeight: number;
}

/** Overscan: television sets cut up to so much of each side. */
const INSET = 0.05;

/** Of the height, to each side: enough to move every edge off the pixels it stands on. */
const DRIFT = 0.003;

/**
 * Of the height: the most that the head may take; beside the words inset included. A screen on end has
 * the more height and the less width: there the clock may take the width, and the inset is not counted.
 */
const HEAD_MOST = 0.25;
const HEADS = [HEAD_MOST, 0.2375, 0.225];

/** Of the shorter side: what 16' of arc at 15 m are on a 55-inch screen, hung either way. */
const IN_SIGHT = 0.102;

/** The clock is the largest thing there is: leaves are at most so much of it. */
const BELOW_CLOCK = 0.92;

/** Of the height for large words and the time left, where they stand below each other. */
const LEFT_UNDER_WORDS = 0.34;

export function layoutFor(room: Room, face: ClockFace): Layout {
  const frame = frameOf(room, face);
  if (frame.head === 'stacked') {
    const wide = layoutWithHead(room, frame, wideClock(room, frame));
    if (wide.lanes.cap >= room.width * IN_SIGHT) return wide;
  }
  const tries = HEADS.map((share) => layoutWithHead(room, frame, headOf(room, frame, share)));
  const largest = Math.max(...tries.map((layout) => layout.lanes.cap));
  // Of heads that give the leaves much the same size the highest.
  return tries.find((layout) => layout.lanes.cap * 1.01 >= largest)!;
}

type Frame = Pick<Layout, 'insetX' | 'insetY' | 'drift' | 'width' | 'head' | 'face'>;

type HeadSize = Pick<Layout, 'headHeight' | 'clock'>;

function frameOf(room: Room, face: ClockFace): Frame {
  const drift = Math.max(1, Math.round(room.height * DRIFT));
  const insetX = Math.ceil(room.width * INSET) + drift;
  const insetY = Math.ceil(room.height * INSET) + drift;
  const head = room.width > room.height ? 'beside' : 'stacked';
  return { insetX, insetY, drift, width: room.width - 2 * insetX, head, face };
}

function headOf(room: Room, { insetY, width, head, face }: Frame, share: number): HeadSize {
  const headHeight = Math.floor(room.height * share) - insetY;
  const beside = head === 'beside';
  const most = { width: width * (beside ? 0.4 : 1), height: headHeight * (beside ? 0.86 : 0.56) };
  return { headHeight, clock: face.measure({ ...most, hours: room.hours }) };
}

/** The clock as wide as the screen, or as its words leave room for. */
function wideClock(room: Room, { width, face }: Frame): HeadSize {
  const words = width * 0.125;
  const most = room.height * HEAD_MOST;
  const clock = face.measure({ width, height: (most - words) / CLOCK_ROW, hours: room.hours });
  return { headHeight: Math.floor(clock.height * CLOCK_ROW + words), clock };
}

/** From the top of the clock to the words under it, in heights of its digits. */
const CLOCK_ROW = 1.14;

function layoutWithHead(room: Room, frame: Frame, { headHeight, clock }: HeadSize): Layout {
  const { width, insetY, head } = frame;
  const below = room.height - 2 * insetY - headHeight;
  const lanes = stripLayout(room, width, below, clock.cap * BELOW_CLOCK);
  const aside = Math.max(
    clock.width + clock.cap * 0.4,
    lanes.form === 'one-row' && lanes.columns === 1 ? fixedPlaces(lanes) : 0,
  );
  const wordsX = head === 'beside' ? Math.round(aside) : 0;
  const wordsHeight = Math.floor(head === 'beside' ? headHeight * 0.92 : headHeight - clock.height * CLOCK_ROW);
  const words = { wordsX, wordsWidth: width - wordsX, wordsHeight };
  const callout = calloutLayout(room, width, below, clock.cap);
  return { ...frame, headHeight, clock, ...words, lanes, callout };
}

/** The lanes get two fifths of what is below the head, on a screen on end more: they are read at the wall. */
function calloutLayout(room: Room, width: number, below: number, clockCap: number): CalloutLayout {
  const isWide = room.width > room.height;
  const most = isWide ? (room.lanes > ONE_COLUMN ? 3 : 2) : 1;
  const columns = Math.max(1, Math.min(most, room.lanes));
  const rows = Math.max(1, Math.ceil(room.lanes / columns));
  const laneHeight = Math.floor(Math.min(room.height * 0.09, (below * (isWide ? 0.4 : 0.55)) / rows));
  const laneWidth = Math.floor((width - (columns - 1) * room.height * 0.03) / columns);
  const captionHeight = Math.floor(Math.min(laneHeight * 0.6, room.height * 0.04));
  const height = below - rows * laneHeight - captionHeight;
  // Under its words it must leave room for them.
  const leftCap = isWide ? clockCap : Math.min(clockCap, height * LEFT_UNDER_WORDS);
  return { height, captionHeight, leftCap, columns, rows, laneWidth, laneHeight };
}
