/*
 * The lanes of the session that no connected wall screen shows: their swimmers see no leave.
 */

import { lanesOnNone, readLanes, type ChosenLanes } from '../../../app/core/screen/screen-lanes.ts';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { capital } from '../../../app/core/words/phrase.ts';
import type { ScreenTold } from '../../link/store.ts';

/** Empty where each lane is on a screen, and without any screen: then it is not the settings that are to blame. */
export function unseenText(lanes: readonly number[], screens: readonly ScreenTold[]): string {
  const shown = screens.flatMap(lanesChosen);
  const unseen = shown.length === 0 ? [] : lanesOnNone(lanes, shown);
  if (unseen.length === 0) return '';
  const [are, them] = unseen.length === 1 ? ['is', 'it'] : ['are', 'them'];
  return `${capital(lanesNamed(unseen))} ${are} on no screen: choose ${them}, or All lanes, in the settings of one.`;
}

/** On each that is connected under one name. Its address decides over its settings. */
function lanesChosen({ connected, settings: { lanes } }: ScreenTold): readonly ChosenLanes[] {
  return connected.map(
    ({ search }) => readLanes(new URLSearchParams(search).get('lanes') ?? '') ?? (lanes && new Set(lanes)),
  );
}
