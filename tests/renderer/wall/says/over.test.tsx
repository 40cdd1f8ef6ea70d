// @vitest-environment happy-dom
/* After the end: what each lane did, for a while, and then a pace clock again. */

import { act, cleanup } from '@testing-library/react';
import { afterEach, expect, test, vi } from 'vitest';
import { ShownWall } from '../../../support/wall/shown-wall.tsx';

vi.mock('../../../../renderer/ui/digits/measure.ts', () => ({
  createMeasure: () => (text: string) => text.length * 0.4,
}));

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

function shownAt(seconds: number): string {
  const wall = new ShownWall([20_000, { do: 'finish' }]);
  wall.t = seconds * 1000;
  wall.snapshot();
  wall.frame();
  const { mode } = document.querySelector<HTMLElement>('.board')!.dataset;
  const { textContent } = document.body;
  act(cleanup);
  return `${mode}: ${textContent}`;
}

test('[done] what each lane has swum stands there for five minutes, then a pace clock, with when the session was done', () => {
  expect(shownAt(30)).toMatch(/^done: [^]*Session done[^]*Each lane has swum/);
  expect(shownAt(319)).toMatch(/^done: /);
  const over = shownAt(321);
  expect(over).toMatch(/^idle: /);
  expect(over).toContain('Session done');
  expect(over).toContain('at 19:30');
  expect(over).not.toContain('Each lane has swum');
});
