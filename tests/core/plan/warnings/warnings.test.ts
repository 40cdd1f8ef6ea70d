import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../../app/core/plan/plan.ts';
import type { WarningCode } from '../../../../app/core/plan/warnings/warning.ts';
import { warningsOf } from '../../../../app/core/plan/warnings/warnings.ts';
import {
  base,
  block,
  holdTime,
  ladder,
  lane,
  on,
  part,
  pause,
  planOf,
  restOf,
  rounds,
  set,
  timedSwim,
} from '../../../support/coach/hand-session.ts';
import { planOf as planOfText } from '../../../support/run/deck.ts';

/** Line and lane of the warnings of one code. */
function places(plan: Plan, code: WarningCode): readonly string[] {
  return warningsOf(plan)
    .filter((warning) => warning.code === code)
    .map(({ line, lane }) => (lane === null ? `${line}` : `${line} lane ${lane}`));
}

function messages(plan: Plan, code: WarningCode): readonly string[] {
  return warningsOf(plan)
    .filter((warning) => warning.code === code)
    .map(({ message }) => message);
}

/** Cruises at 1:20 a 100. */
const steady = { base: 90_000 };

describe('cannot-make and rest-short', () => {
  test('an interval below the expected time cannot be made; one that equals it is short of rest', () => {
    const at = (seconds: number): Plan =>
      planOf([set(1, 2, 100, { timing: on(seconds) })], { lanes: [lane(1, steady)] });
    expect(messages(at(79.9), 'cannot-make')).toEqual([
      'Lane 1 cannot make 100 m on 1:19.9: it is expected to take about 1:20.',
    ]);
    expect(places(at(79.9), 'rest-short')).toEqual([]);
    expect(places(at(80), 'cannot-make')).toEqual([]);
    expect(messages(at(80), 'rest-short')).toEqual([
      'Lane 1 has only 0 s of rest in 100 m on 1:20: it is expected to take about 1:20.',
    ]);
    expect(places(at(84.9), 'rest-short')).toEqual(['1 lane 1']);
    expect(warningsOf(at(85))).toEqual([]);
  });

  test('expected times are compared before they are rounded to whole milliseconds', () => {
    // css 0:53 x 1.05 x 0.333 = 18.53145 s, which shows as 18.531 s.
    const at = (milliseconds: number): Plan =>
      planOf([set(1, 1, 33.3, { timing: on(milliseconds / 1000) })], { lanes: [lane(1, { css: 53_000 })] });
    expect(places(at(18_531), 'cannot-make')).toEqual(['1 lane 1']);
    expect(places(at(18_532), 'cannot-make')).toEqual([]);
  });

  test('a hold is the expected time', () => {
    const plan = planOf([set(1, 4, 100, { timing: on(100), hold: holdTime(101) })]);
    expect(messages(plan, 'cannot-make')).toEqual(['Lane 1 cannot make 100 m on 1:40: it is held at 1:41.']);
  });

  test('words make a swim slower: kicked, the same interval cannot be made', () => {
    expect(places(planOf([set(1, 4, 50, { timing: on(55), words: 'kick' })]), 'cannot-make')).toEqual(['1 lane 1']);
    expect(warningsOf(planOf([set(1, 4, 50, { timing: on(55) })]))).toEqual([]);
  });

  test('once a line and lane, by the rep with the least rest', () => {
    const dropping = planOf([rounds(1, 3, set(2, 4, 100, { timing: on(90, -5) }))]);
    expect(messages(dropping, 'cannot-make')).toEqual([
      'Lane 1 cannot make 100 m on 1:15: it is expected to take about 1:20.',
    ]);
    expect(places(dropping, 'rest-short')).toEqual([]);
    const ladders = planOf([ladder(1, [100, 300, 200], { timing: on(243) })]);
    expect(messages(ladders, 'rest-short')[0]).toContain('only 3 s of rest in 300 m on 4:03');
  });

  test('every rep that is swum otherwise is looked at: by its words, and by its target', () => {
    const cannot = (line: string) => messages(planOfText(`lane 1 base 1:30\n${line}`), 'cannot-make');
    expect(cannot('4 x 50 odds free @ 0:55, evens kick @ 0:55')).toEqual([
      'Lane 1 cannot make 50 m on 0:55: it is expected to take about 0:56.',
    ]);
    expect(cannot('3 x 50 @ 0:55 hold 0:40, 0:56, 0:40')).toEqual([
      'Lane 1 cannot make 50 m on 0:55: it is held at 0:56.',
    ]);
  });

  test('a rest below 5 s is short of rest; swims by time and untimed sets have none to be short of', () => {
    // 80 s + 5 s is on the grid; 80 s + 4 s would be rounded up to it.
    expect(places(planOf([set(1, 2, 100, { timing: restOf(4) })], { grid: 1000 }), 'rest-short')).toEqual(['1 lane 1']);
    expect(warningsOf(planOf([set(1, 2, 100, { timing: restOf(5) })]))).toEqual([]);
    expect(warningsOf(planOf([timedSwim(1, 600), set(2, 1, 300)]))).toEqual([]);
  });

  test('the leftover of a timed block is no rest', () => {
    expect(places(planOf([block(1, 600, 100, on(82))]), 'rest-short')).toEqual(['1 lane 1']);
  });

  test('an assumed base is named with the figure that rests on it', () => {
    const lanes = [lane(1, { base: 120_000, baseFrom: 'assumed' })];
    const plan = planOf([set(1, 1, 100, { timing: on(100) })], { lanes });
    expect(messages(plan, 'cannot-make')[0]).toContain('about 1:50 (base 2:00 assumed)');
  });

  test('a lane that sits the set out is not warned', () => {
    const lanes = [lane(1), lane(2)];
    const plan = planOf([set(1, [1, 0], 100, { lanes: 2, timing: on([90, 20]) })], { lanes });
    expect(warningsOf(plan)).toEqual([]);
  });
});

