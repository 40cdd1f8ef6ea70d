/*
 * Warnings of one line and code in one sentence, with their lanes.
 */

import { describe, expect, test } from 'vitest';
import { warningsOf } from '../../../../app/core/plan/warnings/warnings.ts';
import { warningGroups } from '../../../../renderer/desk/timetable/warning-groups.ts';
import { planOf } from '../../../support/deck.ts';

const groups = (text: string) => warningGroups(warningsOf(planOf(text)));
const of = (text: string, code: string) => groups(text).find((group) => group.code === code);

const LANES = 'lane 1 base 1:30, 6 swimmers\nlane 2 base 1:40, 6 swimmers\nlane 3 base 1:30, 6 swimmers';

describe('warnings of one line and code stand together', () => {
  test('with the figures of each lane where they differ', () => {
    const group = of(`${LANES}\nSet\n4 x 100 @ 1:00`, 'cannot-make');
    expect(group?.sentence).toBe(
      'Lanes 1, 2 and 3 cannot make their interval: lane 1 100 m on 1:00, expected to take about 1:20; ' +
        'lane 2 100 m on 1:00, expected to take about 1:30; lane 3 100 m on 1:00, expected to take about 1:20.',
    );
    expect(group?.short).toBe('lanes 1, 2 and 3: cannot make it');
  });

  test('with the figures once where they are the same', () => {
    const { sentence } = of(`lane 1\nlane 2\nSet\n4 x 100 @ base`, 'assumed-base')!;
    expect(sentence).toBe('Lanes 1 and 2 have neither base nor css: times rest on an assumed base of 2:00.');
    const ends = of('lane 1\nlane 2\nSet\n1 x 25 @ 1:00\n4 x 50 @ 2:00', 'far-end')!;
    expect(ends.sentence).toBe('Lanes 1 and 2 end this set at the far end, away from the screen: 1 length so far.');
  });

  test('one lane alone keeps its own sentence', () => {
    const [group] = groups('lane 1 base 1:30\nSet\n4 x 100 @ 1:00');
    expect(group?.sentence).toBe('Lane 1 cannot make 100 m on 1:00: it is expected to take about 1:20.');
  });

  test.each([
    ['rest-short', `${LANES}\nSet\n4 x 100 @ 1:22/1:32/1:22`],
    ['lane-full', `${LANES.replace(/6 swimmers/g, '12 swimmers')}\nSet\n4 x 100 @ 3:00`],
    ['tail-late', `${LANES.replace(/6 swimmers/g, '12 swimmers')}\nSet\n4 x 100 @ 0:50`],
    ['part-lengths', `${LANES}\nSet\n4 x 60/70/60 @ 3:00`],
  ])('%s is one sentence for all its lanes', (code, text) => {
    const found = groups(text).filter((group) => group.code === code);
    expect(found).toHaveLength(1);
    expect(found[0]?.sentence).toMatch(/^Lanes (1, 2 and 3|1 and 3) [^.]*(\.\d[^.]*)*\.$/);
    expect(found[0]?.sentence).not.toMatch(/Lane \d/);
  });

  test('what is about the whole session has no lanes', () => {
    const group = of('start 19:30\nfinish 19:31\nSet\n4 x 100 @ 2:00', 'over-time');
    expect(group).toMatchObject({ line: 2, short: 'past the finish', sentence: expect.stringMatching(/^The plan/) });
  });
});
