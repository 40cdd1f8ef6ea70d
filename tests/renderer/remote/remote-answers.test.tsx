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

test('a command is called sent at once, until the host has answered', async () => {
  const coach = remote();
  coach.refusal = 'The lane is out.';
  press('Skip rep');
  expect(feedback()).toBe('Skip rep all lanes: sent');
  await act(() => Promise.resolve());
  expect(feedback()).toBe('The lane is out.');
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
