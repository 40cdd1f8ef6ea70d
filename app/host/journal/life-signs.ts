/*
 * Follows the run along the loop. It writes a sign of life with the leaves that have happened into the journal, at
 * least every five seconds. With each, it lets go of what can no longer be undone. When the run is over for good, it
 * closes the journal.
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
  /** The state of a run that is closed or about to be. A run that went on after all has another state. */
  let closed: RunState | null = null;
  /** A span in which nothing happens, up to the next event. Most wake-ups fall into it and need no work. */
  let quiet: { readonly state: RunState; readonly event: Millis } | null = null;

  const eventFrom = (state: RunState, from: Millis): Millis => {
    // The loop's spans only go forward.
    if (quiet?.state !== state || from > quiet.event) quiet = { state, event: nextEvent(state, from) };
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

/** The leaves with from <= time < to, in ms since the run was opened. */
export function leavesWithin(state: RunState, from: number, to: number): readonly Leave[] {
  // Leaves have whole times, so these are the last whole time before `to` and the last one before `from`.
  return leavesOf(settle(state, Math.ceil(to) - 1), Math.ceil(from) - 1).filter(({ at }) => at < to);
}

/** The first time at `from` or later (whole) at which a rep leaves or a stretch ends by itself; Infinity for never. */
export function nextEvent(state: RunState, from: Millis): Millis {
  const now = settle(state, from - 1);
  // A leave that was on its way to the loudspeaker when a command came has left before its time.
  const soon = leavesOf(now, from - 1).map(({ at }) => at);
  if (now.phase !== 'going') return Math.min(Infinity, ...soon);
  const leaves = now.lanes.filter((lane) => isPending(lane) && lane.stoppedBy === null).map(nextLeave);
  return Math.min(stretchEnd(now), ...leaves, ...soon);
}