describe('lane-full', () => {
  const full = (swimmers: number, given: Partial<Parameters<typeof set>[3]> = {}, metres = 100): readonly string[] => {
    const lanes = [lane(1, { base: 100_000, swimmers, gap: 10_000 })];
    return places(planOf([set(1, 1, metres, { timing: on(600), ...given })], { lanes }), 'lane-full');
  };

  test('swimmers x gap above the lead’s time for two lengths, not just at it', () => {
    // Cruises at 1:30: two lengths in 45 s.
    expect(full(4)).toEqual([]);
    expect(full(5)).toEqual(['1 lane 1']);
  });

  test('only for reps of two lengths or more; an untimed set by its own reps', () => {
    expect(full(9, {}, 25)).toEqual([]);
    expect(full(9, {}, 50)).toEqual(['1 lane 1']);
    const lanes = [lane(1, { swimmers: 9, gap: 10_000 })];
    expect(places(planOf([set(1, 8, 25)], { lanes }), 'lane-full')).toEqual([]);
    expect(places(planOf([set(1, 8, 50)], { lanes }), 'lane-full')).toEqual(['1 lane 1']);
  });

  test('slower words and a slower target make room', () => {
    expect(full(6, { words: 'kick' })).toEqual([]);
    expect(full(6, { hold: holdTime(120) })).toEqual([]);
  });
});

describe('tail-late', () => {
  test('the tail reaches the interval of a rep that another leave follows in the stretch', () => {
    const late = (swimmers: number): readonly string[] =>
      places(planOf([set(1, 2, 25, { timing: on(30) })], { lanes: [lane(1, { swimmers })] }), 'tail-late');
    expect(late(6)).toEqual([]);
    expect(late(7)).toEqual(['1 lane 1']);
  });

  test('not where no leave follows in the stretch, also of another line', () => {
    const lanes = [lane(1, { swimmers: 7 })];
    const one = set(1, 1, 25, { timing: on(30) });
    expect(places(planOf([one], { lanes }), 'tail-late')).toEqual([]);
    expect(places(planOf([one, pause('break', 2, 60), set(3, 1, 25)], { lanes }), 'tail-late')).toEqual([]);
    expect(places(planOf([one, set(2, 1, 25)], { lanes }), 'tail-late')).toEqual(['1 lane 1']);
  });

  test('by the time to the next leave: behind the last rep of a timed block that is more than its interval', () => {
    const late = (seconds: number): readonly string[] =>
      places(
        planOf([block(1, seconds, 25, on(30)), set(2, 1, 25, { timing: on(60) })], {
          lanes: [lane(1, { swimmers: 7 })],
        }),
        'tail-late',
      );
    expect(late(50)).toEqual([]);
    expect(late(30)).toEqual(['1 lane 1']);
    expect(late(89)).toEqual(['1 lane 1']);
    // The block's only rep is the lane's last leave of the stretch.
    expect(places(planOf([block(1, 30, 25, on(30))], { lanes: [lane(1, { swimmers: 7 })] }), 'tail-late')).toEqual([]);
  });

  test('the figure is that of the leave that comes soonest by its rest', () => {
    const plan = planOf([rounds(1, 2, block(2, 40, 25, on(35))), set(3, 1, 25, { timing: on(35) })], {
      lanes: [lane(1, { swimmers: 10 })],
    });
    expect(messages(plan, 'tail-late')).toEqual([
      'Lane 1: the last of 10 swimmers 5 s apart leaves 45 s after the lead, who is to leave again after 40 s.',
    ]);
  });

  test('the figure is that of the rep with the least rest, the first of those with as little', () => {
    const again = (swimmers: number, line: string) =>
      messages(planOfText(`lane 1 base 1:30, ${swimmers} swimmers\n${line}`), 'tail-late').map((text) =>
        text.slice(-5),
      );
    // 25 m take 20 s, kicked 28 s.
    expect(again(8, '4 x 25 odds free @ 0:30, evens kick @ 0:35')).toEqual(['35 s.']);
    expect(again(9, '3 x 25 odds free @ 0:30, evens kick @ 0:38')).toEqual(['30 s.']);
  });

  test('once a line and lane, with its figures', () => {
    const plan = planOf([rounds(1, 2, set(2, 4, 25, { timing: on(35, -5) }))], { lanes: [lane(1, { swimmers: 7 })] });
    expect(messages(plan, 'tail-late')).toEqual([
      'Lane 1: the last of 7 swimmers 5 s apart leaves 30 s after the lead, who is to leave again after 20 s.',
    ]);
  });
});

