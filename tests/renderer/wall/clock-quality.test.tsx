// @vitest-environment happy-dom
/* What the wall says of its own clock, and of a link that was ended. */

import { act, cleanup } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { DeckState } from '../../../renderer/link/store.ts';
import { ShownWall } from '../../support/wall/shown-wall.tsx';

vi.mock('../../../renderer/ui/digits/measure.ts', () => ({ createMeasure: () => (text: string) => text.length * 0.4 }));

let wall: ShownWall;

beforeEach(() => {
  wall = new ShownWall();
});

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

/** How large it is said that something is wrong, and what stands on the wall, in however many lines. */
function shown(clockQuality: DeckState['clockQuality']): readonly [string, string] {
  act(() => wall.deck.setState({ clockQuality }));
  wall.frame(2);
  const size = document.querySelector<HTMLElement>('.board')!.dataset['lost'] ?? '';
  return [size, document.body.textContent.replace(/\n/g, ' ')];
}

test('[sync] nothing of a good clock, a small word of a fair one', () => {
  expect(shown({ quality: 'good', bound: 5 })).toEqual(['', expect.not.stringContaining('Clock') as string]);
  expect(shown({ quality: 'fair', bound: 60 })).toEqual(['small', expect.stringContaining('Clock: fair') as string]);
});

test('[sync] without a session too, in place of what is waited for', () => {
  act(() => wall.deck.setState({ run: null }));
  expect(shown({ quality: 'good', bound: 5 })[1]).not.toContain('Clock');
  expect(shown({ quality: 'fair', bound: 60 })[1]).toMatch(/Waiting for a session[^]*Clock: fair/);
  const [, text] = shown({ quality: 'poor', bound: 140 });
  expect(text).toMatch(/Do not leave on this clockIt may be off by 0\.2 s\./);
  expect(text).not.toContain('Waiting');
});

test('[sync] of a poor one, large, that nobody is to leave on it and how far it may be off, until it is better', () => {
  const [size, text] = shown({ quality: 'poor', bound: 140 });
  expect(size).toBe('large');
  expect(text).toContain('Do not leave on this clock');
  expect(text).toContain('It may be off by 0.2 s.');
  expect(shown({ quality: 'good', bound: 5 })[1]).not.toContain('Do not leave');
});

test('[sharing] once sharing has ended the whole page says so in place of leaves, and the board is back with the run', () => {
  const { run } = wall.deck.getState();
  act(() => wall.deck.setState({ run: null, faults: ['Sharing has ended.', 'This screen shows no leaves.'] }));
  wall.frame(2);
  expect(document.body.textContent).toBe('Sharing has ended.This screen shows no leaves.');
  act(() => wall.deck.setState({ run, faults: [] }));
  expect(document.querySelector('.board')).not.toBeNull();
});
