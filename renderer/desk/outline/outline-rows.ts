/*
 * The outline of a session during its run: every part and every line of it, what is done, what is
 * going and what is to come, and what of it can still be cut or gone to.
 */

import { cuttableAt } from '../../../app/core/run/cut.ts';
import { projectedTimes } from '../../../app/core/run/projection.ts';
import { standingIn } from '../../../app/core/run/standing.ts';
import { isPending, type RunState } from '../../../app/core/run/state.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import { isEstimated } from '../../../app/core/plan/estimates.ts';
import type { Rep, Round } from '../../../app/core/plan/plan.ts';
import type { Item } from '../../../app/core/session/session.ts';
import type { Millis } from '../../../app/core/units.ts';
import { repNow } from '../../ui/current-set.ts';
import { roundNumbers } from '../../../app/core/words/round.ts';
import { itemWords, roundsLeft, type Cuts } from '../../../app/core/words/set.ts';

export type Progress = 'done' | 'now' | 'to-come';

export interface OutlineRow {
  readonly kind: 'part' | 'line';
  readonly key: string;
  /** The key of the part it stands in; null for a part itself. */
  readonly part: string | null;
  /** How deep it stands in its part's rounds; 0 for a part. */
  readonly depth: number;
  readonly text: string;
  readonly progress: Progress;
  /** "in round 2", "waits for Start"; null for nothing to say. */
  readonly note: string | null;
  /** How long it will take as things stand; of parts not done only. */
  readonly time: Millis | null;
  /** Whether that rests on an estimate. */
  readonly estimated: boolean;
  readonly line: number | null;
  readonly cut: { readonly kind: 'reps' | 'rounds'; readonly most: number } | null;
  readonly target: Target | null;
}

/** Where a line can be gone to: rounds outermost first, each with how many there are, and its reps. */
export interface Target {
  readonly line: number;
  readonly rounds: readonly { readonly of: number; readonly round: number }[];
  readonly reps: number;
}

export interface OutlinePart {
  readonly row: OutlineRow;
  /** Of an open part; none of a closed one. */
  readonly lines: readonly OutlineRow[];
}

/** Every part, and the lines of those that are open: of thousands of parts one is, mostly. */
export function outlineParts(view: RunView, isOpen: (part: OutlineRow) => boolean): readonly OutlinePart[] {
  const { state, t } = view;
  const lengths = partLengths(state, t);
  const current = state.phase === 'done' ? Infinity : (state.stretches[state.index]?.partIndex ?? Infinity);
  const rows: { readonly row: OutlineRow; readonly partIndex: number }[] = [];
  state.plan.session.parts.forEach((part, partIndex) => {
    if (part.items.length === 0) return;
    const progress = partIndex < current ? 'done' : partIndex === current ? 'now' : 'to-come';
    const waits = progress === 'now' && state.phase === 'waiting';
    const row: OutlineRow = {
      kind: 'part',
      key: `part ${partIndex}`,
      part: null,
      depth: 0,
      text: part.name,
      progress,
      note: waits ? 'waits for Start' : null,
      time: lengths.get(partIndex) ?? null,
      estimated: state.stretches.some((stretch) => stretch.partIndex === partIndex && isEstimated(stretch)),
      line: null,
      cut: null,
      target: null,
    };
    rows.push({ row, partIndex });
  });
  const open = new Set(rows.filter(({ row }) => isOpen(row)).map(({ partIndex }) => partIndex));
  const now = linesNow(view);
  const ahead = linesAhead(state, open);
  const targets = targetsOf(state, open);
  return rows.map(({ row, partIndex }) => {
    if (!open.has(partIndex)) return { row, lines: NONE };
    const found = { part: row.key, now, ahead, targets, passed: row.progress === 'done' };
    const { items } = state.plan.session.parts[partIndex]!;
    return { row, lines: flatten(items, 1).map(({ item, depth }) => lineRow(state, item, depth, found)) };
  });
}

