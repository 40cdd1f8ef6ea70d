/*
 * From a picture of this screen in the coach's window: how far its leaves can be read, and what helps, told to the
 * window around it whenever that changes.
 */

import { reachOf, type ScreenSize } from '../../../app/core/screen/sight.ts';
import type { Lent, ScreenSight } from '../../link/lent-link.ts';
import type { DeckState } from '../../link/store.ts';
import { layoutFor } from '../layout.ts';
import { lanesShown, mostSwimmers, roomOf, type Size } from '../room.ts';
import { readWallChoice } from '../screen/wall-choice.ts';
import { heightsIn, helpsFor, KIND_WORDS, reachesOf, type Heights, type Kind } from './sight.ts';

export function tellSight(
  { link, onSight }: Lent,
  page: Pick<Window, 'innerWidth' | 'innerHeight' | 'location'>,
): void {
  let told: string | null = null;
  const tell = (): void => {
    const size = { width: page.innerWidth, height: page.innerHeight };
    const sight = sightOf(link.store.getState(), page.location.search, size);
    const text = JSON.stringify(sight);
    if (text !== told) onSight(sight);
    told = text;
  };
  link.store.subscribe(tell);
  tell();
}

/** null without lanes. search: as in `location.search`. */
export function sightOf(
  { run, screen }: Pick<DeckState, 'run' | 'screen'>,
  search: string,
  size: Size,
): ScreenSight | null {
  const choice = readWallChoice(search, screen?.settings);
  const lanes = lanesShown(run, choice);
  if (lanes.length === 0) return null;
  const room = roomOf(size, lanes.length, mostSwimmers(run, lanes), choice, false);
  const layout = layoutFor(room, choice.face);
  const screenSize = { ...size, diagonal: choice.diagonal };
  const { least, preferred } = reachOf(layout.lanes.cap, screenSize);
  const worst = worstOf(heightsIn(layout, choice), screenSize);
  return { least, preferred, worst, helps: helpsFor(room, choice, lanes) };
}

/** Words and intervals are for reading at the wall. */
const FROM_AFAR: readonly Kind[] = ['clock', 'leave', 'seconds', 'number'];

function worstOf(heights: Heights, screen: ScreenSize): ScreenSight['worst'] {
  const reaches = reachesOf(heights, screen).filter(({ kind }) => FROM_AFAR.includes(kind));
  const { kind, least } = reaches.reduce((worst, each) => (each.least < worst.least ? each : worst));
  return { name: KIND_WORDS[kind], least };
}
