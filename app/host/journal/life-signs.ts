/*
 * Follows the run along the loop: hands each leave that has happened to the journal, as a sign of life,
 * and gives one at least every five seconds. With each, what can no longer be undone is let go of. When the run is over for good, its journal is closed.
 */

import type { Millis } from '../../core/units.ts';
import { leavesOf, type Leave } from '../../core/run/record.ts';
import { settle, stretchEnd } from '../../core/run/settle.ts';
import { isPending, nextLeave, type RunState } from '../../core/run/state.ts';
import type { Clock } from '../time/clock.ts';
import type { DeckHost } from '../deck/deck-host.ts';
import type { Journal } from './journal.ts';
import type { Consumer } from '../time/loop.ts';
import { isOverForGood } from '../recovery/run-end.ts';

/** In ms: the longest between two signs of life. */
const SIGN_EVERY: Millis = 5000;

export function lifeSigns(host: DeckHost, clock: Clock, journal: Journal): Consumer {
  let signedAt = -Infinity;
  /** Of a run that is closed, or about to be; one that was taken up again by then has another. */
  let closed: RunState | null = null;
  /** From one time to the next event nothing happens: most wake-ups fall between, and need not work it out again. */
  let quiet: { readonly state: RunState; readonly from: Millis; readonly event: Millis } | null = null;

  const eventFrom = (state: RunState, from: Millis): Millis => {
    if (quiet?.state !== state || from < quiet.from || from > quiet.event) {
      quiet = { state, from, event: nextEvent(state, from) };
    }
    return quiet.event;
  };

  return {
    due(from) {
      const run = host.current();
      if (!run || run.state === closed) return Infinity;
      return Math.min(run.openedAt + eventFrom(run.state, Math.ceil(from - run.openedAt)), signedAt + SIGN_EVERY);
    },
    take({ from, to }) {
      const run = host.current();
      if (!run || run.state === closed) return;
      const nothing = to - run.openedAt <= eventFrom(run.state, Math.ceil(from - run.openedAt));
      const leaves = nothing ? [] : leavesWithin(run.state, from - run.openedAt, to - run.openedAt);
      if (leaves.length === 0 && to < signedAt + SIGN_EVERY) return;
      signedAt = to;
      const at = Math.floor(to - run.openedAt);
      journal.alive({ run: run.id, at, leaves, ...clock.instant(), hostTime: to });
      void host.forgetUndone();
      if (!isOverForGood(run.state, at)) return;
      closed = run.state;
      void host.closeDone();
    },
  };
}

/** The leaves from `from`, included, to `to`, not included; in ms since the run was opened. */
export function leavesWithin(state: RunState, from: number, to: number): readonly Leave[] {
  // Times of leaves are whole: the last whole time before `to`, and after the one before `from`.
  return leavesOf(settle(state, Math.ceil(to) - 1), Math.ceil(from) - 1).filter(({ at }) => at < to);
}

/** When, at a whole time `from` or later, a rep leaves or a stretch ends by itself; Infinity for never. */
export function nextEvent(state: RunState, from: Millis): Millis {
  const now = settle(state, from - 1);
  // A leave on its way to the loudspeaker when a command came counts as left before its time has come.
  const soon = leavesOf(now, from - 1).map(({ at }) => at);
  if (now.phase !== 'going') return Math.min(Infinity, ...soon);
  const leaves = now.lanes.filter((lane) => isPending(lane) && lane.stoppedBy === null).map(nextLeave);
  return Math.min(stretchEnd(now), ...leaves, ...soon);
}
