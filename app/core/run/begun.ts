/*
 * What lanes have begun of a line's rounds or reps, and whether a cut takes the rest of it: half a round swum is
 * worth less to a coach than a whole one left out.
 */

import type { Rep } from '../plan/plan.ts';
import { isPending, type RunState } from './state.ts';

/** Between a state and the same after a cut of the line. */
export function takesBegun(before: RunState, after: RunState, line: number, begun = begunUnits(before, line)): boolean {
  if (begun.size === 0) return false;
  const left = unitsToCome(after, line);
  for (const [place, unit] of unitsToCome(before, line)) if (begun.has(unit) && !left.has(place)) return true;
  return false;
}

/** The rounds of a line, or the reps of its occurrences, of which a rep has left in any lane. */
export function begunUnits(state: RunState, line: number): ReadonlySet<string> {
  const { departed, index, phase, t0 } = state;
  const known = knownBegun.get(departed) ?? new Map<string, ReadonlySet<string>>();
  knownBegun.set(departed, known);
  const key = `${line} ${index} ${phase} ${t0}`;
  const units = known.get(key) ?? unitsLeft(state, line);
  known.set(key, units);
  return units;
}

/** By what has left, which the many cuts that are tried do not change. */
const knownBegun = new WeakMap<RunState['departed'], Map<string, ReadonlySet<string>>>();

function unitsLeft({ departed, index, phase, t0 }: RunState, line: number): ReadonlySet<string> {
  const units = new Set<string>();
  for (const { stretch, reps, from, to, origin } of departed) {
    for (let at = from; at < to; at++) {
      const rep = reps[at]!;
      // What left before a restart is to be swum again, whole.
      const stands = stretch < index || (stretch === index && phase === 'going' && origin + rep.offset >= t0!);
      const unit = stands ? unitOf(rep, line) : null;
      if (unit !== null) units.add(unit);
    }
  }
  return units;
}

/** By lane and unit, the units of which a lane still has something to leave. */
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

/** Names the round of the line that a rep stands in, or the rep itself where it is of the line; null for neither. */
function unitOf({ set, rep }: Rep, line: number): string | null {
  const depth = set.rounds.findIndex((round) => round.line === line);
  const numbers = set.rounds.map(({ round }) => round);
  if (depth >= 0) return numbers.slice(0, depth + 1).join(' ');
  return set.line === line ? [...numbers, rep].join(' ') : null;
}
