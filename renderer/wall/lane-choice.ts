/*
 * What the address of a wall screen asks for: `?lanes=1-4` or `?lanes=1,3` for some of the lanes,
 * `?clock=run` or `?clock=pool` for another clock, `?flip` where swimmers push off at the other side.
 */

import type { ClockChoice } from '../../app/core/run/readings.ts';
import type { ClockFace } from './faces/clock-face.ts';
import { faceNamed } from './faces/faces.ts';

export interface WallChoice {
  /** null for all lanes. */
  readonly lanes: ReadonlySet<number> | null;
  readonly clock: ClockChoice;
  readonly face: ClockFace;
  readonly flip: boolean;
}

/** search: as in `location.search`. What cannot be read asks for nothing: the screen shows all lanes. */
export function readWallChoice(search: string): WallChoice {
  const asked = new URLSearchParams(search);
  const clock = asked.get('clock');
  return {
    lanes: readLanes(asked.get('lanes') ?? ''),
    clock: clock === 'run' || clock === 'pool' ? clock : 'stretch',
    face: faceNamed(asked.get('face')),
    flip: asked.has('flip'),
  };
}

/** The chosen ones of the lanes there are; all of them where none of those chosen is there. */
export function chosenLanes(all: readonly number[], choice: WallChoice): readonly number[] {
  const { lanes } = choice;
  const chosen = lanes ? all.filter((lane) => lanes.has(lane)) : all;
  const shown = chosen.length > 0 ? chosen : all;
  return choice.flip ? [...shown].reverse() : shown;
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
