/*
 * Warnings of one line and code in one sentence, with their lanes.
 */

import { describe, expect, test } from 'vitest';
import { warningsOf } from '../../../../app/core/plan/warnings/warnings.ts';
import { warningGroups } from '../../../../renderer/desk/timetable/warning-groups.ts';
import { planOf } from '../../../support/run/deck.ts';

const groups = (text: string) => warningGroups(warningsOf(planOf(text)));
const of = (text: string, code: string) => groups(text).find((group) => group.code === code);

const LANES = 'lane 1 base 1:30, 6 swimmers\nlane 2 base 1:40, 6 swimmers\nlane 3 base 1:30, 6 swimmers';

describe('warnings of one line and code stand together', () => {
  test('with the figures of each lane where they differ', () => {
    const group = of(`${LANES}\nSet\n4 x 100 @ 1:00`, 'cannot-make');
    expect(group?.sentence).toBe(
      'Lanes 1–3 cannot make their interval: lane 1 100 m on 1:00, expected to take about 1:20; ' +
        'lane 2 100 m on 1:00, expected to take about 1:30; lane 3 100 m on 1:00, expected to take about 1:20.',
    );
    expect(group?.short).toBe('lanes 1–3: cannot make it');
  });

  test('with the figures once where they are the same', () => {
    const { sentence, short } = of(`lane 1\nlane 2\nSet\n4 x 100 @ base`, 'assumed-base')!;
    expect(short).toBe('lanes 1 and 2: base assumed');
    expect(sentence).toBe('Lanes 1 and 2 have neither base nor css: times rest on an assumed base of 2:00.');
    const ends = of('lane 1\nlane 2\nSet\n1 x 25 @ 1:00\n4 x 50 @ 2:00', 'far-end')!;
    expect(ends.sentence).toBe('Lanes 1 and 2 end this set at the far end, away from the screen: 1 length so far.');
  });

  test('one lane alone keeps its own sentence', () => {
    const [group] = groups('lane 1 base 1:30\nSet\n4 x 100 @ 1:00');
    expect(group?.sentence).toBe('Lane 1 cannot make 100 m on 1:00: it is expected to take about 1:20.');
  });

  const FULL = 'lane 1 base 1:30, 12 swimmers\nlane 2 base 1:40, 12 swimmers\nSet\n';
  const CIRCLE = '12 swimmers 5 s apart take up 1:00, the lead is back after 50 m in about';
  const TAIL = 'the last of 12 swimmers 5 s apart leaves 55 s after the lead, who is to leave again after 50 s';
  const ODD = 'is not a whole number of lengths in a pool of 25 m';

  test.each([
    [
      ...['rest-short', '4 x 100 @ 1:22/1:32', 'hardly any rest', 'have hardly any rest'],
      'lane 1 2 s of rest in 100 m on 1:22, expected to take about 1:20; lane 2 2 s of rest in 100 m on 1:32, expected to take about 1:30',
    ],
    [
      ...['lane-full', '4 x 100 @ 3:00', 'too full', 'are too full to swim in a circle'],
      `lane 1 ${CIRCLE} 40 s; lane 2 ${CIRCLE} 45 s`,
    ],
    [
      ...['tail-late', '4 x 100 @ 0:50', 'the tail leaves late'],
      ...['are to leave again before their last swimmer has left', TAIL],
    ],
    [
      ...[
        'part-lengths',
        '4 x 60/70 @ 3:00',
        'no whole lengths',
        'have a distance that is not a whole number of lengths',
      ],
      `lane 1 60 m ${ODD}; lane 2 70 m ${ODD}`,
    ],
    [
      ...[
        'far-end',
        '25 @ 1:00\n50 @ 2:00',
        'ends at the far end',
        'end this set at the far end, away from the screen',
      ],
      '1 length so far',
    ],
  ])('%s is one sentence for all its lanes', (code, lines, short, several, figures) => {
    const found = groups(`${FULL}${lines}`).filter((group) => group.code === code);
    expect(found).toEqual([
      { code, line: 4, short: `lanes 1 and 2: ${short}`, sentence: `Lanes 1 and 2 ${several}: ${figures}.` },
    ]);
  });

  test.each([
    ['over-time', 'start 19:30\nfinish 19:31\nSet\n4 x 100 @ 2:00', 2, 'past the finish', /^The plan/],
    ['empty-part', 'T\nDrills\nMain set\n50 @ 2:00', 2, 'nothing under it', /^"Drills"/],
    ['words-distance', 'Main set\n300 swim 200 kick @ 9:00', 2, 'a distance among the words', /^200 m stands/],
  ])('%s is about all lanes and names none', (code, text, line, short, sentence) => {
    expect(of(text, code)).toEqual({ code, line, short, sentence: expect.stringMatching(sentence) });
  });
});
