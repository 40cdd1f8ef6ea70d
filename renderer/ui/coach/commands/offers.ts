/*
 * What the coach may do now, worked out once for all buttons: each second, with each snapshot, and when other lanes
 * are chosen. Until then the answers stay the same, so that a button is drawn again only when its own answer changes.
 * A press is checked again (`coach-actions.ts`).
 */

import type { Command } from '../../../../app/core/run/command/command.ts';
import type { RunView } from '../../../../app/core/run/view.ts';
import { secondsLeft } from '../../../../app/core/words/time/reading.ts';
import { commandLabel } from '../../../../app/core/run/command/command-label.ts';
import type { Frames, RunMoment } from '../frames.ts';
import { commandNamed } from './action-list.ts';
import type { CoachActions } from './coach-actions.ts';
import type { LaneChoice } from './lane-choice.ts';
import { primaryOf, type Primary } from './primary.ts';
import { refusalOf, type Refusal } from './refusal.ts';

export interface Offers {
  /** Calls back whenever an answer may have changed. Returns the function that ends this. */
  changed(call: () => void): () => void;
  /** Why a command cannot be given; null if it can. Also null without a run or a clock: then the host decides. */
  whyNot(command: Command): Refusal;
  /** The same object until something in it changes. Without a run or a clock, the last one. */
  primary(): Primary;
  /** The chosen lanes, empty for all: the same list until other lanes are chosen. */
  chosen(): readonly number[];
}

/** What the answers depend on, with those that have been worked out from it. */
interface Known {
  readonly moment: RunMoment | null;
  readonly choice: LaneChoice;
  readonly refusals: Map<string, Refusal>;
  hasPrimary: boolean;
}

export function createOffers(
  frames: Pick<Frames, 'changed' | 'shown'>,
  actions: Pick<CoachActions, 'store' | 'chosen'>,
): Offers {
  let known: Known | null = null;
  let primary: Primary = { main: null, beside: [] };
  let chosen: readonly number[] = [];

  function now(): Known {
    const moment = frames.shown();
    const { choice } = actions.store.getState();
    if (known && known.moment === moment && known.choice === choice) return known;
    chosen = kept(chosen, actions.chosen());
    known = { moment, choice, refusals: new Map(), hasPrimary: false };
    return known;
  }

  return {
    changed(call) {
      const forget = [frames.changed(call), actions.store.subscribe(call)];
      return () => forget.forEach((each) => each());
    },
    whyNot(command) {
      const { moment, refusals } = now();
      if (!moment) return null;
      const key = JSON.stringify(command);
      const before = refusals.get(key);
      if (before !== undefined) return before;
      const refusal = refusalOf(moment.view, command);
      refusals.set(key, refusal);
      return refusal;
    },
    primary() {
      const all = now();
      if (all.moment && !all.hasPrimary) primary = kept(primary, primaryOf(all.moment.view));
      all.hasPrimary = true;
      return primary;
    },
    chosen() {
      now();
      return chosen;
    },
  };
}

/** What Undo would undo and for how long, "Skip rep, 6 s left" or "Stop lane 3, 9 s left", or why it cannot. */
export function undoText({ undo, t }: Pick<RunView, 'undo' | 't'>, whyNot: Refusal): string {
  if (!undo) return 'nothing to undo';
  if (whyNot !== null) return 'too late to undo';
  const { command } = undo;
  const named = 'lanes' in command && command.lanes ? commandNamed(command) : commandLabel(command);
  return `${named}, ${secondsLeft(undo.until - t)} s left`;
}

/** The earlier value if both are equal, so that React sees no change. */
function kept<Value>(before: Value, after: Value): Value {
  return JSON.stringify(before) === JSON.stringify(after) ? before : after;
}
