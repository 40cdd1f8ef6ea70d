// @vitest-environment happy-dom
/* A wall screen that has not been let in. */

import { act, cleanup, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createJoining } from '../../../../renderer/link/joining/joining.ts';
import { DigitsFirst } from '../../../../renderer/wall/joining/digits-screen.tsx';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

function wall() {
  const joining = createJoining();
  const time = { now: 1000 };
  const { container } = render(
    <DigitsFirst joining={joining} now={() => time.now}>
      <p>the wall</p>
    </DigitsFirst>,
  );
  const shows = (digits: string, until: number, why: string | null = null): void =>
    act(() => joining.setState({ step: 'shows', digits, until, why }, true));
  const pass = (ms: number): void =>
    act(() => {
      time.now += ms;
      vi.advanceTimersByTime(ms);
    });
  const bar = (): string | undefined => container.querySelector<HTMLElement>('.digits-time div')?.style.transform;
  return { joining, shows, pass, bar };
}

test('[joining] a wall that is in shows itself', () => {
  wall();
  expect(screen.getByText('the wall')).toBeTruthy();
});

test('[joining] one that is not shows its digits, where they are typed, and for how long they are valid', () => {
  const { shows, pass, bar, joining } = wall();
  shows('4071', 121_000);
  expect(screen.queryByText('the wall')).toBeNull();
  expect(screen.getByRole('img', { name: 'Digits 4 0 7 1' }).textContent).toBe('4071');
  expect(screen.getByRole('heading').textContent).toBe('Type these digits in the coach’s window, under Screens');
  expect([screen.getByText('New digits in 120 s'), bar()]).toEqual([expect.anything(), 'scaleX(1)']);
  pass(30_000);
  expect([screen.getByText('New digits in 90 s'), bar()]).toEqual([expect.anything(), 'scaleX(0.75)']);
  pass(95_000);
  expect([screen.getByText('New digits in 0 s'), bar()]).toEqual([expect.anything(), 'scaleX(0)']);
  shows('0918', 246_000);
  expect([screen.getByText('New digits in 120 s'), bar()]).toEqual([expect.anything(), 'scaleX(1)']);
  act(() => joining.setState({ step: 'in' }, true));
  expect(screen.getByText('the wall')).toBeTruthy();
});

test('[joining] one that others are before says so, and when it asks again', () => {
  const { joining, pass } = wall();
  act(() => joining.setState({ step: 'waits', why: 'Too many screens wait to be let in.', until: 71_000 }, true));
  expect(screen.getByRole('status').textContent).toBe('Too many screens wait to be let in.');
  expect(screen.getByText('This screen asks again in 70 s')).toBeTruthy();
  pass(30_000);
  expect(screen.getByText('This screen asks again in 40 s')).toBeTruthy();
});

test('[joining] the bar moves once a second: nothing on the screen changes more often', () => {
  const { shows, pass, bar } = wall();
  shows('4071', 121_000);
  pass(900);
  expect(bar()).toBe('scaleX(1)');
  pass(100);
  expect(bar()).not.toBe('scaleX(1)');
});

test('[joining] one that was thrown out says so', () => {
  wall().shows('4071', 121_000, 'This screen was thrown out.');
  expect(screen.getByRole('status').textContent).toBe('This screen was thrown out.');
});
