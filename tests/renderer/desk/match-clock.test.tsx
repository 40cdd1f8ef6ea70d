// @vitest-environment happy-dom
/*
 * The match with the pool's clock, which an edit of the session takes over.
 */

import { act, cleanup, renderHook } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import { isMatched, useMatchedClock } from '../../../renderer/desk/match-clock.tsx';
import type { DeckRun } from '../../../renderer/link/store.ts';
import { CoachWindow } from '../../support/coach-window.ts';

afterEach(cleanup);

const HALF_PAST = 19.5 * 3_600_000 + 2345;

function clockOf(run: Partial<DeckRun> | null, seconds = 0) {
  const coach = new CoachWindow('Set\n4 x 50 @ 1:00');
  coach.at(seconds);
  const whole = run && { ...coach.run, openedAtTimeOfDay: HALF_PAST, ...run };
  return renderHook(() => useMatchedClock(coach.tools.link, whole)).result;
}

test('a run that was matched hands its clock on to the session that is opened in its place', () => {
  // 50 s past the full minute when it was opened, 20 s ago.
  const clock = clockOf({ clockPhase: 50_000 }, 20);
  expect(clock.current.matched).toBe(true);
  expect(clock.current.now()).toBe(10_000);
});

test('a run by the time of day hands on none, and neither does no run', () => {
  expect(isMatched({ clockPhase: 2345, openedAtTimeOfDay: HALF_PAST })).toBe(false);
  expect(clockOf({ clockPhase: 2345 }).current.now()).toBeNull();
  expect(clockOf(null).current.now()).toBeNull();
});

test('a match is forgotten by a tap, and made by one', () => {
  const clock = clockOf({ clockPhase: 50_000 });
  act(() => clock.current.forget());
  expect([clock.current.matched, clock.current.now()]).toEqual([false, null]);
  act(() => clock.current.match());
  expect(clock.current.matched).toBe(true);
  expect(clock.current.now()).toBeLessThan(1000);
});
