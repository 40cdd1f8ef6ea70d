/*
 * What a face of the clock is: it says how the board is divided around it, makes its elements in its place, and
 * paints them where something changes. A face is a file in this folder and an entry in `faces.ts`; nothing else knows it.
 */

import type { ClockChoice } from '../../../app/core/run/readings.ts';
import type { Millis } from '../../../app/core/units.ts';
import type { Flow } from '../board/flow.ts';

/** The board, in px: what the screen shows inside its inset. */
export interface FaceRoom {
  readonly width: number;
  readonly height: number;
  /** Of the height: the most that may stand above the lanes. */
  readonly headMost: number;
  /** 0 without a session: the clock has the board for itself. */
  readonly lanes: number;
  /** The widest reading there can be, `88:88`. */
  readonly widest: string;
  /** Whether the head says what is swum. */
  readonly words: boolean;
}

/** On the board, in px. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** How a face divides the board. */
export interface Division {
  readonly clock: Box;
  /** Of the head: what is swum, and the time of day. */
  readonly words: Box;
  /** Of the lanes. */
  readonly body: Box;
  /** The most that digits of leaves may be as drawn, so that the clock stays the largest thing there is. */
  readonly most: number;
}

/** What a face shows at one moment. */
export interface FaceNow {
  /** The clock, as a reading. */
  readonly text: string;
  readonly marks: readonly FaceMark[];
}

/** The next leave of a lane. */
export interface FaceMark {
  readonly lane: number;
  /** Where the hand will be then. */
  readonly hand: Millis;
  /** later: the hand comes there at least once more before. */
  readonly look: 'later' | 'waiting' | 'ready' | 'leaving';
}

export interface FacePainter {
  /** Touches the document only where something has changed. */
  paint(now: FaceNow): void;
  /** Of a face that has one: a hand that goes round in a minute from its top. */
  readonly hand: Flow | null;
}

/** Moves the hand of a face that has one. at: in ms past its top at t; behind: as `Pace` gives it. */
export function moveHand({ hand }: FacePainter, at: Millis, t: Millis, behind: number | null): void {
  if (behind === null) hand?.stand(at);
  else hand?.run(t + behind - at);
}

export interface FaceSettings {
  /** What stands at the top of a dial. */
  readonly top: '60' | '00';
}

export interface ClockFace {
  /** As the address asks for it. */
  readonly name: string;
  /** Which clock it shows where the address asks for none. */
  readonly usual: ClockChoice;
  /** Divisions to choose from; of those in which the leaves come out as large the first is taken. */
  measure(room: FaceRoom): readonly [Division, ...Division[]];
  /** The height in px of the digits or numerals that the clock is read by, in a box of that size. */
  numerals(size: Box): number;
  /** Makes the face in its box, which is empty. */
  place(box: HTMLElement, size: Box, settings: FaceSettings): FacePainter;
}