describe('part-lengths', () => {
  const plan = (metres: number, length = 2500): Plan =>
    planOf([set(1, 1, metres, { timing: on(600) })], { pool: { length, unit: 'm' } });

  test('a distance that is not a whole number of lengths, for all lanes at once', () => {
    expect(messages(plan(90), 'part-lengths')).toEqual(['90 m is not a whole number of lengths in a pool of 25 m.']);
    expect(places(plan(90), 'part-lengths')).toEqual(['1']);
    expect(places(plan(75), 'part-lengths')).toEqual([]);
    expect(places(plan(15), 'part-lengths')).toEqual(['1']);
  });

  test('within half a percent of the number is whole: 100 in a pool of 33.33', () => {
    expect(places(plan(100, 3333), 'part-lengths')).toEqual([]);
    expect(places(plan(100.5), 'part-lengths')).toEqual([]);
    expect(places(plan(100.6), 'part-lengths')).toEqual(['1']);
    expect(places(plan(99.5), 'part-lengths')).toEqual([]);
    expect(places(plan(99.4), 'part-lengths')).toEqual(['1']);
  });

  test('by lane where distances are listed, not for a lane that sits out', () => {
    const lanes = [lane(1), lane(2), lane(3)];
    const listed = planOf([set(1, [1, 1, 0], [100, 90, 80], { timing: on(600, 0, 3) })], { lanes });
    expect(places(listed, 'part-lengths')).toEqual(['1 lane 2']);
  });

  test('once for a ladder, by each rep of an untimed set', () => {
    expect(places(planOf([ladder(1, [90, 100, 90], { timing: base() })]), 'part-lengths')).toEqual(['1']);
    // 10 x 10 m is four lengths in all, but no rep ends at a wall.
    expect(places(planOf([set(1, 10, 10)]), 'part-lengths')).toEqual(['1']);
  });
});

