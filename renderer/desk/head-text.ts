/*
 * The head's words: the part, the set as written, the round where all lanes are in the same, and what
 * comes next.
 */

import { reading } from '../../app/core/reading.ts';
import { currentStretch } from '../../app/core/run/state.ts';
import type { LaneView, RunView } from '../../app/core/run/view.ts';
import type { Rep, Round } from '../../app/core/plan/plan.ts';
import { itemIndexOf, itemWords } from '../ui/set-words.ts';
import { lineAfterNow, outlineRows } from './outline-rows.ts';

export interface HeadText {
  readonly part: string;
  readonly set: string;
  readonly then: string;
  /** null where lanes are in different rounds, or in none. */
  readonly rounds: readonly Round[] | null;
}

export function headText(view: RunView): HeadText {
  const { state, phase } = view;
  const stretch = currentStretch(state);
  const reps = view.lanes.map(repOf).filter((each) => each !== null);
  const rep = reps[0];
  if (stretch.kind !== 'swim') {
    const words = stretch.words === '' ? '' : `: ${stretch.words}`;
    const set = `${stretch.kind === 'talk' ? 'Talk' : 'Break'} ${reading(stretch.time)}${words}`;
    return { part: stretch.part, set, then: followingText(view), rounds: null };
  }
  const part = state.plan.session.parts[stretch.partIndex];
  const item = part && rep ? part.items[itemIndexOf(part, rep.set.line)] : undefined;
  const set = item ? itemWords(item) : '';
  const rounds = reps.map(({ set: written }) => written.rounds);
  const same = rounds.every((each) => JSON.stringify(each) === JSON.stringify(rounds[0]));
  return {
    part: stretch.part,
    set: phase === 'waiting' ? `Next: ${set}` : set,
    then: followingText(view),
    rounds: same && rounds[0] && rounds[0].length > 0 ? rounds[0] : null,
  };
}

/** What a lane will swim next in this stretch, or swam last in it. */
function repOf({ state, next, last }: LaneView): Rep | null {
  if (state === 'out' || state === 'absent') return null;
  return next ? next.rep : last ? last.rep : null;
}

function followingText(view: RunView): string {
  const next = lineAfterNow(outlineRows(view));
  return next ? `Then ${next.text}` : 'The last of the session';
}
