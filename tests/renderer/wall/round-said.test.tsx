// @vitest-environment happy-dom
/* The round as it is drawn: once, where one can see it. */

import { cleanup } from '@testing-library/react';
import { afterEach, expect, test, vi } from 'vitest';
import { ShownWall } from '../../support/wall/shown-wall.tsx';

vi.mock('../../../renderer/ui/measure.ts', () => ({ createMeasure: () => (text: string) => text.length * 0.01 }));

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

test('[round] a wall that shows its title says the round there, and in no strip', () => {
  new ShownWall().frame(60);
  expect(document.querySelector("[data-place='title']")!.textContent).toBe('Main set, round 1 of 3');
  const said = document.body.textContent.split('round 1 of 3');
  expect(said).toHaveLength(2);
});
