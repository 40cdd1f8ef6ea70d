/*
 * Leaves as readings of the clock that a screen shows.
 */

import { describe, expect, test } from 'vitest';
import {
  countdownText,
  inByText,
  leaveReading,
  readingOn,
  tailReading,
} from '../../../../app/core/words/time/clock.ts';
import { Deck } from '../../../support/run/deck.ts';

/** The pool's clock shows 0:07 as the run is opened. */
const opened = (text: string) => new Deck(text, 7);

describe('[clock] a leave', () => {
  const deck = () => opened('One\n2 x 50 @ 1:00').at(3, { do: 'start' });

  test('of the stretch and of the run is a reading from their zero, of the pool seconds past its top', () => {
    const now = deck().view(20);
    const shown = (['stretch', 'run', 'pool'] as const).map((clock) => leaveReading(clock, now, 73_000));
    expect(shown).toEqual(['1:00', '1:13', ':20']);
  });

  test('has no reading before there is a clock of the stretch', () => {
    const now = opened('50 @ 1:00').view(1);
    expect([leaveReading('stretch', now, 5000), leaveReading('run', now, 5000)]).toEqual([null, '0:05']);
  });

  test('of a tail before the next start is read on the clock that still runs', () => {
    const next = opened('lane 1, 20 swimmers, gap 60\nOne\n2 x 50 @ 1:00\nTwo\n50 @ 1:00')
      .at(3, { do: 'start' })
      .at(75, { do: 'move-on' })
      .at(76, { do: 'start' });
    const now = next.view(77);
    const { from, t0 } = now.clock;
    expect(t0).toBeGreaterThan(77_000);
    expect(leaveReading('stretch', now, t0! - 1000)).toBe(readingOn('stretch', t0! - 1000 - from!));
    expect(leaveReading('stretch', now, t0!)).toBe('0:00');
    expect(leaveReading('run', now, 80_000)).toBe('1:20');
    expect(leaveReading('pool', now, 80_000)).toBe(':27');
  });

  test('of a time before the first start is 0:00, for there is no other clock of a stretch yet', () => {
    const now = opened('50 @ 1:00').at(3, { do: 'start' }).view(4);
    expect(leaveReading('stretch', now, now.clock.t0! - 1000)).toBe('0:00');
  });
});

describe('[clock] the leave of a swimmer behind the lead', () => {
  /** The run was opened three tenths past a full second of the pool's clock. */
  const view = { clock: { from: 4700, startsIn: null, t0: 4700, poolPhase: 300 } };

  test('is in whole seconds, rounded up, where only the clock began between two', () => {
    const shown = (['stretch', 'run', 'pool'] as const).map((clock) => tailReading(clock, view, 69_700));
    expect(shown).toEqual(['1:05', '1:10', ':10']);
  });

  test('is in tenths where the session puts it between two', () => {
    const shown = (['stretch', 'run', 'pool'] as const).map((clock) => tailReading(clock, view, 69_900));
    expect(shown).toEqual(['1:05.2', '1:09.9', ':10.2']);
  });

  test('has none before there is a clock of the stretch', () => {
    const none = { clock: { ...view.clock, from: null, t0: null } };
    expect([tailReading('stretch', none, 69_700), tailReading('run', none, 69_700)]).toEqual([null, '1:10']);
  });
});

test('[clock] the pool’s clock has no minutes, and the others go past the hour', () => {
  expect([readingOn('pool', 3_695_500), readingOn('run', 3_695_000)]).toEqual([':35.5', '1:01:35']);
});

describe('[clock] a lane with nothing more to leave', () => {
  const word = (text: string, seconds: number) => {
    const now = new Deck(text).at(0, { do: 'start' }).view(seconds);
    return inByText('stretch', now, now.lanes[0]!);
  };

  test('is in by a reading, and finished from then on, be that an estimate', () => {
    expect([word('50 @ 1:00', 12), word('50 @ 1:00', 69.9), word('50 @ 1:00', 70)]).toEqual([
      'in by 1:00',
      'in by 1:00',
      'finished',
    ]);
    const rest = 'lane 1 base 1:30\nlane 2 base 1:30\n2/6 x 50 rest 10';
    expect(word(rest, 100)).toMatch(/^in by ≈1:\d\d$/);
    expect(word(rest, 200)).toBe('finished');
  });

  test('waits where the session has more for it to swim, and is finished where only other lanes go on', () => {
    const more = 'lane 1\nlane 2\n\nWarm-up\n1/2 x 50 @ 1:00\ntalk 1:00\n\nMain set\n';
    expect([69.9, 70].map((seconds) => word(`${more}4 x 50 @ 1:00`, seconds))).toEqual(['in by 1:00', 'waits']);
    expect(word(`${more}0/4 x 50 @ 1:00`, 70)).toBe('finished');
  });

  test('of an untimed set is in by its estimate until the coach’s word', () => {
    expect([word('200 easy', 12), word('200 easy', 900)].map((text) => text.startsWith('in by ≈'))).toEqual([
      true,
      true,
    ]);
  });

  test('that has not left at all is finished, or in by its end, which is no estimate', () => {
    const opened = new Deck('50 @ 1:00').view(0);
    const view = { ...opened, clock: { from: 0, startsIn: null, t0: 0, poolPhase: 0 } };
    const lane = { ...opened.lanes[0]!, last: null, end: 90_000 };
    const words = [89_999, 90_000].map((t) => inByText('stretch', { ...view, t }, lane));
    expect(words).toEqual(['in by 1:30', 'finished']);
  });

  test('has a dash where the clock has no reading', () => {
    const now = new Deck('50 @ 1:00').view(0);
    expect(inByText('stretch', now, { ...now.lanes[0]!, end: 1000 })).toBe('in by –');
  });
});

describe('[clock] beside the last 10 s before a start', () => {
  const TWO = 'lane 1\nlane 2\nOne\n2 x 50 @ 1:00\nTwo\n50 @ 1:00';
  /** T0 is 0:20. */
  const begun = () => new Deck(TWO).at(6, { do: 'start' });

  test('it is said that it starts in so long, for a talk or break too', () => {
    expect(countdownText(begun().view(12))).toBe('starts in');
    const tea = new Deck('between auto 0:30\nOne\n50 @ 1:00\nTwo\nbreak 1:00\n50 @ 1:00').at(0, { do: 'start' });
    const { stretch, clock } = tea.view(95);
    expect([stretch.kind, clock.startsIn]).toEqual(['break', 5000]);
    expect(countdownText(tea.view(95))).toBe('starts in');
  });

  test('nothing, where nothing counts down', () => {
    expect([new Deck(TWO).view(1), begun().view(9), begun().view(21)].map(countdownText)).toEqual(['', '', '']);
  });

  test('it is the clock that starts, where every lane that will leave leaves later', () => {
    const shifted = (...lanes: number[]) =>
      begun().at(7, { do: 'shift', ...(lanes.length > 0 && { lanes }), seconds: 10 });
    expect(countdownText(shifted().view(12))).toBe('clock starts in');
    expect(countdownText(shifted(1).view(12))).toBe('starts in');
    expect(
      countdownText(
        shifted(2)
          .at(8, { do: 'stop', lanes: [1] })
          .view(12),
      ),
    ).toBe('clock starts in');
    expect(
      countdownText(
        shifted(1)
          .at(8, { do: 'lane-out', lanes: [2] })
          .view(12),
      ),
    ).toBe('clock starts in');
  });
});
