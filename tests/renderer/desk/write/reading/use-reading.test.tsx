// @vitest-environment happy-dom
/*
 * When the cuts of a text are looked for: they take long, and whoever goes on typing needs the machine.
 */

import { act, cleanup, renderHook } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { useReading } from '../../../../../renderer/desk/write/reading/use-reading.ts';
import type { Asked } from '../../../../../renderer/desk/write/reading/reading.ts';

const OUTCOME = { kind: 'fits', hour: { finish: 90 } };

let asked: string[];
/** Each that was opened, and the place of the one that was last asked for cuts. */
let workers: SlowWorker[];
let fits: number;
let answersIn: { readonly read: number; readonly fit: number };

class SlowWorker {
  onmessage: ((event: { data: unknown }) => void) | null = null;
  isEnded = false;

  constructor() {
    workers.push(this);
  }

  postMessage(question: Asked): void {
    if (question.do === 'explain') return;
    asked.push(`${question.do} ${question.source.text}`);
    if (question.do === 'fit') fits = workers.indexOf(this);
    const answer = question.do === 'read' ? OUTCOME : null;
    setTimeout(() => this.isEnded || this.onmessage?.({ data: answer }), answersIn[question.do]);
  }

  terminate(): void {
    this.isEnded = true;
  }
}

beforeEach(() => {
  asked = [];
  workers = [];
  vi.useFakeTimers();
  vi.stubGlobal('Worker', SlowWorker);
});

afterEach(() => {
  cleanup();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const pass = (ms: number): void => act(() => void vi.advanceTimersByTime(ms));

test('three times as long after the reading as that took, and at least as long as the last cuts took or were tried, up to 2 s', () => {
  answersIn = { read: 10, fit: 700 };
  const { rerender, unmount } = renderHook(({ text }) => useReading(text, null), { initialProps: { text: 'one' } });
  pass(39);
  expect(asked).toEqual(['read one']);
  pass(1);
  expect(asked).toEqual(['read one', 'fit one']);
  const first = workers[fits]!;
  pass(500);
  rerender({ text: 'two' });
  expect(first.isEnded).toBe(true);
  pass(509);
  expect(asked.slice(2)).toEqual(['read two']);
  pass(1);
  expect(asked.slice(3)).toEqual(['fit two']);
  pass(700);
  const second = workers[fits]!;
  rerender({ text: 'three' });
  expect(second.isEnded).toBe(false);
  pass(709);
  expect(asked.slice(4)).toEqual(['read three']);
  answersIn = { read: 10, fit: 9000 };
  pass(1);
  expect([asked.slice(5), workers[fits] === second]).toEqual([['fit three'], true]);
  pass(9000);
  rerender({ text: 'four' });
  pass(2009);
  expect(asked.slice(6)).toEqual(['read four']);
  pass(1);
  expect(asked.slice(7)).toEqual(['fit four']);
  unmount();
  expect(second.isEnded).toBe(true);
});
