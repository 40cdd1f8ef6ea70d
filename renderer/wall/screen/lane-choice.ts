/*
 * What the address of a wall screen asks for. What cannot be read asks for nothing.
 *
 *   ?lanes=1-4, ?lanes=1,3    some of the lanes
 *   ?clock=run, ?clock=pool   another clock than the stretch's
 *   ?face=sweep, ?top=00      a 60-second sweep, with 00 at its top
 *   ?from=right               swimmers push off at the right
 *   ?order=up                 lane 1 at the bottom
 *   ?flip                     both of these
 *   ?inset=0 to ?inset=10     kept clear at every side, in per cent
 *   ?end                      end of the session and minutes in hand
 */

import type { ClockChoice } from '../../../app/core/run/readings.ts';
import type { ClockFace, FaceSettings } from '../faces/clock-face.ts';
import { faceNamed } from '../faces/faces.ts';

/** The side at which swimmers push off. */
export type PushOff = 'left' | 'right';

export interface WallChoice extends FaceSettings {
  /** null for all lanes. */
  readonly lanes: ReadonlySet<number> | null;
  readonly clock: ClockChoice;
  readonly face: ClockFace;
  readonly from: PushOff;
  /** down: lane 1 at the top. */
  readonly order: 'down' | 'up';
  /** A share of the width and the height. */
  readonly inset: number;
  readonly end: boolean;
}

/** Overscan: television sets cut up to so much of each side. */
const INSET = 5;
const MOST_INSET = 10;

/** search: as in `location.search`. */
export function readWallChoice(search: string): WallChoice {
  const asked = new URLSearchParams(search);
  const oneOf = <Value extends string>(name: string, values: readonly Value[], otherwise: Value): Value =>
    values.find((value) => value === asked.get(name)) ?? otherwise;
  const face = faceNamed(asked.get('face'));
  const flip = asked.has('flip');
  return {
    lanes: readLanes(asked.get('lanes') ?? ''),
    face,
    clock: oneOf('clock', ['stretch', 'run', 'pool'], face.usual),
    top: oneOf('top', ['60', '00'], '60'),
    from: oneOf('from', ['left', 'right'], flip ? 'right' : 'left'),
    order: oneOf('order', ['down', 'up'], flip ? 'up' : 'down'),
    inset: readInset(asked.get('inset') ?? ''),
    end: asked.has('end'),
  };
}

/** The chosen ones of the lanes there are, in the order they stand in; all of them where none of those chosen is there. */
export function chosenLanes(all: readonly number[], { lanes, order }: WallChoice): readonly number[] {
  const chosen = lanes ? all.filter((lane) => lanes.has(lane)) : all;
  const shown = chosen.length > 0 ? chosen : all;
  return order === 'up' ? [...shown].reverse() : shown;
}

function readInset(text: string): number {
  const percent = /^\d{1,2}(\.\d+)?$/.test(text) ? Number(text) : INSET;
  return (percent <= MOST_INSET ? percent : INSET) / 100;
}

function readLanes(text: string): ReadonlySet<number> | null {
  const lanes = new Set<number>();
  for (const item of text.split(',')) {
    const range = /^\s*(\d{1,2})(?:\s*-\s*(\d{1,2}))?\s*$/.exec(item);
    if (!range) continue;
    const first = Number(range[1]);
    const last = Number(range[2] ?? range[1]);
    for (let lane = Math.min(first, last); lane <= Math.max(first, last); lane++) lanes.add(lane);
  }
  return lanes.size > 0 ? lanes : null;
}
