// @vitest-environment happy-dom
/*
 * Matching the pool's clock: it can be done until the first start, and a session opened in place of another keeps it.
 */

import { act, cleanup, fireEvent, render, renderHook, screen } from '@testing-library/react';
import { afterEach, expect, test, vi } from 'vitest';
import { isMatched, RunMatch, useMatchedClock } from '../../../../renderer/desk/actions/match-clock.tsx';
import type { DeckRun } from '../../../../renderer/link/store.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

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

test('a run that has not started can be matched whatever it was told, until a start that is not undone', () => {
  const coach = new CoachWindow('Set\n4 x 50 @ 1:00');
  const { rerender } = render(<RunMatch tools={coach.tools} moment={coach.moment} />);
  const isOffered = (): boolean => {
    rerender(<RunMatch tools={coach.tools} moment={coach.moment} />);
    return screen.queryByRole('button', { name: "Match the pool's clock" }) !== null;
  };
  coach.other({ do: 'swimmers', n: 4 });
  coach.other({ do: 'cut', line: 2, n: 1 });
  expect(isOffered()).toBe(true);
  coach.other({ do: 'start' });
  expect(isOffered()).toBe(false);
  coach.other({ do: 'undo' });
  expect(isOffered()).toBe(true);
});

test('a tap asks the host to match the clock of this run, and says what it answers', async () => {
  const coach = new CoachWindow('Set\n4 x 50 @ 1:00');
  coach.other({ do: 'mark' });
  const replies = [
    new Response('{"ok":true,"run":"run-2"}', { status: 200 }),
    new Response('{"ok":false,"why":"The run has started: its clock can no longer be changed."}', { status: 409 }),
  ];
  const asked: [string, string | undefined][] = [];
  vi.stubGlobal('fetch', (path: string, { body }: { body?: string }) => {
    asked.push([path, body]);
    return Promise.resolve(replies.shift());
  });
  const said: string[] = [];
  const tools = { ...coach.tools, actions: { ...coach.tools.actions, say: (text: string) => said.push(text) } };
  render(<RunMatch tools={tools as typeof coach.tools} moment={coach.moment} />);
  const button = screen.getByRole('button', { name: "Match the pool's clock" });
  for (let tap = 1; tap <= 2; tap++) {
    fireEvent.click(button);
    await vi.waitFor(() => expect(said).toHaveLength(tap));
  }
  expect(asked).toEqual([
    ['/clock', '{"run":"run-1","clockPhase":0}'],
    ['/clock', '{"run":"run-1","clockPhase":0}'],
  ]);
  expect(said).toEqual(["The pool's clock is matched.", 'The run has started: its clock can no longer be changed.']);
});
