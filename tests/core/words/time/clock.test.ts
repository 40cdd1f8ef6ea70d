/*
 * Leaves as readings of the clock that a screen shows.
 */

import { describe, expect, test } from 'vitest';
import { inByText, leaveReading, readingOn } from '../../../../app/core/words/time/clock.ts';
import { Deck } from '../../../support/deck.ts';

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

  test('of an untimed set is in by its estimate until the coach’s word', () => {
    expect([word('200 easy', 12), word('200 easy', 900)].map((text) => text.startsWith('in by ≈'))).toEqual([
      true,
      true,
    ]);
  });
});
