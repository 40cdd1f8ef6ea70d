// @vitest-environment happy-dom
/* What the remote answers on the glass and in the hand, and what it says where the phone may fall asleep. */

import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, test, vi } from 'vitest';
import { Remote } from '../../../renderer/remote/remote.tsx';
import { CoachWindow } from '../../support/coach/coach-window.ts';

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function remote(awake?: Parameters<typeof Remote>[0]['awake']) {
  const coach = new CoachWindow('start on 10\nlane 1\nlane 2\nSet\n4 x 50 fast @ 1:00\n');
  coach.other({ do: 'start' });
  coach.at(40);
  render(<Remote tools={coach.tools} {...(awake ? { awake } : {})} />);
  return coach;
}

const feedback = (): string | null => screen.getByRole('status').textContent;
const press = (name: string): boolean => fireEvent.click(screen.getByRole('button', { name }));

test('of a command it is said at once that it is being sent, until the host has answered', async () => {
  const coach = remote();
  coach.refusal = 'The lane is out.';
  press('Skip rep');
  expect(feedback()).toBe('Skip rep all lanes: being sent');
  await act(() => Promise.resolve());
  expect(feedback()).toBe('The lane is out.');
});

test('of a command that the host has not answered within a second that is said too', () => {
  vi.useFakeTimers();
  const coach = remote();
  coach.answers = false;
  press('Stop');
  act(() => void vi.advanceTimersByTime(999));
  expect(feedback()).toBe('Stop all lanes: being sent');
  act(() => void vi.advanceTimersByTime(1));
  expect(feedback()).toBe('Stop all lanes: being sent, no answer yet');
  expect(screen.getByRole('status').getAttribute('data-kind')).toBe('refused');
  vi.useRealTimers();
});

const LOST = 'The link is lost: this phone stops nobody now. Use the coach’s window, or call out.';

test('while the link is lost that is said at once, and for as long as it lasts', () => {
  const coach = remote();
  coach.linked(false);
  expect(feedback()).toBe(LOST);
  coach.at(100);
  expect(feedback()).toBe(LOST);
  coach.linked(true);
  expect(feedback()).toBe('');
});

test('Stop may be tapped while the link is lost: it is never called sent, it is not felt, and the loss stays said', () => {
  const felt: number[] = [];
  vi.stubGlobal('navigator', { vibrate: (ms: number) => felt.push(ms) });
  const coach = remote();
  coach.linked(false);
  coach.answers = false;
  fireEvent.pointerDown(screen.getByRole('button', { name: 'Stop' }));
  press('Stop');
  expect(coach.given.map(({ command }) => command.do)).toEqual(['stop']);
  expect(feedback()).toMatch(/^The link is lost\. Stop all lanes has not reached the program: call out/);
  expect(felt).toEqual([]);
});

test('what was said of a command while the link was lost is over once it is back', async () => {
  const coach = remote();
  coach.linked(false);
  coach.refusal = 'Stop all lanes was not answered.';
  press('Stop');
  await act(() => Promise.resolve());
  expect(feedback()).toBe('The link is lost. Stop all lanes was not answered.');
  coach.linked(true);
  expect(feedback()).toBe('');
});

test('a tap on a button is felt as the finger comes down; one on what is not offered is not', () => {
  const felt: number[] = [];
  vi.stubGlobal('navigator', { vibrate: (ms: number) => felt.push(ms) });
  remote();
  fireEvent.pointerDown(screen.getByRole('button', { name: 'Stop' }));
  expect(felt).toEqual([20]);
  fireEvent.pointerDown(screen.getByRole('timer', { name: 'Clock' }));
  const undo = screen.getByRole('button', { name: 'Undo' });
  expect(undo.getAttribute('aria-disabled')).toBe('true');
  fireEvent.pointerDown(undo);
  expect(felt).toEqual([20]);
});

test('a phone without a buzz works all the same', () => {
  vi.stubGlobal('navigator', {});
  const coach = remote();
  fireEvent.pointerDown(screen.getByRole('button', { name: 'Stop' }));
  press('Stop');
  expect(coach.given.map(({ command }) => command.do)).toEqual(['stop']);
});

test('where the page may not keep the phone awake it says so, below every other sentence', async () => {
  const refuses = {
    lock: null,
    play: () => Promise.reject(new Error('no')),
    isSeen: () => true,
    onSeen: () => undefined,
  };
  const coach = remote(refuses);
  await act(() => Promise.resolve());
  expect(feedback()).toBe('This phone may fall asleep: switch its sleep off in its own settings.');
  coach.refusal = 'The lane is out.';
  press('Skip rep');
  await act(() => Promise.resolve());
  expect(feedback()).toBe('The lane is out.');
});

test('where it may, it asks, and says nothing', async () => {
  const asked: string[] = [];
  const held = { addEventListener: () => undefined };
  remote({
    lock: { request: (type) => (asked.push(type), Promise.resolve(held)) },
    play: () => Promise.resolve(),
    isSeen: () => true,
    onSeen: () => undefined,
  });
  await act(() => Promise.resolve());
  expect([asked, feedback()]).toEqual([['screen'], '']);
});

test('before the start a lane says that it waits, in a word that fits the smallest phone', () => {
  const coach = new CoachWindow('lane 1\nlane 2\nSet\n4 x 50 fast @ 1:00\n');
  render(<Remote tools={coach.tools} />);
  expect(screen.getByRole('button', { name: 'Lane 2' }).textContent).toBe('2waits');
});
