/*
 * A set as a coach would write it, with its lanes' intervals and targets worked out: `8/7/6 x 75
 * free @ 1:20/1:25/1:30`. One value stands for all lanes where they agree; a lane that sits out is
 * a dash; estimates carry a `≈`.
 */

import { distanceText } from '../core/lengths.ts';
import type { Rep } from '../core/plan/plan.ts';
import type { SwimLine } from '../core/plan/swim-lines.ts';
import { reading } from '../core/reading.ts';
import type { SwimSet } from '../core/session/session.ts';

/** One passage through a line: each lane's reps of it, in lane order, none where a lane sits out. */
export type Passage = readonly (readonly Rep[])[];

export function setLabel({ item, distances }: SwimLine, passage: Passage): string {
  const words = item.words === '' ? '' : ` ${item.words}`;
  if (item.kind === 'timed-swim') return `${reading(item.time)}${words}`;
  const swimming = passage.map((reps) => reps.length > 0);
  const each = (text: (lane: number) => string): string => oneForAll(swimming, text);
  const swum = item.kind === 'block' ? `${reading(item.time)} of ` : countText(item);
  const distance = each((lane) => listText(distances[lane]!.map(distanceText)));
  const interval = each((lane) => intervalText(passage[lane]!));
  const estimated = passage.some((reps) => reps.some(({ set }) => set.estimated)) ? '≈' : '';
  const timing = item.timing.kind === 'untimed' ? `, ${estimated}${interval} in all` : ` @ ${estimated}${interval}`;
  return `${swum}${distance}${words}${timing}${targetText(item.hold !== null, passage, each)}`;
}

type Each = (text: (lane: number) => string) => string;

/** The value that all lanes in the water share, else one a lane. */
function oneForAll(swimming: readonly boolean[], text: (lane: number) => string): string {
  const texts = swimming.map((swims, lane) => (swims ? text(lane) : null));
  const [first] = texts.filter((value) => value !== null);
  if (texts.every((value) => value === null || value === first)) return first ?? '';
  return texts.map((value) => value ?? '–').join('/');
}

function countText({ reps }: SwimSet): string {
  if (reps.kind === 'ladder') return '';
  const [first] = reps.counts;
  if (reps.counts.some((count) => count !== first)) return `${reps.counts.join('/')} x `;
  return first === 1 ? '' : `${first} x `;
}

function intervalText(reps: readonly Rep[]): string {
  const [first, second] = reps;
  if (!first) return '';
  const step = second ? second.interval - first.interval : 0;
  const even = reps.every(({ interval }, index) => interval === first.interval + index * step);
  const sameDistance = reps.every(({ distance }) => distance === first.distance);
  if (step === 0 && even) return reading(first.interval);
  if (even && sameDistance) return `${reading(first.interval)} ${step < 0 ? 'drop' : 'add'} ${Math.abs(step) / 1000}`;
  return listText(reps.map(({ interval }) => reading(interval)));
}

/** The target of each rep; none where a ladder without an interval has no single one. */
function targetText(held: boolean, passage: Passage, each: Each): string {
  if (!held || !passage.some((reps) => reps.some(({ target }) => target !== null))) return '';
  return ` hold ${each((lane) => listText(passage[lane]!.map(({ target }) => (target === null ? '–' : reading(target)))))}`;
}

/** One text where all are the same, else one after the other as a ladder is written. */
function listText(texts: readonly string[]): string {
  return texts.every((text) => text === texts[0]) ? (texts[0] ?? '') : texts.join('-');
}
