/*
 * All intervals of a set in words: none is left out, and each rep's own can be read back.
 */

import { describe, expect, test } from 'vitest';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { Plan, Rep } from '../../../app/core/plan/plan.ts';
import { distanceText } from '../../../app/core/words/distance.ts';
import { intervalText } from '../../../app/core/words/interval.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import { timingCell, timingWords } from '../../../app/core/words/timing.ts';
import { inventSession } from '../../model/invent/invent-session.ts';
import { seededRandom } from '../../model/invent/random.ts';
import { textOf } from '../../model/scenario.ts';
import { writeSession } from '../../model/write/write-session.ts';
import { runOf } from '../../support/coach/coach-run.ts';

const repsOf = (line: string): readonly Rep[] =>
  runOf(`lane 1 base 1:30, css 1:20\nSet\n${line}`).plan.stretches[0]!.lanes[0]!.reps;

describe('[words] the intervals of a set', () => {
  test.each([
    ['4 x 100 @ 1:40', 'on 1:40'],
    ['4 x 100 @ 1:40 hold 1:25', 'on 1:40, hold 1:25'],
    ['10 x 100 @ 1:40 drop 2', 'on 1:40, 2 s less each time, down to 1:22'],
    ['3 x 100 @ 1:40 add 5 hold 1:25', 'on 1:40, 5 s more each time, up to 1:50, hold 1:25'],
    ['2 x 100 @ 1:40 drop 5', 'rep 1 on 1:40, rep 2 on 1:35'],
    ['50-100-150-200-150-100-50 pull @ base', '50 on 0:45, 100 on 1:30, 150 on 2:15, 200 on 3:00'],
    ['50-100-50 @ 0:50, 1:30, 0:45', '50 on 0:50, 100 on 1:30, 50 on 0:45'],
    ['50-25-50-50 @ 0:50, 0:30, 0:45, 0:50', '50 on 0:50, 25 on 0:30, 50 on 0:45, 50 on 0:50'],
    ['50-100 @ base hold css', '50 on 0:45, hold 0:40; 100 on 1:30, hold 1:20'],
    ['100-200 @ 4:00', 'on 4:00'],
    ['4 x 100 @ 1:30, 1:25, 1:20, 1:20', 'on 1:30, 1:25, 1:20, 1:20 in turn'],
    ['4 x 100 @ 1:40 hold 1:30, 1:25, 1:20, 1:15', 'on 1:40, hold 1:30, 5 s less each time, down to 1:15'],
    ['8 x 50 free odds fast @ 0:45, evens easy rest 20', 'odds on 0:45, evens on ≈1:10'],
    ['8 x 50 odds fast @ 0:45 hold 0:38, evens @ 1:00', 'odds on 0:45, hold 0:38; evens on 1:00'],
    ['15:00 easy swim', 'for 15:00'],
  ])('%s: %s', (line, words) => {
    expect(timingWords(repsOf(line))).toBe(words);
  });

  test('an untimed set takes about so long: it has no send-off', () => {
    expect(timingWords(repsOf('300 choice'))).toMatch(/^about \d+:\d\d$/);
  });

  test('nothing is said of a lane that does not swim', () => {
    expect(timingWords([])).toBe('');
  });

  test('a column of intervals leaves out the "on" that all its cells would begin with, and no other', () => {
    expect(timingCell(repsOf('4 x 100 @ 1:40 drop 2'))).toBe('1:40, 2 s less each time, down to 1:34');
    expect(timingCell(repsOf('50-100 @ base'))).toBe('50 on 0:45, 100 on 1:30');
  });

  const SEEDS = 150;
  test(`each rep’s interval and target can be read back from the words: seeds 1 to ${SEEDS}`, () => {
    const forms = new Set<string>();
    for (let seed = 1; seed <= SEEDS; seed++) {
      const random = seededRandom(seed);
      const written = writeSession(inventSession(random), random);
      const plan = openPlan({ text: textOf(written), lanesText: written.lanesText });
      if (!plan.ok) throw new Error(`seed ${seed}`);
      for (const reps of passagesOf(plan.value)) {
        const words = timingWords(reps);
        expect(readBack(words, reps), `seed ${seed}: ${words}`).toEqual(reps.map(planned));
        forms.add(
          /each time|in turn|odds|rep 1|about|for/.exec(words)?.[0] ?? (/^on/.test(words) ? 'on' : 'by distance'),
        );
      }
    }
    expect(forms).toEqual(new Set(['on', 'each time', 'in turn', 'odds', 'rep 1', 'about', 'for', 'by distance']));
  });
});

function passagesOf({ stretches }: Plan): readonly (readonly Rep[])[] {
  return stretches.flatMap(({ lanes }) =>
    lanes.flatMap(({ reps }) =>
      [...new Set(reps.map(({ set }) => set))].map((set) => reps.filter((r) => r.set === set)),
    ),
  );
}

interface Told {
  readonly interval: string;
  readonly target: string;
}

const planned = (rep: Rep): Told => ({
  interval: intervalText(rep).replace('≈', ''),
  target: rep.target === null ? '–' : reading(rep.target),
});

/** As a swimmer reads them who knows how many reps there are, and how far each is. */
function readBack(words: string, reps: readonly Rep[]): readonly Told[] {
  const named = clauses(words, /(?:^|[,;] )(?:odds|evens|rep 1|rep 2)\b/);
  if (named.length > 0) return reps.map((_, index) => oneTold(named[index % 2]!));
  const distances = reps.map(({ distance }) => distanceText(distance));
  if (/^[\d.]+ [^;]*?on /.test(words)) {
    const rungs = clauses(words, /(?:^|[,;] )[\d.]+ (?=on )/);
    const heads = rungs.map((rung) => /^[,; ]*([\d.]+)/.exec(rung)![1]!);
    const isEach = rungs.length === reps.length;
    return distances.map((distance, index) => oneTold(rungs[isEach ? index : heads.indexOf(distance)]!));
  }
  const [on, hold] = words.split(/, (?=hold )|^(?=hold )/);
  const intervals = series(on!, reps.length);
  const targets = hold === undefined ? reps.map(() => '–') : series(hold, reps.length);
  return reps.map((_, index) => ({ interval: intervals[index]!, target: targets[index]! }));
}

/** The text from each place where the pattern is found to the next. */
function clauses(words: string, pattern: RegExp): readonly string[] {
  const starts = [...words.matchAll(new RegExp(pattern, 'g'))].map(({ index }) => index);
  return starts.map((start, index) => words.slice(start, starts[index + 1]));
}

function oneTold(clause: string): Told {
  return {
    interval: /on ≈?([\d:.]+)/.exec(clause)![1]!,
    target: /hold ([\d:.]+)/.exec(clause)?.[1] ?? '–',
  };
}

function series(text: string, length: number): readonly string[] {
  const values = text.replace(/^.*?(?:on|hold|about|for) /, '').replaceAll('≈', '');
  if (values.endsWith(' in turn')) return values.replace(' in turn', '').split(', ');
  const step = /^(\S+), ([\d:.]+)(?: s)? (less|more) each time, (?:down|up) to (\S+)$/.exec(values);
  if (!step) return Array.from({ length }, () => values);
  const by = (step[3] === 'less' ? -1 : 1) * millis(step[2]!);
  const told = Array.from({ length }, (_, index) => reading(millis(step[1]!) + index * by));
  expect(told[length - 1]).toBe(step[4]);
  return told;
}

function millis(text: string): number {
  return Math.round(text.split(':').reduce((sum, piece) => sum * 60 + Number(piece), 0) * 1000);
}
