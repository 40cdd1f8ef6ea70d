/*
 * One trial: a session, the pool clock's phase and a script, all from one seed, and what the model
 * and the program say to them.
 */

import { rehearsal } from '../../app/cli/rehearse.ts';
import { timetableJson } from '../../app/cli/timetable/format-json.ts';
import { openPlan } from '../../app/core/plan/open-plan.ts';
import type { Command } from './run/command.ts';
import { firstDifference, type Difference } from './difference.ts';
import { inventScript, type Script } from './invent/invent-script.ts';
import { inventSession } from './invent/invent-session.ts';
import { seededRandom } from './invent/random.ts';
import { modelRehearsal } from './run/run-model.ts';
import { textOf, type WrittenScenario } from './scenario.ts';
import { modelTimetable } from './timetable/timetable-model.ts';
import { writeSession } from './write/write-session.ts';

export interface Trial extends Script {
  readonly written: WrittenScenario;
  readonly phaseMs: number;
}

export interface Disagreement extends Difference {
  readonly about: 'text' | 'timetable' | 'rehearsal';
}

/** The trial of a seed, the same each time. */
export function inventTrial(seed: number): Trial {
  const random = seededRandom(seed);
  const written = writeSession(inventSession(random), random);
  const phaseMs = random.chance(0.4) ? 0 : random.chance(0.5) ? random.whole(0, 59) * 1000 : random.whole(0, 59_999);
  return { written, phaseMs, ...inventScript(written, phaseMs, random, 36) };
}

/** The first thing that the program says otherwise than the model, or null. */
export function disagreementIn(trial: Trial): Disagreement | null {
  const { written, phaseMs, commands, texts } = trial;
  const plan = openPlan({ text: textOf(written), lanesText: written.lanesText });
  if (!plan.ok) return { about: 'text', path: plan.faults.in, model: 'no fault', program: plan.faults.faults };

  const timetable = firstDifference(modelTimetable(written), withoutWording(timetableJson(plan.value)));
  if (timetable) return { about: 'timetable', ...timetable };

  const model = modelRehearsal(written, phaseMs, commands, texts);
  const program = attempt(() => rehearsal(plan.value, phaseMs, commands.map(scriptLine)));
  if (program instanceof Error) return { about: 'rehearsal', path: '', model: 'a result', program: program.stack };
  const run = firstDifference(answersFirst(model), answersFirst(program));
  return run && { about: 'rehearsal', ...run };
}

function scriptLine({ atMs, ...fields }: Command): { atMs: number; fields: Record<string, unknown> } {
  return { atMs, fields };
}

/** Warnings by line, lane and rule; how they are worded is the program's own affair. */
function withoutWording(timetable: ReturnType<typeof timetableJson>): object {
  return { ...timetable, warnings: timetable.warnings.map(({ code, line, lane }) => ({ code, line, lane })) };
}

/** An answer that differs explains the leaves that differ, so answers are looked at first; reasons are not compared. */
function answersFirst(run: {
  readonly answers: readonly { readonly atMs: number; readonly do: string; readonly ok: boolean }[];
}): object {
  const { answers, ...rest } = run;
  return { answers: answers.map(({ atMs, do: name, ok }) => ({ atMs, do: name, ok })), rest };
}

function attempt<Value>(work: () => Value): Value | Error {
  try {
    return work();
  } catch (error) {
    return error instanceof Error ? error : new Error(String(error));
  }
}
