/*
 * A set as a coach would write it, with its lanes' intervals and targets worked out: `8/7/6 x 75
 * free @ 1:20/1:25/1:30`. One value stands for all lanes where they agree; a lane that sits out is
 * a dash; estimates carry a `≈`.
 */

import type { Rep } from '../../core/plan/plan.ts';
import type { SwimLine } from '../../core/plan/warnings/swim-lines.ts';
import { distanceText } from '../../core/words/distance.ts';
import { about } from '../../core/words/time/estimate.ts';
import { spaced } from '../../core/words/phrase.ts';
import { reading } from '../../core/words/time/reading.ts';
import { blockSize, byLane, byRep, forLanes, ladderText, setSizeText } from '../../core/words/set.ts';
import { swims, type SomeLanes } from '../../core/session/session.ts';

/** One passage through a line: each lane's reps of it, in lane order, none where a lane sits out. */
export type Passage = readonly (readonly Rep[])[];

export function setLabel({ item, distances }: SwimLine, passage: Passage): string {
  if (item.kind === 'timed-swim') return forLanes(item.lanes, spaced(reading(item.time), item.words));
  const { lanes } = item;
  const swimming = passage.map((reps) => reps.length > 0);
  const each = (text: (lane: number) => string): string => oneForAll(swimming, lanes, text);
  const swum = spaced(sizeText(item, each, distances), item.words);
  const isWritten = item.kind === 'set' && item.ways !== null;
  const interval = each((lane) => intervalsText(passage[lane]!, isWritten));
  const mark = about(passage.some((reps) => reps.some(({ estimated }) => estimated)));
  const timing = item.timing.kind === 'untimed' ? `, ${mark}${interval} in all` : ` @ ${mark}${interval}`;
  return forLanes(lanes, spaced(`${swum}${timing}`, targetText(passage, each)));
}

type Each = (text: (lane: number) => string) => string;

/** The value that all lanes in the water share, else one a lane that the line is for. */
function oneForAll(swimming: readonly boolean[], lanes: SomeLanes, text: (lane: number) => string): string {
  const all = swimming.map((isIn, lane) => (isIn ? text(lane) : null));
  const texts = all.filter((_, lane) => swims(lanes, lane));
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
  if (reps.kind === 'ladder') return ladderText(reps.distances);
  const counts = reps.counts.filter((_, lane) => swims(item.lanes, lane));
  return setSizeText(byLane(counts.map(String)), distance);
}

/** `isWritten`: each rep's interval stands on the line, so none is said by a step. */
function intervalsText(reps: readonly Rep[], isWritten: boolean): string {
  const [first, second] = reps;
  if (!first) return '';
  const step = second ? second.interval - first.interval : 0;
  const even = reps.every(({ interval }, index) => interval === first.interval + index * step);
  const sameDistance = reps.every(({ distance }) => distance === first.distance);
  if (step === 0 && even) return reading(first.interval);
  if (even && sameDistance && !isWritten)
    return `${reading(first.interval)} ${step < 0 ? 'drop' : 'add'} ${Math.abs(step) / 1000}`;
  return byRep(reps.map(({ interval }) => reading(interval)));
}

/** The target of each rep; none where a ladder without an interval has no single one. */
function targetText(passage: Passage, each: Each): string {
  if (!passage.some((reps) => reps.some(({ target }) => target !== null))) return '';
  return `hold ${each((lane) => byRep(passage[lane]!.map(({ target }) => (target === null ? '–' : reading(target)))))}`;
}
