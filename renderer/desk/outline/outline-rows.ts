/*
 * The rows of the outline: every part and line of the session, whether it is done, going on or to come, and what of it
 * can still be cut or gone to.
 */

import type { RunView } from '../../../app/core/run/view.ts';
import { cutLeft, linesAhead, targetsOf, type Target } from '../../../app/core/run/view/outline.ts';
import { isEstimated } from '../../../app/core/plan/estimates.ts';
import type { Round } from '../../../app/core/plan/plan.ts';
import { itemsUnder, type Item } from '../../../app/core/session/session.ts';
import type { Millis } from '../../../app/core/units.ts';
import { repNow } from '../../ui/current-set.ts';
import { roundNumbers } from '../../../app/core/words/round.ts';
import { headingWords, itemWords, NO_CUTS, type Cuts } from '../../../app/core/words/set.ts';

export type Progress = 'done' | 'now' | 'to-come';

export interface OutlineRow {
  readonly kind: 'part' | 'line';
  readonly key: string;
  /** The key of its part; null for a part itself. */
  readonly part: string | null;
  /** How many rounds it is nested in, plus 1; 0 for a part. */
  readonly depth: number;
  readonly text: string;
  readonly progress: Progress;
  /** "in round 2", "waits for Start"; null for nothing to say. */
  readonly note: string | null;
  /** How long the part will take as things stand; null once it is done, and for lines. */
  readonly time: Millis | null;
  /** Whether that rests on an estimate. */
  readonly estimated: boolean;
  readonly line: number | null;
  readonly cut: { readonly kind: 'reps' | 'rounds'; readonly most: number } | null;
  readonly target: Target | null;
}

export interface OutlinePart {
  readonly row: OutlineRow;
  /** Empty for a closed part. */
  readonly lines: readonly OutlineRow[];
}

/** Every part, and the lines of the open ones: mostly one, of perhaps thousands. */
export function outlineParts(view: RunView, isOpen: (part: OutlineRow) => boolean): readonly OutlinePart[] {
  const { phase, plan, stretches } = view;
  const lengths = partLengths(view);
  const current = phase === 'done' ? Infinity : view.stretch.partIndex;
  const rows: { readonly row: OutlineRow; readonly partIndex: number }[] = [];
  plan.session.parts.forEach((part, partIndex) => {
    if (part.items.length === 0) return;
    const progress = partIndex < current ? 'done' : partIndex === current ? 'now' : 'to-come';
    const waits = progress === 'now' && phase === 'waiting';
    const row: OutlineRow = {
      kind: 'part',
      key: `part ${partIndex}`,
      part: null,
      depth: 0,
      text: part.name,
      progress,
      note: waits ? 'waits for Start' : null,
      time: lengths.get(partIndex) ?? null,
      estimated: stretches.some((stretch) => stretch.partIndex === partIndex && isEstimated(stretch)),
      line: null,
      cut: null,
      target: null,
    };
    rows.push({ row, partIndex });
  });
  const open = new Set(rows.filter(({ row }) => isOpen(row)).map(({ partIndex }) => partIndex));
  const now = linesNow(view);
  const ahead = linesAhead(view, open);
  const targets = targetsOf(view, open);
  return rows.map(({ row, partIndex }) => {
    if (!open.has(partIndex)) return { row, lines: NONE };
    const found = { part: row.key, now, ahead, targets, passed: row.progress === 'done' };
    const { items } = plan.session.parts[partIndex]!;
    return { row, lines: flatten(items, 1).map((flat) => lineRow(view, flat, found)) };
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

function lineRow(view: RunView, flat: FlatItem, { part, now, ahead, targets, passed }: Found): OutlineRow {
  const { item, depth } = flat;
  const { line } = item;
  const lines = linesIn(item);
  const here = now.get(lines.find((each) => now.has(each)) ?? line);
  const round = item.kind === 'rounds' ? here?.find((each) => each.line === line) : undefined;
  return {
    kind: 'line',
    key: `line ${line} ${item.kind} ${depth}`,
    part,
    depth,
    text: lineWords(flat, view.cuts),
    progress: here && !passed ? 'now' : lines.some((each) => ahead.has(each)) ? 'to-come' : 'done',
    note: round && !passed ? `in ${roundNumbers([round])}` : null,
    time: null,
    estimated: false,
    line,
    cut: cutLeft(view, line),
    target: targets.get(line) ?? null,
  };
}

/** The lines that decide how far a row is: for a line that names lanes, those under it. */
function linesIn(item: Item): readonly number[] {
  return item.kind === 'lanes' ? item.items.flatMap(linesIn) : [item.line];
}

/** The heading of rounds, or a set with its rounds if both are on one line. */
function lineWords({ item, within }: FlatItem, cuts: Cuts): string {
  return headingWords(item, cuts) ?? itemWords(item, cuts, within);
}

interface FlatItem {
  readonly item: Item;
  readonly depth: number;
  /** Under a line that names its lanes. */
  readonly within: boolean;
}

/** Lines of items with their depth, rounds before what is in them; `3 x 4 x 50` is one line. */
function flatten(items: readonly Item[], depth: number, within = false): readonly FlatItem[] {
  const flat: FlatItem[] = [];
  for (const item of items) {
    flat.push({ item, depth, within });
    if (headingWords(item, NO_CUTS) !== null) {
      for (const inner of flatten(itemsUnder(item), depth + 1, within || item.kind === 'lanes')) flat.push(inner);
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
  view.lanes.forEach((lane) => {
    const rep = repNow(view, lane);
    if (rep) add(rep.set.line, rep.set.rounds);
  });
  return lines;
}

/** How long each part takes, from the current one on; of the current one, as much as is still known. */
function partLengths({ projectedTimes, stretches, index: current }: RunView): ReadonlyMap<number, Millis> {
  const lengths = new Map<number, Millis>();
  projectedTimes.forEach(({ start, end }, index) => {
    const { partIndex } = stretches[current + index]!;
    lengths.set(partIndex, (lengths.get(partIndex) ?? 0) + end - start);
  });
  return lengths;
}
