import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createPulse } from '../../../../renderer/link/connection/pulse.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A connection that is being made. deaths: by which words it was found dead. */
function pulse() {
  const state = { patience: 6000, deaths: [] as string[], asked: 0, inDoubt: false };
  const own = createPulse({
    now: () => Date.now(),
    after: (delay, call) => {
      const timer = setTimeout(call, delay);
      return () => clearTimeout(timer);
    },
    patience: () => state.patience,
    ask: () => void state.asked++,
    inDoubt: () => state.inDoubt,
    dead: (woken) => void state.deaths.push(woken ? 'woken' : 'in its time'),
  });
  own.measure();
  own.connecting();
  return { own, state };
}

test('a page that is woken while it connects gives its connection up after a second', () => {
  const { own, state } = pulse();
  own.woken();
  vi.advanceTimersByTime(1040);
  expect(state.deaths).toEqual([]);
  vi.advanceTimersByTime(10);
  expect(state.deaths).toEqual(['woken']);
});

test('one that is not woken waits as long as its connection may take, and then looks twice', () => {
  const { state } = pulse();
  vi.advanceTimersByTime(5999);
  expect(state.deaths).toEqual([]);
  vi.advanceTimersByTime(1);
  expect(state.deaths).toEqual(['in its time']);
});

test.each([0, 300])('[joining] but not one at the door, where somebody has to type digits, %d ms later', (came) => {
  const { own, state } = pulse();
  if (came > 0) own.woken();
  vi.advanceTimersByTime(came);
  state.patience = 126_000;
  if (came === 0) own.woken();
  vi.advanceTimersByTime(5000);
  expect(state.deaths).toEqual([]);
});

test('nothing is asked of a host that is not reached yet, whatever happens; then a burst of eight, and one each two seconds', () => {
  const { own, state } = pulse();
  own.measure();
  own.woken();
  own.look();
  state.inDoubt = true;
  own.look();
  vi.advanceTimersByTime(500);
  expect([state.asked, own.isBursting()]).toEqual([0, false]);
  own.opened();
  expect(own.isBursting()).toBe(true);
  vi.advanceTimersByTime(419);
  expect([state.asked, own.isBursting()]).toEqual([7, true]);
  own.heard();
  vi.advanceTimersByTime(1);
  expect([state.asked, own.isBursting()]).toEqual([8, false]);
  own.heard();
  vi.advanceTimersByTime(1999);
  expect(state.asked).toBe(8);
  vi.advanceTimersByTime(1);
  expect(state.asked).toBe(9);
});
