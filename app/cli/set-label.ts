/*
 * A set as a coach would write it, with its lanes' intervals and targets worked out: `8/7/6 x 75
 * free @ 1:20/1:25/1:30`. One value stands for all lanes where they agree; a lane that sits out is
 * a dash; estimates carry a `≈`.
 */

import type { Rep } from '../core/plan/plan.ts';
import type { SwimLine } from '../core/plan/swim-lines.ts';
import { distanceText } from '../core/words/distance.ts';
import { about } from '../core/words/estimate.ts';
import { spaced } from '../core/words/phrase.ts';
import { reading } from '../core/words/reading.ts';
import { blockSize, byLane, byRep, ladderText, setSizeText } from '../core/words/set.ts';

/** One passage through a line: each lane's reps of it, in lane order, none where a lane sits out. */
export type Passage = readonly (readonly Rep[])[];

export function setLabel({ item, distances }: SwimLine, passage: Passage): string {
  if (item.kind === 'timed-swim') return spaced(reading(item.time), item.words);
  const swimming = passage.map((reps) => reps.length > 0);
  const each = (text: (lane: number) => string): string => oneForAll(swimming, text);
  const swum = spaced(sizeText(item, each, distances), item.words);
  const interval = each((lane) => intervalsText(passage[lane]!));
  const mark = about(passage.some((reps) => reps.some(({ estimated }) => estimated)));
  const timing = item.timing.kind === 'untimed' ? `, ${mark}${interval} in all` : ` @ ${mark}${interval}`;
  return spaced(`${swum}${timing}`, targetText(item.hold !== null, passage, each));
}

type Each = (text: (lane: number) => string) => string;

/** The value that all lanes in the water share, else one a lane. */
function oneForAll(swimming: readonly boolean[], text: (lane: number) => string): string {
  const texts = swimming.map((swims, lane) => (swims ? text(lane) : null));
  const [first] = texts.filter((value) => value !== null);
  if (texts.every((value) => value === null || value === first)) return first ?? '';
  return texts.map((value) => value ?? '–').join('/');
}

/** "8/7/6 x 75", "100-200-100", "20:00 of 100s". */
function sizeText(
  item: Exclude<SwimLine['item'], { readonly kind: 'timed-swim' }>,
  each: Each,
  distances: SwimLine['distances'],
): string {
  const distance = each((lane) => byRep(distances[lane]!.map(distanceText)));
  if (item.kind === 'block') return blockSize(item.time, distance);
  const { reps } = item;
  return reps.kind === 'ladder' ? ladderText(reps.distances) : setSizeText(byLane(reps.counts.map(String)), distance);
}

function intervalsText(reps: readonly Rep[]): string {
  const [first, second] = reps;
  if (!first) return '';
  const step = second ? second.interval - first.interval : 0;
  const even = reps.every(({ interval }, index) => interval === first.interval + index * step);
  const sameDistance = reps.every(({ distance }) => distance === first.distance);
  if (step === 0 && even) return reading(first.interval);
  if (even && sameDistance) return `${reading(first.interval)} ${step < 0 ? 'drop' : 'add'} ${Math.abs(step) / 1000}`;
  return byRep(reps.map(({ interval }) => reading(interval)));
}

/** The target of each rep; none where a ladder without an interval has no single one. */
function targetText(held: boolean, passage: Passage, each: Each): string {
  if (!held || !passage.some((reps) => reps.some(({ target }) => target !== null))) return '';
  return `hold ${each((lane) => byRep(passage[lane]!.map(({ target }) => (target === null ? '–' : reading(target)))))}`;
}