describe('far-end', () => {
  const far = (...items: Parameters<typeof planOf>[0]): readonly string[] => places(planOf(items as never), 'far-end');

  test('a set that ends after an odd number of lengths, with more to swim', () => {
    expect(far(set(1, 1, 75, { timing: on(90) }), set(2, 1, 50, { timing: on(90) }))).toEqual(['1 lane 1']);
    expect(far(set(1, 2, 75, { timing: on(90) }), set(2, 1, 50, { timing: on(90) }))).toEqual([]);
  });

  test('not where nothing is left to swim', () => {
    expect(far(set(1, 1, 75, { timing: on(90) }))).toEqual([]);
  });

  test('by all that the lane has swum so far, over parts and talks', () => {
    const plan = planOf([
      part('A', 1, set(2, 1, 75, { timing: on(90) }), pause('talk', 3, 30), set(4, 1, 50, { timing: on(90) })),
      part('B', 5, set(6, 1, 25, { timing: on(60) }), set(7, 1, 50, { timing: on(60) })),
    ]);
    expect(places(plan, 'far-end')).toEqual(['2 lane 1', '4 lane 1']);
    expect(messages(plan, 'far-end')[1]).toBe(
      'Lane 1 ends this set at the far end, away from the screen (5 lengths so far).',
    );
  });

  test('each rep counts rounded to whole lengths, also in an untimed set', () => {
    // 35 m is 1.4 lengths: three of them count 3, not 4.2.
    expect(far(set(1, 3, 35, { timing: on(90) }), set(2, 1, 50, { timing: on(90) }))).toEqual(['1 lane 1']);
    expect(far(set(1, 3, 35), set(2, 1, 50, { timing: on(90) }))).toEqual(['1 lane 1']);
    expect(far(set(1, 2, 75), set(2, 1, 50, { timing: on(90) }))).toEqual([]);
    expect(far(set(1, 3, 75), set(2, 1, 50, { timing: on(90) }))).toEqual(['1 lane 1']);
  });

  test('once a line, in whichever round it comes about', () => {
    expect(far(rounds(1, 4, set(2, 1, 25, { timing: on(60) })), set(3, 1, 50))).toEqual(['2 lane 1']);
  });

  test('where a swim by time ends nobody knows: it does not count and is not warned about', () => {
    expect(
      far(set(1, 1, 25, { timing: on(60) }), timedSwim(2, 300), set(3, 1, 25, { timing: on(60) }), set(4, 1, 50)),
    ).toEqual(['1 lane 1']);
  });
});

describe('the whole session', () => {
  const hour = { startsAt: 19 * 60, finishBy: 19 * 60 + 10, finishLine: 3 };

  test('over-time where the planned end is after the finish', () => {
    expect(warningsOf(planOf([timedSwim(5, 600)], hour))).toEqual([]);
    expect(warningsOf(planOf([timedSwim(5, 601)], hour))).toEqual([
      {
        code: 'over-time',
        line: 3,
        lane: null,
        message: 'The plan ends at 19:10:01, 1 s after the finish at 19:10.',
      },
    ]);
  });

  test('a finish before the start is that of the next day', () => {
    const night = { startsAt: 23 * 60 + 55, finishBy: 5, finishLine: 3 };
    expect(warningsOf(planOf([timedSwim(5, 600)], night))).toEqual([]);
    expect(places(planOf([timedSwim(5, 605)], night), 'over-time')).toEqual(['3']);
  });

  test('a heading with nothing under it', () => {
    const plan = planOf([part('Drills', 2), part('Main set', 3, timedSwim(4, 60)), part('Notices', 6)]);
    expect(places(plan, 'empty-part')).toEqual(['2', '6']);
    expect(messages(plan, 'empty-part')[0]).toBe('"Drills" has nothing under it.');
  });

  test('an assumed base once a lane, at the first line that rests on it', () => {
    const lanes = [
      lane(1),
      lane(4, { base: 120_000, baseFrom: 'assumed' }),
      lane(5, { base: 120_000, baseFrom: 'assumed' }),
    ];
    const plan = planOf(
      [
        set(1, 1, 100, { lanes: 3, timing: on(200, 0, 3) }),
        set(2, 1, 100, { lanes: 3, timing: restOf(20, 3), hold: holdTime(90, 3) }),
        set(3, [1, 1, 0], 100, { lanes: 3 }),
        set(4, 1, 100, { lanes: 3, timing: base(0, 3) }),
      ],
      { lanes },
    );
    expect(places(plan, 'assumed-base')).toEqual(['3 lane 4', '4 lane 5']);
    expect(messages(plan, 'assumed-base')[0]).toBe(
      'Lane 4 has neither base nor css: its times rest on an assumed base of 2:00.',
    );
  });

  test('nothing is said of a lane without a pace where nothing rests on one', () => {
    expect(warningsOf(planOfText('2 x 50 @ 2:00\n5:00 easy'))).toEqual([]);
  });

  test('by line, then lane with those for all lanes first, then in the order of the codes', () => {
    const lanes = [lane(0, { swimmers: 20 }), lane(3, { swimmers: 20 })];
    const plan = planOf([set(2, 2, 75.5, { lanes: 2, timing: on(60, 0, 2) }), set(1, 1, 90, { lanes: 2 })], { lanes });
    expect(warningsOf(plan).map(({ code, line, lane }) => `${line} ${lane ?? 'all'} ${code}`)).toEqual([
      '1 all part-lengths',
      '1 0 lane-full',
      '1 3 lane-full',
      '2 all part-lengths',
      '2 0 cannot-make',
      '2 0 lane-full',
      '2 0 tail-late',
      '2 3 cannot-make',
      '2 3 lane-full',
      '2 3 tail-late',
    ]);
  });
});
