/*
 * All intervals and targets of one lane's reps of a set, in words that leave none out: "on 1:40, 2 s less each time,
 * down to 1:22", "50 on 0:45, 100 on 1:30", "odds on 0:45, evens on ≈1:05".
 */

import type { Rep } from '../plan/plan.ts';
import type { Millis } from '../units.ts';
import { distanceText } from './distance.ts';
import { holdText, intervalText, onText } from './interval.ts';
import { commaed } from './phrase.ts';
import { reading, spanText } from './time/reading.ts';

/** '' without reps; "about 4:30" of an untimed set, which has no send-off; "for 15:00" of a swim by time. */
export function timingWords(reps: readonly Rep[]): string {
  const texts = reps.map(repTiming);
  if (texts.every((text) => text === texts[0])) return texts[0] ?? '';
  if (reps.some(({ distance }) => distance !== reps[0]!.distance)) return byDistance(reps, texts);
  if (texts.every((text, index) => text === texts[index % 2])) return alternating(texts);
  // All reps of a line have a target or none has, but for odds and evens.
  const targets = reps.map(({ target }) => target).filter((target) => target !== null);
  return commaed(
    inTurn(
      'on',
      reps.map(({ interval }) => interval),
      reps.map(intervalText),
    ),
    inTurn('hold', targets, targets.map(reading)),
  );
}

/** The same in a column of intervals, where "on" goes without saying. */
export function timingCell(reps: readonly Rep[]): string {
  return timingWords(reps).replace(/^on /, '');
}

/** "on 1:35, hold 1:20". */
function repTiming(rep: Rep): string {
  const on = rep.set.untimed ? `about ${reading(rep.interval)}` : onText(rep);
  return commaed(on, holdText(rep.target));
}

/** Each distance once where its reps are all alike, else every rep in its order. */
function byDistance(reps: readonly Rep[], texts: readonly string[]): string {
  const all = reps.map(({ distance }, index) => `${distanceText(distance)} ${texts[index]!}`);
  const once = [...new Set(all)];
  const isAlike = once.length === new Set(reps.map(({ distance }) => distance)).size;
  return joined(isAlike ? once : all);
}

function alternating(texts: readonly string[]): string {
  const names = texts.length === 2 ? ['rep 1', 'rep 2'] : ['odds', 'evens'];
  return joined(names.map((name, index) => `${name} ${texts[index]!}`));
}

/** With semicolons where there are commas in them. */
function joined(texts: readonly string[]): string {
  return texts.join(texts.some((text) => text.includes(', ')) ? '; ' : ', ');
}

/** "hold 1:20"; "on 1:40, 2 s less each time, down to 1:22"; "on 1:30, 1:25, 1:20, 1:20 in turn"; '' for none. */
function inTurn(word: string, values: readonly Millis[], texts: readonly string[]): string {
  const [first] = texts;
  if (first === undefined) return '';
  if (texts.every((text) => text === first)) return `${word} ${first}`;
  const step = evenStep(values);
  if (step === null) return `${word} ${texts.join(', ')} in turn`;
  const way = step < 0 ? ['less', 'down'] : ['more', 'up'];
  const last = texts[texts.length - 1]!;
  return `${word} ${first}, ${spanText(Math.abs(step))} ${way[0]!} each time, ${way[1]!} to ${last}`;
}

/** Of two values or more; null where the steps differ. */
function evenStep(values: readonly Millis[]): Millis | null {
  const step = values[1]! - values[0]!;
  return values.every((value, index) => value === values[0]! + index * step) ? step : null;
}
