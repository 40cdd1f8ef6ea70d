/*
 * What a line of the text in force still has to come, and where it can be cut or gone to: what an outline of the
 * session shows beside its words.
 */

import type { Rep } from '../../plan/plan.ts';
import { cuttableAt } from '../cuts/cut.ts';
import { standingIn } from '../cuts/standing.ts';
import { isPending } from '../state.ts';
import type { RunView } from '../view.ts';
import { stateOf } from './settled.ts';

/** Where a line can be gone to: rounds outermost first, each with how many there are, and its reps. */
export interface Target {
  readonly line: number;
  readonly rounds: readonly { readonly of: number; readonly round: number }[];
  readonly reps: number;
}

/** How many reps or rounds of a line may still be cut; null for none. */
export function cutLeft(
  view: RunView,
  line: number,
): { readonly kind: 'reps' | 'rounds'; readonly most: number } | null {
  const cuttable = cuttableAt(view.plan.session, line);
  if (cuttable.kind === 'nothing') return null;
  const most = cuttable.most - (view.cuts.get(line) ?? 0);
  return most > 0 ? { kind: cuttable.kind, most } : null;
}

/** Lines of some parts, by their index, with something still to leave or to come. */
export function linesAhead(view: RunView, parts: ReadonlySet<number>): ReadonlySet<number> {
  const state = stateOf(view);
  const lines = new Set<number>();
  const addRep = ({ set }: Rep): void => {
    lines.add(set.line);
    for (const { line } of set.rounds) lines.add(line);
  };
  if (state.phase === 'done') return lines;
  for (const lane of state.lanes.filter(isPending)) for (const rep of lane.reps.slice(lane.next)) addRep(rep);
  const from = state.phase === 'waiting' ? state.index : state.index + 1;
  for (const stretch of state.stretches.slice(from)) {
    if (!parts.has(stretch.partIndex)) continue;
    if (stretch.kind !== 'swim') {
      lines.add(stretch.line);
      for (const { line } of stretch.rounds) lines.add(line);
    }
    for (const { reps } of stretch.lanes) for (const rep of reps) addRep(rep);
  }
  return lines;
}

/** For each line of some parts that is swum, and each rounds' line by the first set in it, where it can be gone to. */
export function targetsOf({ phase, stretches }: RunView, parts: ReadonlySet<number>): ReadonlyMap<number, Target> {
  const targets = new Map<number, Target>();
  if (phase === 'done') return targets;
  const standing = standingIn(stretches);
  for (const stretch of stretches) {
    if (!parts.has(stretch.partIndex)) continue;
    for (const { reps } of stretch.lanes) {
      for (const { set, rep } of reps) {
        const known = targets.get(set.line);
        if (known && known.reps >= rep) continue;
        const rounds = set.rounds.map((_, depth) => ({ of: standing.rounds(set.rounds, depth), round: 1 }));
        const target = { line: set.line, rounds, reps: rep };
        targets.set(set.line, target);
        for (const { line } of set.rounds) if (!targets.has(line)) targets.set(line, target);
      }
    }
  }
  return targets;
}
