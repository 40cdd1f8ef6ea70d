/*
 * What the layout of a screen goes by: its size, the lanes it shows with their swimmers, and how wide readings become.
 */

import type { WallChoice } from './screen/wall-choice.ts';
import { chosenLanes } from './screen/wall-choice.ts';
import type { DeckRun } from '../link/store.ts';
import type { Room } from './layout.ts';

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** The lanes of the run that the screen shows, in the order they stand in; none without a run. */
export function lanesShown(run: DeckRun | null, choice: WallChoice): readonly number[] {
  return run
    ? chosenLanes(
        run.given.lanes.map(({ number }) => number),
        choice,
      )
    : [];
}

export function mostSwimmers(run: DeckRun | null, lanes: readonly number[]): number {
  const all = run ? run.given.lanes : [];
  return Math.max(1, ...all.filter(({ number }) => lanes.includes(number)).map(({ swimmers }) => swimmers));
}

/** hours: whether readings go past the hour. */
export function roomOf(size: Size, lanes: number, swimmers: number, choice: WallChoice, hours: boolean): Room {
  const widest = choice.clock === 'pool' ? ':88' : hours ? '8:88:88' : '88:88';
  return { ...size, lanes, swimmers, widest, inset: choice.inset, shows: choice };
}
