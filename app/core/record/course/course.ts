/*
 * A kept run folded again: how it stands at its end, which part each of its sets was in, and when each stretch went on
 * and each lane was stopped.
 */

import type { PlannedSet } from '../../plan/plan.ts';
import { apply } from '../../run/fold.ts';
import { openRun, type RunState } from '../../run/state.ts';
import { takenBack } from '../../run/undone.ts';
import type { KeptRun } from '../kept-run.ts';
import { heldIn, stopsOf, type HeldAfter, type LaneStop } from './stops.ts';
import { isSameStretch, passed, passedForCommand, spansAfter, type Course, type Span } from './spans.ts';

export interface KeptCourse extends Course {
  /** The name of the part that each set of every text in force was in. */
  readonly partOf: ReadonlyMap<PlannedSet, string>;
  /** By time, then lane. */
  readonly stops: readonly LaneStop[];
}

export function courseOf({ plan, clockPhase, commands, until }: KeptRun): KeptCourse {
  const taken = takenBack(commands);
  const partOf = new Map<PlannedSet, string>();
  const found: Course[] = [];
  const held: HeldAfter[] = [];
  let course: Course = { state: openRun(plan, clockPhase), spans: [] };
  addParts(partOf, course.state);
  commands.forEach(({ command, at }, index) => {
    const here = passedForCommand(course, at);
    const { state } = apply(course.state, command, at);
    const undid = taken.get(index);
    const spans = undid === undefined ? spansAfter(here, state, at) : spansWithout(found[undid]!, state, at);
    if (state.plan !== course.state.plan) addParts(partOf, state);
    found.push(here);
    held.push({ at, held: heldIn(state), undid });
    course = { state, spans };
  });
  const end = passed(course, until);
  return { ...end, partOf, stops: stopsOf(held, end.state.doneAt ?? until) };
}

/**
 * The spans after an undo at t of a command that had `found` the course so: as if that had not been given or, where the
 * run does not stand as it would then, as if lanes had been stopped by it.
 */
function spansWithout(found: Course, state: RunState, t: number): readonly Span[] {
  const without = passed(found, t);
  return isSameStretch(without.state, state) ? without.spans : found.spans;
}

function addParts(partOf: Map<PlannedSet, string>, { plan }: RunState): void {
  for (const { part, lanes } of plan.stretches) {
    for (const { reps } of lanes) for (const { set } of reps) partOf.set(set, part);
  }
}
