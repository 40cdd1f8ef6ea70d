// @vitest-environment happy-dom
/* How little is done in a frame of the wall: what it says is worked out, and the document touched, only where something changes. */

import { act, cleanup } from '@testing-library/react';
import { afterEach, expect, test, vi } from 'vitest';
import { ShownWall } from '../../support/wall/shown-wall.tsx';

const worked = vi.hoisted(() => ({ faces: 0 }));

vi.mock('../../../renderer/ui/digits/measure.ts', () => ({ createMeasure: () => (text: string) => text.length * 0.4 }));

vi.mock('../../../renderer/wall/says/face.ts', async (original) => {
  const module = await original<typeof import('../../../renderer/wall/says/face.ts')>();
  return {
    ...module,
    modeOf(...args: Parameters<typeof module.modeOf>) {
      worked.faces++;
      return module.modeOf(...args);
    },
  };
});

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
  vi.useRealTimers();
});

function clockText(): string | null {
  return document.querySelector("[role='timer']")!.textContent;
}

test('[motion] of sixty frames in a second a few work the face out; what the host says is drawn on the next frame', () => {
  const wall = new ShownWall();
  wall.frame(60);
  worked.faces = 0;
  wall.frame(60);
  expect(worked.faces).toBeGreaterThanOrEqual(1);
  expect(worked.faces).toBeLessThanOrEqual(6);
  worked.faces = 0;
  wall.snapshot();
  wall.frame();
  expect(worked.faces).toBeGreaterThanOrEqual(1);
});

test('[motion] the document is touched by what changes alone: digits once a second, water not at all', async () => {
  const wall = new ShownWall();
  wall.frame(60);
  const touched = new Map<string, number>();
  const watch = new MutationObserver((changes) => {
    for (const { target } of changes) {
      const place = (target instanceof HTMLElement && target.dataset['place']) || 'digits';
      touched.set(place, (touched.get(place) ?? 0) + 1);
    }
  });
  watch.observe(document.body, { subtree: true, attributes: true, childList: true, characterData: true });
  const lanes = document.querySelectorAll('[data-lane]').length;
  wall.frame(60);
  await Promise.resolve();
  watch.disconnect();
  for (const [place, times] of touched) {
    expect(times, place).toBeLessThanOrEqual(place === 'water' ? 0 : 4 * lanes);
  }
  expect(touched.get('digits')).toBeGreaterThan(0);
});

test('[motion] what is due between two frames is written then and not before; where no timer comes the next frame writes it', () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  const wall = new ShownWall();
  // A sixtieth of a second before the next one.
  wall.frame(59);
  const before = clockText();
  wall.t = 40_999;
  act(() => void vi.advanceTimersByTime(16));
  expect(clockText()).toBe(before);
  wall.t = 41_000;
  act(() => void vi.advanceTimersByTime(1));
  const written = clockText();
  expect(written).not.toBe(before);
  wall.t = 41_980;
  wall.frame();
  expect(clockText()).toBe(written);
  wall.frame();
  expect(clockText()).not.toBe(written);
});
