/*
 * How many reps of each set, and how many rounds, are left after cuts. The reps themselves keep the counts as
 * written. Screens count by these numbers, and a further cut takes the last of what is left.
 */

import type { Rep, Round, Stretch, PlannedSet } from '../../plan/plan.ts';
import type { RunState } from '../state.ts';

export interface Standing {
  /** The number of the last rep of a set that is left in a lane; 0 for none. laneIndex: the lane's place in lane order. */
  reps(set: PlannedSet, laneIndex: number): number;
  /** The number of the last round that is left of the rounds at `depth` (0: outermost) around a set; 0 for none. */
  rounds(around: readonly Round[], depth: number): number;
}

/** Worked out once for each list of stretches: a list is replaced, never changed. */
const known = new WeakMap<readonly Stretch[], Standing>();

export function standingIn(stretches: readonly Stretch[]): Standing {
  let standing = known.get(stretches);
  if (!standing) {
    standing = counted(stretches);
    known.set(stretches, standing);
  }
  return standing;
}

function counted(stretches: readonly Stretch[]): Standing {
  const reps = new Map<PlannedSet, number[]>();
  const rounds = new Map<string, number>();
  const seen = new Set<readonly Round[]>();
  const seeRounds = (around: readonly Round[]): void => {
    if (seen.has(around)) return;
    seen.add(around);
    around.forEach(({ round }, depth) => {
      const place = placeOf(around, depth);
      rounds.set(place, Math.max(round, rounds.get(place) ?? 0));
    });
  };
  const seeRep = ({ set, rep }: Rep, lane: number): void => {
    let last = reps.get(set);
    if (!last) {
      reps.set(set, (last = []));
      seeRounds(set.rounds);
    }
    last[lane] = Math.max(rep, last[lane] ?? 0);
  };
  for (const stretch of stretches) {
    if (stretch.kind !== 'swim' && !stretch.gone) seeRounds(stretch.rounds);
    stretch.lanes.forEach((own, lane) => own.reps.forEach((rep) => seeRep(rep, lane)));
  }
  return {
    reps: (set, lane) => reps.get(set)?.[lane] ?? 0,
    rounds: (around, depth) => rounds.get(placeOf(around, depth)) ?? 0,
  };
}

/** Names a group of rounds by its line and the numbers of the rounds around it: it occurs once in each of those. */
function placeOf(around: readonly Round[], depth: number): string {
  const outer = around.slice(0, depth).map(({ round }) => round);
  return [around[depth]!.line, ...outer].join(' ');
}

/** How many reps and rounds there now are, after cuts. */
export interface CountNow {
  readonly of: number;
  /** Outermost first. */
  readonly rounds: readonly Round[];
}

/**
 * The counts to show with a rep. lane: its place in lane order. A rep that left before the cut keeps its number: rep
 * 7 of 8, with 3 cut, is 7 of 7.
 */
export function countNow(
  { cuts, stretches }: Pick<RunState, 'cuts' | 'stretches'>,
  { rep, of, set }: Pick<Rep, 'rep' | 'of' | 'set'>,
  lane: number,
): CountNow {
  const isCut = cuts.has(set.line) || set.rounds.some(({ line }) => cuts.has(line));
  if (!isCut) return { of, rounds: set.rounds };
  const standing = standingIn(stretches);
  return {
    of: set.kind === 'set' ? Math.max(rep, standing.reps(set, lane)) : of,
    rounds: set.rounds.map((round, depth) => ({
      ...round,
      of: Math.max(round.round, standing.rounds(set.rounds, depth)),
    })),
  };
}
