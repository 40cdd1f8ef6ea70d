/*
 * What stands behind a set's distance: its words, its interval or rest and its target, in one of
 * their orders; and the same once more for odds and evens.
 */

import type { Random } from '../invent/random.ts';
import type {
  HoldWord,
  PerLane,
  PerRep,
  ScenarioBlock,
  ScenarioHalf,
  ScenarioSet,
  ScenarioTiming,
} from '../scenario.ts';
import { decimal, writeHold, writeInterval, writeStep, writeTime, type TimePlace } from './write-time.ts';

interface Terms {
  readonly words: string;
  readonly timing: Exclude<ScenarioTiming, { kind: 'halves' }>;
  readonly hold: PerRep<PerLane<HoldWord>> | null;
}

interface WrittenTerms {
  /** From the space before them on; none where the words stand glued to what comes before. */
  readonly text: string;
  /** The value of hold, drop or add stands last: a word behind it needs a comma. */
  readonly endsInValue: boolean;
}

/** All of it. */
export function writeTerms(item: ScenarioSet | ScenarioBlock, random: Random, mayGlue: boolean): string {
  const { words, timing, hold } = item;
  if (timing.kind !== 'halves') return writeInOrder({ words, timing, hold }, random, mayGlue).text;
  const common = writeInOrder({ words, timing: { kind: 'untimed' }, hold }, random, mayGlue);
  const halves = [writeHalf('odds', timing.odds, random), writeHalf('evens', timing.evens, random)] as const;
  const [first, second] = random.chance(0.7) ? halves : [halves[1], halves[0]];
  return joined(joined(common, first, random, 0.3), second, random, 0.6).text;
}

function writeHalf(name: string, half: ScenarioHalf, random: Random): WrittenTerms {
  const keyword = random.pick([name, name, name, name.toUpperCase()]);
  const { text, endsInValue } = writeInOrder(half, random, false);
  return { text: ` ${keyword}${text}`, endsInValue };
}

/** With a comma between, where there must be one, or may be. */
function joined(before: WrittenTerms, after: WrittenTerms, random: Random, chanceOfComma: number): WrittenTerms {
  const comma = before.endsInValue || (before.text !== '' && random.chance(chanceOfComma)) ? ',' : '';
  return { text: before.text + comma + after.text, endsInValue: after.endsInValue };
}

function writeInOrder(terms: Terms, random: Random, mayGlue: boolean): WrittenTerms {
  const { words, timing, hold } = terms;
  const isTimed = timing.kind !== 'untimed';
  if (!isTimed && hold === null)
    return { text: spaced('', words, mayGlue && mayBeGlued(words, random)), endsInValue: false };
  const [before, after] = splitWords(words, random);
  const holdFirst = hold !== null && (!isTimed || random.chance(0.3));
  const endsInHold = hold !== null && !(holdFirst && isTimed);
  const endsInValue = endsInHold || (timing.kind === 'interval' && timing.step !== 0);
  // Behind the value of hold, drop or add a comma must come before words; behind an interval it may.
  const comma = after !== '' && (endsInValue || /^\d/.test(after) || random.chance(0.3)) ? ',' : '';
  // In a list a rep, a bare number with words behind it would be one of the words.
  const atEnd: TimePlace = after === '' || comma !== '' ? 'value' : 'before words';
  const timed = writeTiming(timing, random, endsInHold ? 'value' : atEnd);
  const followedByRest = holdFirst && timing.kind === 'rest';
  const held = hold === null ? '' : `hold ${writeHolds(hold, random, followedByRest ? 'before words' : 'value')}`;
  const values = (holdFirst ? [held, timed] : [timed, held]).filter((value) => value !== '');
  const start = spaced('', before, mayGlue && mayBeGlued(before, random));
  return {
    text: `${start} ${values.join(' ')}${comma}${spaced('', after)}`,
    endsInValue: endsInValue && after === '',
  };
}

/** Words behind a distance without a space between. */
function mayBeGlued(words: string, random: Random): boolean {
  return /^[a-z]/i.test(words) && !/^[msxy]/i.test(words) && random.chance(0.15);
}

function splitWords(words: string, random: Random): [before: string, after: string] {
  if (/^\d/.test(words)) return ['', words];
  if (random.chance(0.5)) return [words, ''];
  // An interval between the two words would be that of the odds or evens alone.
  const isWhole = /^on\b|odds.*evens/.test(words);
  const spaces = isWhole ? [] : [...words.matchAll(/[a-z] (?=[a-z])/gi)].map((match) => match.index + 1);
  if (spaces.length === 0 || random.chance(0.5)) return ['', words];
  const at = random.pick(spaces);
  return [words.slice(0, at), words.slice(at + 1)];
}

function writeTiming(timing: Terms['timing'], random: Random, last: TimePlace): string {
  const at = random.pick(['@ ', '@ ', '@', 'on ', 'on the ']);
  switch (timing.kind) {
    case 'untimed':
      return '';
    case 'rest':
      if ('same' in timing.lanes && random.chance(0.25))
        return `${decimal(timing.lanes.same, 1000)}${random.pick([' s', ' s', 's', ' sec'])} rest`;
      return `${random.pick(['rest', 'rest', 'ri', 'Rest'])} ${writeList(timing.lanes, random, (ms) => writeTime(ms, random, 'value'))}`;
    case 'interval': {
      const step = timing.step === 0 ? '' : `${random.pick([' ', ', '])}${writeStep(timing.step, random)}`;
      return at + writeList(timing.lanes, random, (word) => writeInterval(word, random, 'value')) + step;
    }
    case 'listed':
      return at + writeReps(timing.reps, random, last, (word, place) => writeInterval(word, random, place));
  }
}

function writeHolds(hold: PerRep<PerLane<HoldWord>>, random: Random, last: TimePlace): string {
  const write = (word: HoldWord, place: TimePlace): string => writeHold(word, random, place);
  if ('reps' in hold) return writeReps(hold.reps, random, last, write);
  return writeList(hold, random, (word) => write(word, 'value'));
}

/** One a rep; where a bare number may not stand last, it stands in none of the last rep's lanes. */
function writeReps<Value>(
  reps: readonly PerLane<Value>[],
  random: Random,
  last: TimePlace,
  write: (value: Value, place: TimePlace) => string,
): string {
  const written = reps.map((list, index) => {
    const place = index === reps.length - 1 ? last : 'value';
    return writeList(list, random, (value) => write(value, place));
  });
  return written.join(', ');
}

export function writeList<Value>(list: PerLane<Value>, random: Random, write: (value: Value) => string): string {
  if ('same' in list) return write(list.same);
  return list.each.map((value) => write(value)).join(random.chance(0.1) ? ' / ' : '/');
}

export function spaced(before: string, after: string, glued = false): string {
  if (after === '') return before;
  return glued ? before + after : `${before} ${after}`;
}
