/*
 * The lines of a part, each written in one of the ways that notation.md allows for it.
 */

import type { Random } from './random.ts';
import type {
  HoldWord,
  IntervalWord,
  LengthUnit,
  PerLane,
  Scenario,
  ScenarioBlock,
  ScenarioItem,
  ScenarioSet,
  ScenarioTiming,
} from './scenario.ts';

/** One item's own line, without indent or bullet; rounds without what stands under them. */
export function writeItem(item: ScenarioItem, scenario: Scenario, random: Random): string {
  switch (item.kind) {
    case 'set':
      return writeSet(item, scenario, random);
    case 'block': {
      const distance = writeDistances(item.distances, scenario, random);
      const plural = 'same' in item.distances && /^\d+$/.test(distance) && random.chance(0.5) ? 's' : '';
      return `${writeTime(item.ms, random, 'minutes')} of ${distance}${plural}${writeRest(item, random, false)}`;
    }
    case 'timed-swim':
      return spaced(writeTime(item.ms, random, 'minutes-only'), item.words);
    case 'rounds': {
      const [only] = item.items;
      if (item.oneLine && only?.kind === 'set')
        return `${item.times}${times(random)}${writeSet(only, scenario, random, true)}`;
      return item.times + random.pick([' rounds', ' rounds of', ' times', ' x', ' Rounds', ' rounds:', ' times:']);
    }
    case 'talk':
    case 'break': {
      const word = item.kind === 'talk' ? random.pick(['talk', 'Talk']) : random.pick(['break', 'rest', 'Break']);
      return spaced(word + (random.chance(0.3) ? ':' : ''), spaced(writeTime(item.ms, random, 'colon'), item.words));
    }
  }
}

/**
 * A time in one of its forms. `colon`: with a colon; `bare`: a bare number of seconds will do where it
 * is from `atLeast` on; `minutes`: whole minutes may be written so; `minutes-only`: that or a colon.
 */
export function writeTime(
  ms: number,
  random: Random,
  form: 'colon' | 'bare' | 'minutes' | 'minutes-only',
  atLeast = 1000,
): string {
  const bare = ms >= atLeast && ms <= 99_000;
  if (form === 'bare' && bare && random.chance(0.4))
    return `${decimal(ms, 1000)}${random.pick(['', '', '', ' s', 's', ' sec'])}`;
  if (form.startsWith('minutes') && ms % 60_000 === 0 && ms <= 99 * 60_000 && random.chance(0.4))
    return `${ms / 60_000} min`;
  const tenths = ms % 1000 === 0 ? '' : `.${(ms % 1000) / 100}`;
  const seconds = Math.floor(ms / 1000);
  const two = (value: number): string => String(value).padStart(2, '0');
  if (seconds < 60 && random.chance(0.2)) return `:${two(seconds)}${tenths}`;
  const minutes = Math.floor(seconds / 60);
  if (minutes >= 60) return `${Math.floor(minutes / 60)}:${two(minutes % 60)}:${two(seconds % 60)}${tenths}`;
  return `${random.chance(0.2) ? two(minutes) : minutes}:${two(seconds % 60)}${tenths}`;
}

/** Tenths of seconds or of the unit, without a needless `.0`. */
export function decimal(value: number, one: number): string {
  return String(value / one);
}

function writeSet(set: ScenarioSet, scenario: Scenario, random: Random, countNeeded = false): string {
  const shape = writeShape(set, scenario, random, countNeeded);
  // Behind a unit, glued words would make another word of it.
  return shape + writeRest(set, random, /\d$/.test(shape));
}

function writeShape(set: ScenarioSet, scenario: Scenario, random: Random, countNeeded: boolean): string {
  const { shape } = set;
  if (shape.kind === 'ladder') {
    return shape.rungs.map((rung) => decimal(rung, 10)).join(random.pick(['-', '-', ' - ', '\u2013']));
  }
  const distances = writeDistances(shape.distances, scenario, random);
  const single = 'same' in shape.counts && shape.counts.same === 1 && 'same' in shape.distances;
  if (single && !countNeeded && random.chance(0.6)) return distances;
  return writeList(shape.counts, random, String) + times(random) + distances;
}

function times(random: Random): string {
  return random.pick([' x ', ' x ', 'x', ' × ', '*', ' X ']);
}

function writeDistances(distances: PerLane<number>, scenario: Scenario, random: Random): string {
  const { pool } = scenario;
  if ('each' in distances) return writeList(distances, random, (distance) => decimal(distance, 10));
  const needsUnit = distances.same * 10 < pool.hundredths;
  const unit =
    needsUnit || random.chance(0.15)
      ? random.pick([unitWord(pool.unit, random), ` ${unitWord(pool.unit, random)}`])
      : '';
  return decimal(distances.same, 10) + unit;
}

