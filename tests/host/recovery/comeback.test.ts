/* Where a run is when its host comes back, and since when nobody was there, from the lines of its journal alone. */

import { describe, expect, test } from 'vitest';
import type { JournalEntry } from '../../../app/host/journal/journal-line.ts';
import { awayTimes, positionAt } from '../../../app/host/recovery/comeback.ts';
import type { ClockInstant } from '../../../app/host/time/clock.ts';
import { onPlatform } from '../../support/system/bent-system.ts';

/** Lines at these times of the run, every clock of the machine being 1000 s ahead of it. */
const AHEAD = 1_000_000;
const stamp = (at: number, boot = 'b') => ({ at, mono: AHEAD + at, uptime: AHEAD + at, wall: AHEAD + at, boot });
const opened = (at = 0): JournalEntry => ({
  say: 'opened',
  journal: 2,
  run: 'r',
  text: '',
  lanesText: null,
  clockPhase: 0,
  openedAtTimeOfDay: 0,
  ...stamp(at),
});
const alive = (at: number): JournalEntry => ({ say: 'alive', leaves: [], ...stamp(at) });
const back = (at: number): JournalEntry => ({ say: 'back', by: 'monotonic', ...stamp(at) });

/** The machine's clocks now; `monotonic` and `uptime` are those of the run's time unless they are named. */
const now = (wall: number, monotonic = wall, uptime = monotonic): ClockInstant => ({
  hostTime: 0,
  monotonic: AHEAD + monotonic,
  uptime: AHEAD + uptime,
  wallMs: AHEAD + wall,
});

describe('[recovery] the time of the run', () => {
  test('is counted by the monotonic clock from the last exact line, on the same start of the machine', () => {
    const lines = [opened(0.25), alive(5000), alive(9000.5)];
    expect(positionAt(lines, now(99_000, 10_000), 'b')).toEqual({
      at: 10_000,
      seenAt: 9001,
      by: 'monotonic',
      isKnown: true,
    });
  });

  test('is counted from the last comeback, however many there were', () => {
    const slow = { ...back(20_000), mono: AHEAD + 20_500, uptime: AHEAD + 20_500, wall: AHEAD + 20_500 };
    const lines = [opened(), alive(5000), back(10_000), slow, alive(21_000)];
    expect(positionAt(lines, now(31_000), 'b').at).toBe(30_500);
  });

  test('is never before the last line', () => {
    const late = { ...alive(5000), mono: AHEAD + 100 };
    expect(positionAt([opened(), late], now(200), 'b')).toMatchObject({ at: 5000, by: 'monotonic' });
  });

  test('does not move if the clock has not moved', () => {
    expect(positionAt([opened(), alive(5000)], now(5000), 'b')).toEqual({
      at: 5000,
      seenAt: 5000,
      by: 'monotonic',
      isKnown: true,
    });
  });

  test('includes the time that the machine slept, known by its uptime', () => {
    expect(positionAt([opened(), alive(5000)], now(65_000, 6000, 65_000), 'b').at).toBe(65_000);
  });

  test('ignores the uptime where the monotonic clock does not stop in sleep', () => {
    onPlatform('darwin');
    expect(positionAt([opened(), alive(5000)], now(65_000, 65_000, 99_000), 'b').at).toBe(65_000);
  });

  test.each([
    ['on another start of the machine', now(15_000, 15_000), 'another'],
    ['where the monotonic clock is behind the last line', now(15_000, 4999), 'b'],
  ])('comes from the wall clock %s', (_, moment, boot) => {
    expect(positionAt([opened(), alive(5000.5)], moment, boot)).toEqual({
      at: 15_000,
      seenAt: 5001,
      by: 'wall',
      isKnown: true,
    });
  });

  test('is that of the last line if the wall clock is earlier, and the time away is then unknown', () => {
    const lines = [opened(), alive(5000)];
    expect(positionAt(lines, now(4999), 'another')).toEqual({ at: 5000, seenAt: 5000, by: 'wall', isKnown: false });
    expect(positionAt(lines, now(5000), 'another')).toMatchObject({ at: 5000, isKnown: true });
  });
});

describe('[recovery] the times when the program was away', () => {
  test('are between each comeback and the line before it, in whole ms, and from the last line until now', () => {
    const lines = [opened(), alive(5000.5), back(8000.75), alive(9000), back(9000)];
    const position = positionAt(lines, now(12_000.5), 'b');
    expect(awayTimes(lines, position)).toEqual([
      { from: 5001, to: 8000 },
      { from: 9000, to: 12_000 },
    ]);
    expect(awayTimes([opened(), alive(5000)], positionAt([opened(), alive(5000)], now(5000.9), 'b'))).toEqual([]);
  });
});
