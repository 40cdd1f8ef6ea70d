/*
 * Which rounds or reps of a line the lanes have begun, and whether a cut would take the rest of one of them. A coach
 * would rather leave out a whole round than stop in the middle of one.
 */

import type { Rep } from '../../plan/plan.ts';
import { isPending, type RunState } from '../state.ts';

/** Whether the cut of a line that led from `before` to `after` took the rest of a round or rep already begun. */
export function takesBegun(before: RunState, after: RunState, line: number, begun = begunUnits(before, line)): boolean {
  if (begun.size === 0) return false;
  const left = unitsToCome(after, line);
  for (const [place, unit] of unitsToCome(before, line)) if (begun.has(unit) && !left.has(place)) return true;
  return false;
}

/** The units of a line (its rounds, or its reps wherever it occurs) that any lane has begun. */
export function begunUnits(state: RunState, line: number): ReadonlySet<string> {
  const { departed, index, phase, departedBefore } = state;
  const known = knownBegun.get(departed) ?? new Map<string, ReadonlySet<string>>();
  knownBegun.set(departed, known);
  const key = `${line} ${index} ${phase} ${departedBefore}`;
  const units = known.get(key) ?? unitsLeft(state, line);
  known.set(key, units);
  return units;
}

/** Kept by the list of what has left: trying many cuts does not change that list. */
const knownBegun = new WeakMap<RunState['departed'], Map<string, ReadonlySet<string>>>();

function unitsLeft({ departed, index, phase, departedBefore }: RunState, line: number): ReadonlySet<string> {
  const units = new Set<string>();
  departed.forEach(({ stretch, reps, from, to }, place) => {
    // What left before a restart will be swum again in full, so it does not count.
    const stands = stretch < index || (stretch === index && phase === 'going' && place >= departedBefore);
    if (!stands) return;
    for (let at = from; at < to; at++) {
      const unit = unitOf(reps[at]!, line);
      if (unit !== null) units.add(unit);
    }
  });
  return units;
}

/** The units of which a lane still has reps to come; the keys are "lane unit". */
function unitsToCome(state: RunState, line: number): ReadonlyMap<string, string> {
  const units = new Map<string, string>();
  const look = (reps: readonly (Rep & { readonly again?: true })[], lane: number): void => {
    for (const rep of reps) {
      const unit = rep.again ? null : unitOf(rep, line);
      if (unit !== null) units.set(`${lane} ${unit}`, unit);
    }
  };
  state.lanes.forEach((lane, index) => (isPending(lane) ? look(lane.reps.slice(lane.next), index) : undefined));
  const toCome = state.phase === 'going' ? state.index + 1 : state.index;
  for (const { lanes } of state.stretches.slice(toCome)) lanes.forEach(({ reps }, index) => look(reps, index));
  return units;
}

/** Names the unit of the line that a rep belongs to: its round, or the rep itself; null if the rep is not of the line. */
function unitOf({ set, rep }: Rep, line: number): string | null {
  const depth = set.rounds.findIndex((round) => round.line === line);
  const numbers = set.rounds.map(({ round }) => round);
  if (depth >= 0) return numbers.slice(0, depth + 1).join(' ');
  return set.line === line ? [...numbers, rep].join(' ') : null;
}