const NONE: readonly OutlineRow[] = [];

interface Found {
  readonly part: string;
  readonly now: ReadonlyMap<number, readonly Round[]>;
  readonly ahead: ReadonlySet<number>;
  readonly targets: ReadonlyMap<number, Target>;
  readonly passed: boolean;
}

function lineRow(state: RunState, item: Item, depth: number, { part, now, ahead, targets, passed }: Found): OutlineRow {
  const { line } = item;
  const here = now.get(line);
  const round = item.kind === 'rounds' ? here?.find((each) => each.line === line) : undefined;
  return {
    kind: 'line',
    key: `line ${line} ${item.kind} ${depth}`,
    part,
    depth,
    text: lineWords(item, state.cuts),
    progress: here && !passed ? 'now' : ahead.has(line) ? 'to-come' : 'done',
    note: round && !passed ? `in ${roundNumbers([round])}` : null,
    time: null,
    estimated: false,
    line,
    cut: cutOf(state, line),
    target: targets.get(line) ?? null,
  };
}

/** Rounds stand over their lines; rounds written on one line with their set stand for it. */
function lineWords(item: Item, cuts: Cuts): string {
  const stands = item.kind === 'rounds' && item.items.some(({ line }) => line !== item.line);
  return stands ? roundsLeft(item, cuts) : itemWords(item, cuts);
}

function cutOf(state: RunState, line: number): OutlineRow['cut'] {
  const cuttable = cuttableAt(state.plan.session, line);
  if (cuttable.kind === 'nothing') return null;
  const most = cuttable.most - (state.cuts.get(line) ?? 0);
  return most > 0 ? { kind: cuttable.kind, most } : null;
}

/** Lines of items with their depth, rounds before what is in them; `3 x 4 x 50` is one line. */
function flatten(items: readonly Item[], depth: number): readonly { readonly item: Item; readonly depth: number }[] {
  const flat: { item: Item; depth: number }[] = [];
  for (const item of items) {
    flat.push({ item, depth });
    if (item.kind === 'rounds' && !item.items.every(({ line }) => line === item.line)) {
      for (const inner of flatten(item.items, depth + 1)) flat.push(inner);
    }
  }
  return flat;
}

/** The lines that lanes swim, or will swim next, and the rounds' lines they stand in, with the rounds. */
function linesNow(view: RunView): ReadonlyMap<number, readonly Round[]> {
  const lines = new Map<number, readonly Round[]>();
  const add = (line: number, rounds: readonly Round[]): void => {
    lines.set(line, rounds);
    for (const round of rounds) lines.set(round.line, rounds);
  };
  const { stretch } = view;
  if (view.phase === 'done') return lines;
  if (stretch.kind !== 'swim') add(stretch.line, stretch.rounds);
  view.lanes.forEach((lane, index) => {
    const rep = repNow(view, lane, index);
    if (rep) add(rep.set.line, rep.set.rounds);
  });
  return lines;
}

/** Lines of some parts with something still to leave or to come. */
function linesAhead(state: RunState, parts: ReadonlySet<number>): ReadonlySet<number> {
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
function targetsOf(state: RunState, parts: ReadonlySet<number>): ReadonlyMap<number, Target> {
  const targets = new Map<number, Target>();
  if (state.phase === 'done') return targets;
  const standing = standingIn(state.stretches);
  for (const stretch of state.stretches) {
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

/** How long each part from the current one on will have taken, from its first stretch still known. */
function partLengths(state: RunState, t: Millis): ReadonlyMap<number, Millis> {
  const lengths = new Map<number, Millis>();
  projectedTimes(state, t).forEach(({ start, end }, index) => {
    const { partIndex } = state.stretches[state.index + index]!;
    lengths.set(partIndex, (lengths.get(partIndex) ?? 0) + end - start);
  });
  return lengths;
}
