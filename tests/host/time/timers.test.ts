/* Node's own timers behind the port. */

import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { systemTimers } from '../../../app/host/time/timers.ts';

beforeEach(() => {
  vi.useFakeTimers();
});

afterEach(() => {
  vi.useRealTimers();
});

test('[timers] call back once after their time, and not where they were cleared', () => {
  const called: string[] = [];
  systemTimers.set(() => called.push('set'), 100);
  systemTimers.clear(systemTimers.set(() => called.push('cleared'), 50));
  vi.advanceTimersByTime(99);
  expect(called).toEqual([]);
  vi.advanceTimersByTime(1000);
  expect(called).toEqual(['set']);
});
