import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createPulse } from '../../../../renderer/link/connection/pulse.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function pulse() {
  const state = { patience: 6000, deaths: 0 };
  const own = createPulse({
    now: () => Date.now(),
    after: (delay, call) => {
      const timer = setTimeout(call, delay);
      return () => clearTimeout(timer);
    },
    patience: () => state.patience,
    ask: () => undefined,
    inDoubt: () => false,
    dead: () => void state.deaths++,
  });
  own.connecting();
  own.woken();
  return state;
}

test('a page that is woken while it connects gives its connection up after a second', () => {
  const state = pulse();
  vi.advanceTimersByTime(1040);
  expect(state.deaths).toBe(0);
  vi.advanceTimersByTime(10);
  expect(state.deaths).toBe(1);
});

test('[joining] but not one that came to the door meanwhile, where somebody has to type its digits', () => {
  const state = pulse();
  vi.advanceTimersByTime(300);
  state.patience = 126_000;
  vi.advanceTimersByTime(5000);
  expect(state.deaths).toBe(0);
});
