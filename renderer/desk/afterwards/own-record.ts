/*
 * The record of the run that this window has followed. It is made as the host makes it from the journal, so that it
 * stands here at once, with or without the host.
 */

import type { KeptRun } from '../../../app/core/record/kept-run.ts';
import { openedAtText } from '../../../app/core/record/opened-at.ts';
import { MINUTE, type Millis } from '../../../app/core/units.ts';
import type { DeckRun } from '../../link/store.ts';

/** until: how far it is known, in ms since it was opened; `now`: when that is. */
export function keptFrom(run: DeckRun, until: Millis, now: Date): KeptRun {
  const here = now.getTime() - now.getTimezoneOffset() * MINUTE - until;
  const { id, plan, clockPhase, commands, away, openedAtTimeOfDay } = run;
  return {
    run: id,
    openedAt: openedAtText(here, openedAtTimeOfDay),
    openedAtTimeOfDay,
    ended: 'done',
    plan,
    clockPhase,
    commands,
    away,
    until,
    seenAt: until,
  };
}
