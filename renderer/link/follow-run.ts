/*
 * From a snapshot to a run: the plan is read once, and where the new list of commands only goes on
 * from the one before, only what is new is folded.
 */

import { apply } from '../../app/core/run/fold.ts';
import type { Command } from '../../app/core/run/command/command.ts';
import { readCommand } from '../../app/core/run/command/read-command.ts';
import { openRun } from '../../app/core/run/state.ts';
import { givenIn } from '../../app/core/run/view/given.ts';
import { openPlan } from '../../app/core/plan/open-plan.ts';
import type { Result } from '../../app/core/result.ts';
import type { Source } from '../../app/core/plan/plan.ts';
import type { Snapshot } from '../../app/wire/messages.ts';
import type { DeckRun, GivenCommand } from './store.ts';

export type SnapshotRun = NonNullable<Snapshot['run']>;

/** Session texts by their hash, as the host has sent them on this connection. */
export type Texts = ReadonlyMap<string, Source>;

/** A run with what it was made from, so that the next snapshot can be held against it. */
export interface FollowedRun {
  readonly run: DeckRun;
  readonly text: string;
  /** One a command: equal strings are equal commands at equal times. */
  readonly commandKeys: readonly string[];
}

/** The run of a snapshot, or why it cannot be followed. `before` is what the snapshot before came to. */
export function followRun(
  before: FollowedRun | null,
  snapshot: SnapshotRun,
  texts: Texts,
): Result<FollowedRun, string> {
  const commandKeys = snapshot.commands.map((timed) => JSON.stringify(timed));
  const known = before !== null && goesOn(before, snapshot, commandKeys) ? before : opened(snapshot, texts);
  if (known === null) return { ok: false, faults: 'This screen cannot read the session: reload it.' };
  let { state } = known.run;
  const commands: GivenCommand[] = [...known.run.commands];
  for (const { at, command: fields, by } of snapshot.commands.slice(known.commandKeys.length)) {
    const command = withText(fields, texts);
    if (command === null) return { ok: false, faults: 'This screen cannot follow the run: reload it.' };
    state = apply(state, command, at).state;
    commands.push(by === undefined ? { at, command } : { at, command, by });
  }
  const { openedAt, openedAtTimeOfDay, away = [] } = snapshot;
  const run = { ...known.run, state, given: givenIn(state), commands, openedAt, openedAtTimeOfDay, away };
  return { ok: true, value: { run, text: snapshot.text, commandKeys } };
}

function goesOn(before: FollowedRun, snapshot: SnapshotRun, commandKeys: readonly string[]): boolean {
  const { run } = before;
  if (run.id !== snapshot.id || before.text !== snapshot.text || run.clockPhase !== snapshot.clockPhase) return false;
  return (
    before.commandKeys.length <= commandKeys.length &&
    before.commandKeys.every((key, index) => key === commandKeys[index])
  );
}

function opened(snapshot: SnapshotRun, texts: Texts): FollowedRun | null {
  const source = texts.get(snapshot.text);
  const plan = source ? openPlan(source) : null;
  if (!source || !plan || !plan.ok) return null;
  const { id, clockPhase, openedAt, openedAtTimeOfDay, away = [] } = snapshot;
  const state = openRun(plan.value, clockPhase);
  const { lanesText } = source;
  const times = { openedAt, clockPhase, openedAtTimeOfDay, away };
  const run = { id, plan: plan.value, state, given: givenIn(state), commands: [], lanesText, ...times };
  return { run, text: snapshot.text, commandKeys: [] };
}

/** The command, a rewrite with its text, which comes by its hash; null for what is no command. */
function withText(fields: Readonly<Record<string, unknown>>, texts: Texts): Command | null {
  const { textHash, ...rest } = fields;
  const whole = typeof textHash === 'string' ? { ...rest, text: texts.get(textHash)?.text } : fields;
  const command = readCommand(whole);
  return command.ok ? command.value : null;
}
