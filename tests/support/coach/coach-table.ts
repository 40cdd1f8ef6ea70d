/*
 * The tools that components of the coach's screens need in a test. Commands are kept in a list instead of being sent;
 * the test says at which time the run is seen.
 */

import type { Command } from '../../../app/core/run/command/command.ts';
import type { RunState } from '../../../app/core/run/state.ts';
import { view } from '../../../app/core/run/view.ts';
import type { Link } from '../../../renderer/link/link.ts';
import { createDeckStore, type DeckRun } from '../../../renderer/link/store.ts';
import type { Frames, RunMoment } from '../../../renderer/ui/coach/frames.ts';
import { createCoachActions } from '../../../renderer/ui/coach/commands/coach-actions.ts';
import { createOffers } from '../../../renderer/ui/coach/commands/offers.ts';
import type { Tools } from '../../../renderer/ui/coach/use-deck.ts';
import { pageTouches } from './page-touches.ts';

export interface CoachTable {
  readonly tools: Tools;
  /** As given, none of them carried out. */
  readonly sent: readonly Command[];
  /** The run's t at the next press, and the moment that is drawn then. */
  at(t: number): RunMoment;
  said(): string | undefined;
}

export function coachTable(state: RunState): CoachTable {
  const store = createDeckStore();
  const sent: Command[] = [];
  let now = 0;
  const run = { id: 'run', plan: state.plan, state, commands: [], openedAtTimeOfDay: 0 } as unknown as DeckRun;
  store.setState({ status: 'live', run });
  const link = {
    store,
    now: () => now,
    exactNow: () => now,
    touch: () => new Promise(() => undefined),
    command: (command: Command) => {
      sent.push(command);
      return Promise.resolve({ ok: false, at: null, why: 'told' });
    },
  } as unknown as Link;
  const latest = (): RunMoment => ({ run, view: view(state, now) });
  const frames = {
    draw: () => () => undefined,
    latest,
    changed: () => () => undefined,
    shown: latest,
  } as unknown as Frames;
  const actions = createCoachActions(link, () => now, null);
  return {
    tools: { link, frames, actions, offers: createOffers(frames, actions), touches: pageTouches(link) },
    sent,
    at: (t) => {
      now = t;
      return latest();
    },
    said: () => actions.store.getState().feedback?.text,
  };
}