function unitWord(unit: LengthUnit, random: Random): string {
  return unit === 'm' ? 'm' : random.pick(['yd', 'y']);
}

/** Words, interval, target in one of their orders, from the space before them on (none where the words stand glued). */
function writeRest(item: ScenarioSet | ScenarioBlock, random: Random, mayGlue: boolean): string {
  const [before, after] = splitWords(item.words, random);
  const timing = writeTiming(item.timing, random);
  const hold = item.hold === null ? '' : `hold ${writeList(item.hold, random, (word) => writeHold(word, random))}`;
  const holdFirst = hold !== '' && (timing === '' || random.chance(0.3));
  const parts = holdFirst ? [hold, timing] : [timing, hold];
  const values = parts.filter((part) => part !== '');
  const closed = !holdFirst && hold === '' && !hasStep(item.timing);
  if (values.length === 0)
    return spaced('', item.words, mayGlue && !/^[msxy]/i.test(item.words) && random.chance(0.15));
  // Behind the value of hold, drop or add a comma must come before words; behind an interval it may.
  const glued = mayGlue && /^[a-z]/i.test(before) && !/^[msxy]/i.test(before) && random.chance(0.15);
  const comma =
    after !== '' && (!(closed || (holdFirst && timing !== '' && !hasStep(item.timing))) || random.chance(0.3))
      ? ','
      : '';
  return `${spaced('', before, glued)} ${values.join(' ')}${comma}${spaced('', after)}`;
}

function hasStep(timing: ScenarioTiming): boolean {
  return timing.kind === 'interval' && timing.step !== 0;
}

function splitWords(words: string, random: Random): [before: string, after: string] {
  if (random.chance(0.5)) return [words, ''];
  const spaces = [...words.matchAll(/[a-z] (?=[a-z])/gi)].map((match) => match.index + 1);
  if (spaces.length === 0 || random.chance(0.5)) return ['', words];
  const at = random.pick(spaces);
  return [words.slice(0, at), words.slice(at + 1)];
}

function writeTiming(timing: ScenarioTiming, random: Random): string {
  if (timing.kind === 'untimed') return '';
  if (timing.kind === 'rest') {
    if ('same' in timing.lanes && random.chance(0.25)) return `${decimal(timing.lanes.same, 1000)} s rest`;
    return `${random.pick(['rest', 'rest', 'ri', 'Rest'])} ${writeList(timing.lanes, random, (ms) => writeTime(ms, random, 'bare'))}`;
  }
  const at = random.pick(['@ ', '@ ', '@', 'on ', 'on the ']);
  const step = timing.step === 0 ? '' : `${random.pick([' ', ', '])}${writeStep(timing.step, random)}`;
  return at + writeList(timing.lanes, random, (word) => writeInterval(word, random)) + step;
}

function writeStep(step: number, random: Random): string {
  return `${step < 0 ? 'drop' : 'add'} ${writeTime(Math.abs(step), random, 'bare')}`;
}

function writeInterval(word: IntervalWord, random: Random): string {
  if (word.kind === 'time') return writeTime(word.ms, random, 'bare', 10_000);
  if (word.plus === 0) return random.pick(['base', 'base', 'Base']);
  return `base${writeSigned(word.plus, random)}`;
}

function writeHold(word: HoldWord, random: Random): string {
  if (word.kind === 'time') return writeTime(word.ms, random, 'bare');
  return word.plus === 0 ? 'css' : `css${writeSigned(word.plus, random)}`;
}

function writeSigned(ms: number, random: Random): string {
  const sign = ms < 0 ? random.pick(['-', '-', '\u2212', '\u2013']) : '+';
  // A bare number of seconds is at least 1.
  const asTime = Math.abs(ms) < 1000 || random.chance(0.2);
  const value = asTime ? writeTime(Math.abs(ms), random, 'colon') : decimal(Math.abs(ms), 1000);
  return random.chance(0.15) ? ` ${sign} ${value}` : sign + value;
}

function writeList<Value>(list: PerLane<Value>, random: Random, write: (value: Value) => string): string {
  if ('same' in list) return write(list.same);
  return list.each.map((value) => write(value)).join(random.chance(0.1) ? ' / ' : '/');
}

function spaced(before: string, after: string, glued = false): string {
  if (after === '') return before;
  return glued ? before + after : `${before} ${after}`;
}
