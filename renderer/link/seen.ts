/*
 * What a screen shows when a command is given there, to go with the command: it is refused where that is no longer so.
 */

import type { Command } from '../../app/core/run/command/command.ts';
import { touchesReps } from '../../app/core/run/command/expected-reps.ts';
import { seenCommands, type SeenCommands } from '../../app/core/run/command/overtaken.ts';
import type { RunView } from '../../app/core/run/view.ts';
import type { ExpectedRep } from '../../app/wire/messages.ts';

/** By lane number, the rep that a screen showed as the lane's next; null for none. */
export type ExpectedReps = { readonly [lane: string]: ExpectedRep | null };

export interface Seen extends SeenCommands {
  /** Of the lanes that the command is for, where it drops, moves or repeats reps. */
  readonly expected?: ExpectedReps;
}

export function seenIn(view: RunView, command: Command): Seen {
  return { ...(touchesReps(command) ? { expected: expectedFor(view, command) } : {}), ...seenCommands(command, view) };
}

function expectedFor(view: RunView, command: Command): ExpectedReps {
  const named = 'lanes' in command ? command.lanes : undefined;
  const expected: { [lane: string]: ExpectedRep | null } = {};
  for (const { number, next } of view.lanes) {
    if (named && !named.includes(number)) continue;
    expected[number] = next && {
      line: next.rep.set.line,
      rounds: next.rounds.map(({ round }) => round),
      rep: next.rep.rep,
    };
  }
  for (const lane of named ?? []) expected[lane] ??= null;
  return expected;
}
