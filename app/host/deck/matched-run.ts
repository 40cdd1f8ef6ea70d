/*
 * Opens a run that has not started again, by the pool's clock as the coach has matched it. Its t goes on and every
 * command keeps its time, so the fold gives the same as before; only the clock differs.
 */

import { openRun, type RunState } from '../../core/run/state.ts';
import { readCommand } from '../../core/run/command/read-command.ts';
import { hasStarted, notUndone } from '../../core/run/first-start.ts';
import { apply } from '../../core/run/fold.ts';
import { openPlan } from '../../core/plan/open-plan.ts';
import type { Source } from '../../core/plan/plan.ts';
import { MINUTE, type Millis } from '../../core/units.ts';
import type { ClockInstant } from '../time/clock.ts';
import type { JournalLine, Opening } from '../journal/journal.ts';
import type { OpenRun } from './open-run.ts';

export type MatchedRun =
  | {
      readonly ok: true;
      readonly run: OpenRun;
      /** The beginning of its journal, with the commands that are carried over. */
      readonly opening: Opening;
      readonly carried: readonly JournalLine[];
    }
  | { readonly ok: false; readonly why: string };

export interface MatchPorts {
  readonly moment: ClockInstant;
  readonly newId: () => string;
  /** The text of this run that a hash names. */
  readonly sourceOf: (hash: string) => Source;
}

/** The run opened again. shown: what the pool's clock shows past the full minute now, in ms; null for the time of day's. */
export function matchedRun(run: OpenRun, shown: Millis | null, { moment, newId, sourceOf }: MatchPorts): MatchedRun {
  if (hasStarted(run.commands)) return { ok: false, why: 'The run has started: its clock can no longer be changed.' };
  const t = moment.hostTime - run.openedAt;
  const { openedAtTimeOfDay } = run;
  const clockPhase = shown === null ? openedAtTimeOfDay % MINUTE : pastMinute(shown - Math.floor(t));
  const source = sourceOf(run.text);
  const commands = notUndone(run.commands);
  const id = newId();
  const carried = commands.map(({ at, command }) => {
    return { run: id, id: newId(), at, fields: withText(command, sourceOf), ...moment };
  });
  return {
    ok: true,
    run: {
      ...run,
      id,
      clockPhase,
      state: carried.reduce(carriedOut, openedRun(source, clockPhase)),
      commands: [...commands],
    },
    opening: { run: id, source, clockPhase, openedAtTimeOfDay, at: t, ...moment },
    carried,
  };
}

function pastMinute(time: number): Millis {
  return ((time % MINUTE) + MINUTE) % MINUTE;
}

function openedRun(source: Source, clockPhase: Millis): RunState {
  const plan = openPlan(source);
  if (!plan.ok) throw new Error('the session of a run has faults');
  return openRun(plan.value, clockPhase);
}

/** Carries out a command once more. Before the first start, no accepted command depends on the clock. */
function carriedOut(state: RunState, { fields, at }: JournalLine): RunState {
  const command = readCommand(fields);
  const answer = command.ok ? apply(state, command.value, at) : null;
  if (!answer?.ok) throw new Error(`an accepted command was refused: ${JSON.stringify(fields)}`);
  return answer.state;
}

/** A command as it came from a screen. */
function withText(
  command: Readonly<Record<string, unknown>>,
  sourceOf: MatchPorts['sourceOf'],
): Readonly<Record<string, unknown>> {
  const { textHash, ...others } = command;
  return typeof textHash === 'string' ? { ...others, text: sourceOf(textHash).text } : command;
}
