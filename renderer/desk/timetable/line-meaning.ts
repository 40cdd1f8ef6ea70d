/*
 * What a line means in each lane: what it swims, on which interval, at which target, when it leaves and how long that
 * takes. Of what repeats it is the first round, by the clock of its stretch.
 */

import type { Plan, Rep } from '../../../app/core/plan/plan.ts';
import { setOnLine } from '../../../app/core/session/item-on-line.ts';
import { swims, type Item } from '../../../app/core/session/session.ts';
import { distanceText } from '../../../app/core/words/distance.ts';
import { holdText } from '../../../app/core/words/interval.ts';
import { count } from '../../../app/core/words/phrase.ts';
import { itemWords, laneSetWords, NO_CUTS, setSizeText } from '../../../app/core/words/set.ts';
import { about } from '../../../app/core/words/time/estimate.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import { timingCell } from '../../../app/core/words/timing.ts';

export interface LineMeaning {
  /** The line as the screens say it. */
  readonly words: string;
  /** "the first of 3 rounds", "nobody swims"; '' for nothing to add. */
  readonly note: string;
  /** In lane order; none for a talk or break. */
  readonly lanes: readonly LaneMeaning[];
}

export interface LaneMeaning {
  readonly lane: number;
  /** "7 x 75"; '' for a lane that sits it out, which has nothing else either. */
  readonly swims: string;
  /** "1:30", "odds on 0:50, evens on 1:10"; '' where it is swum on no interval. */
  readonly interval: string;
  /** "0:38"; '' without one. */
  readonly target: string;
  /** "0:00, 1:30, 3:00 to 10:30" */
  readonly leaves: string;
  readonly takes: string;
}

/** null for a line on which nothing is swum, said or waited for. */
export function lineMeaning(plan: Plan, line: number): LineMeaning | null {
  const item = plan.session.parts.map((part) => setOnLine(part, line)).find((found) => found !== null);
  if (!item) return null;
  const words = itemWords(item, NO_CUTS);
  if (item.kind === 'talk') return { words, note: 'Nobody swims; what follows waits for your word.', lanes: [] };
  if (item.kind === 'break') return { words, note: 'Nobody swims; what follows starts by itself.', lanes: [] };
  const first = firstPassage(plan, line);
  if (!first) return null;
  const rounds = first.set.rounds.filter(({ of }) => of > 1).map(({ of }) => count(of, 'round'));
  const lanes = plan.session.lanes.map(({ number }, index) => laneMeaning(number, item, index, first.lanes[index]!));
  return { words, note: rounds.length === 0 ? '' : `As in the first of ${rounds.join(', and of ')}.`, lanes };
}

interface Passage {
  readonly set: Rep['set'];
  readonly lanes: readonly (readonly Rep[])[];
}

/** The reps of a line the first time that any lane swims it. */
function firstPassage({ stretches }: Plan, line: number): Passage | null {
  for (const { lanes } of stretches) {
    const set = lanes.flatMap(({ reps }) => reps.find((rep) => rep.set.line === line)?.set ?? [])[0];
    if (set) return { set, lanes: lanes.map(({ reps }) => reps.filter((rep) => rep.set === set)) };
  }
  return null;
}

const SITS_OUT = { swims: '', interval: '', target: '', leaves: '', takes: '' };

function laneMeaning(lane: number, item: Item, index: number, reps: readonly Rep[]): LaneMeaning {
  if (reps.length === 0) return { lane, ...SITS_OUT };
  const takes = reps.reduce((sum, { interval, leftover }) => sum + interval + leftover, 0);
  return {
    lane,
    swims: sizeIn(item, index, reps),
    interval: reps[0]!.set.untimed ? '' : timingCell(reps.map((rep) => ({ ...rep, target: null }))),
    target: each(reps.map(({ target }) => holdText(target).replace('hold ', ''))),
    leaves: leavesText(reps.map(({ offset }) => reading(offset))),
    takes: `${about(reps.some(({ estimated }) => estimated))}${reading(takes)}`,
  };
}

function sizeIn(item: Item, index: number, reps: readonly Rep[]): string {
  if (item.kind === 'set' && swims(item.lanes, index)) return laneSetWords({ ...item, words: '' }, index);
  if (item.kind === 'timed-swim') return reading(item.time);
  return setSizeText(`${reps.length}`, distanceText(reps[0]!.distance));
}

/** Those that differ, in their order; of many the first and the last. */
function each(texts: readonly string[]): string {
  const different = [...new Set(texts.filter((text) => text !== ''))];
  return different.length > 3 ? `${different[0]} to ${different[different.length - 1]}` : different.join(' / ');
}

function leavesText(leaves: readonly string[]): string {
  if (leaves.length < 5) return leaves.join(', ');
  return `${leaves.slice(0, 3).join(', ')} to ${leaves[leaves.length - 1]}`;
}
