// @vitest-environment happy-dom
/* What moves on the wall, and how little of it where less motion is wanted. */

import { afterEach, expect, test, vi } from 'vitest';
import { sweepFace } from '../../../renderer/wall/faces/sweep-face.ts';
import { createWater } from '../../../renderer/wall/strips/water.ts';

afterEach(() => vi.restoreAllMocks());

function wantLessMotion(): void {
  vi.spyOn(window, 'matchMedia').mockImplementation(
    (query) => ({ matches: query === '(prefers-reduced-motion: reduce)' }) as MediaQueryList,
  );
}

/** Places of the water's edge in a second, seen sixty times. */
function waterPlaces(): number {
  const element = document.createElement('div');
  const draw = createWater(element, 'left');
  const places = new Set<string>();
  for (let frame = 0; frame < 60; frame++) {
    draw((30 - (frame + 0.5) / 60) / 60);
    places.add(element.style.transform);
  }
  return places.size;
}

/** Places of the hand in a second, seen sixty times. */
function handPlaces(): number {
  const box = document.createElement('div');
  const paint = sweepFace.place(box, { x: 0, y: 0, width: 500, height: 500 }, { top: '60' });
  const hand = box.children[1] as HTMLElement;
  const places = new Set<string>();
  for (let frame = 0; frame < 60; frame++) {
    paint({ text: ':12', hand: 12_000 + (frame + 0.5) * (1000 / 60), marks: [] });
    places.add(hand.style.transform);
  }
  return places.size;
}

test('[motion] water and hand move evenly', () => {
  expect(waterPlaces()).toBeGreaterThanOrEqual(20);
  expect(handPlaces()).toBeGreaterThan(40);
});

test('[motion] once a second where less motion is wanted', () => {
  wantLessMotion();
  expect([waterPlaces(), handPlaces()]).toEqual([1, 1]);
});

test('the water drains to the side that swimmers push off from, and is gone at the leave', () => {
  for (const [from, half] of [
    ['left', 'translateX(-50%)'],
    ['right', 'translateX(50%)'],
  ] as const) {
    const element = document.createElement('div');
    const draw = createWater(element, from);
    draw(0.5);
    expect([element.style.transform, element.hidden]).toEqual([half, false]);
    draw(0);
    expect(element.hidden).toBe(true);
  }
});
