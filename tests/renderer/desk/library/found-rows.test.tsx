// @vitest-environment happy-dom
/*
 * What is drawn of the sessions found, and when: a key, in the field or in the text, never waits for rows that stay as they are.
 */

import { act, cleanup, render, screen } from '@testing-library/react';
import { Profiler } from 'react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createStore, type StoreApi } from 'zustand/vanilla';
import { nextFound, type Found } from '../../../../renderer/desk/library/found.ts';
import { FoundRows } from '../../../../renderer/desk/library/rows/found-rows.tsx';
import type { Looked, Sessions } from '../../../../renderer/desk/library/use-sessions.ts';
import type { LibraryEntry } from '../../../../renderer/link/requests/library.ts';

let looked: StoreApi<Looked>;
/** The names of the rows that were drawn, one for each time. */
let drawn: string[];
/** How many rows there were after each time that something was drawn. */
let counts: number[];
/** What waits for the page to be painted. */
let frames: (() => void)[];

beforeEach(() => {
  frames = [];
  vi.stubGlobal('requestAnimationFrame', (frame: () => void) => frames.push(frame));
  looked = createStore<Looked>(() => ({ words: '', found: null, binned: null }));
  drawn = [];
  counts = [];
});

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function paint(): void {
  act(() => frames.splice(0).forEach((frame) => frame()));
}

function entry(name: string, usedAt = 0): LibraryEntry {
  const facts = { name, title: null, usedAt, figures: null, note: 'no set yet' };
  // The day is asked for where a row is drawn, and nowhere else.
  return Object.defineProperty({ ...facts, day: null }, 'day', {
    enumerable: false,
    get: () => (drawn.push(name), null),
  });
}

function entries(from: number, to: number): readonly LibraryEntry[] {
  return Array.from({ length: to - from }, (_, index) => entry(`Session ${from + index}`));
}

function foundNow(words: string, sessions: readonly LibraryEntry[]): void {
  act(() => looked.setState(({ found }) => ({ words, found: nextFound(found, answer(words, sessions)) })));
}

function answer(words: string, sessions: readonly LibraryEntry[]): Found {
  return { words, sessions, pieces: [], more: 0 };
}

function show(current: string | null = null): void {
  const sessions = { looked } as unknown as Sessions;
  render(
    <Profiler id="rows" onRender={() => counts.push(screen.queryAllByRole('listitem').length)}>
      <FoundRows {...{ sessions, current }} expanded={null} onExpand={() => undefined} />
    </Profiler>,
  );
}

function forget(): void {
  drawn = [];
  counts = [];
}

test('a letter in the field, and a look that finds the same, draw nothing', () => {
  show();
  foundNow('', entries(0, 60));
  paint();
  expect(screen.getAllByRole('listitem')).toHaveLength(60);
  expect(drawn).toHaveLength(60);
  forget();
  act(() => looked.setState({ words: 's' }));
  foundNow('', entries(0, 60));
  expect(counts).toEqual([]);
});

test('rows that stay are not drawn again where one has changed, one is new or others are gone', () => {
  show();
  foundNow('', entries(0, 60));
  paint();
  forget();
  foundNow('', [entry('Session 7', 5), ...entries(0, 7), ...entries(8, 60)]);
  expect(drawn).toEqual(['Session 7']);
  forget();
  foundNow('', [entry('Session 100'), ...entries(0, 7), entry('Session 7', 5), ...entries(8, 60)]);
  expect(drawn).toEqual(['Session 100']);
  forget();
  foundNow('thu', entries(3, 6));
  expect(drawn).toEqual([]);
  expect(screen.getAllByRole('listitem')).toHaveLength(3);
});

test('other words bring the first rows at once, and the others once those have been painted', () => {
  show();
  foundNow('', entries(0, 60));
  expect(counts).toEqual([0, 12]);
  paint();
  expect(counts).toEqual([0, 12, 24, 36, 48, 60]);
  forget();
  foundNow('thu', entries(100, 150));
  expect(counts).toEqual([12]);
  paint();
  expect(counts).toEqual([12, 24, 36, 48, 50]);
});

test('the same words take no row away while others come: what is looked at does not jump', () => {
  show();
  foundNow('', entries(0, 60));
  paint();
  const rows = screen.getAllByRole('listitem');
  forget();
  foundNow('', [entry('Session 100'), ...entries(0, 60)]);
  expect(counts).toEqual([61]);
  expect(screen.getAllByRole('listitem').slice(1)).toEqual(rows);
});

test('rows stay where they are while the same words are looked for; new ones come first', () => {
  const [a, b, c] = ['A', 'B', 'C'].map((name) => entry(name));
  const names = (found: Found): readonly string[] => found.sessions.map(({ name }) => name);
  const before = answer('', [a!, b!]);
  expect(names(nextFound(before, answer('', [b!, c!, a!])))).toEqual(['C', 'A', 'B']);
  expect(names(nextFound(before, answer('x', [b!, c!, a!])))).toEqual(['B', 'C', 'A']);
});
