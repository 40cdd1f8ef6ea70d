/*
 * What a screen shows as each lane's next rep, to go with a command that drops, moves or repeats reps.
 */

import type { RunView } from '../../app/core/run/view.ts';
import type { ExpectedRep } from '../../app/wire/messages.ts';
import type { ExpectedReps } from './outbox.ts';

export function expectedRepsIn(view: RunView): ExpectedReps {
  const expected: { [lane: string]: ExpectedRep | null } = {};
  for (const { number, next } of view.lanes) {
    expected[number] = next && {
      line: next.rep.set.line,
      rounds: next.rounds.map(({ round }) => round),
      rep: next.rep.rep,
    };
  }
  return expected;
}
