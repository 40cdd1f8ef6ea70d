// @vitest-environment happy-dom
/* What moves on the wall: by itself while the run's time goes on as the page's, else put where it stands; and how little of it where less motion is wanted. */

import { afterEach, describe, expect, test, vi } from 'vitest';
import { sweepFace } from '../../../../renderer/wall/faces/sweep-face.ts';
import { leftToBrowser } from '../../../support/wall/left-to-browser.ts';
import { createPace } from '../../../../renderer/wall/board/pace.ts';
import { createWater, type Water } from '../../../../renderer/wall/strips/water.ts';

afterEach(() => vi.restoreAllMocks());

function wantLessMotion(): void {
  vi.spyOn(window, 'matchMedia').mockImplementation(
    (query) => ({ matches: query === '(prefers-reduced-motion: reduce)' }) as MediaQueryList,
  );
}

/** Gone at 60 s. */
function waterIn(element: HTMLElement, from: 'left' | 'right' = 'left', width = 1000): Water {
  const water = createWater(element, from, width);
  water.fill(60_000);
  return water;
}

/** Places of the water's edge in a second, seen sixty times. */
function waterPlaces(width = 1000): number {
  const element = document.createElement('div');
  const water = waterIn(element, 'left', width);
  let places = 0;
  let before = '';
  for (let frame = 0; frame <= 60; frame++) {
    water.stand(30_000 + ((frame + 0.5) / 60) * 1000);
    if (frame > 0 && element.style.transform !== before) places++;
    before = element.style.transform;
  }
  return places;
}

/** Places of the hand in a second, seen sixty times. */
function handPlaces(): number {
  const box = document.createElement('div');
  const face = sweepFace.place(box, { x: 0, y: 0, width: 500, height: 500 }, { top: '60' });
  const hand = box.children[1] as HTMLElement;
  const places = new Set<string>();
  for (let frame = 0; frame < 60; frame++) {
    face.hand!.stand(12_000 + (frame + 0.5) * (1000 / 60));
    places.add(hand.style.transform);
  }
  return places.size;
}

test('[motion] water and hand move evenly', () => {
  for (const width of [400, 840, 1199, 1200, 1730, 2160]) {
    const step = width / 60 / waterPlaces(width);
    expect(step, `px at a time in a strip of ${width}`).toBeLessThanOrEqual(2);
    expect(waterPlaces(width)).toBeLessThanOrEqual(width < 1200 ? 10 : 20);
  }
  expect(handPlaces()).toBeGreaterThan(40);
});

test('[motion] water moves between the moments at which digits change', () => {
  for (const width of [840, 1730]) {
    const element = document.createElement('div');
    const water = waterIn(element, 'left', width);
    const placeAt = (t: number): string => {
      water.stand(t);
      return element.style.transform;
    };
    for (let second = 1000; second < 60_000; second += 1000) expect(placeAt(second + 20)).toBe(placeAt(second - 20));
  }
});

test('[motion] once a second where less motion is wanted', () => {
  wantLessMotion();
  expect([waterPlaces(), handPlaces()]).toEqual([1, 1]);
});

test('the water drains to the side that swimmers push off from, and is gone at the leave', () => {
  for (const [from, full, half, gone] of [
    ['left', 'translateX(0px)', 'translateX(-500px)', 'translateX(-1000px)'],
    ['right', 'translateX(0px)', 'translateX(500px)', 'translateX(1000px)'],
  ] as const) {
    const element = document.createElement('div');
    const water = waterIn(element, from);
    const places = [-5000, 30_050, 60_000].map((t) => {
      water.stand(t);
      return element.style.transform;
    });
    expect(places).toEqual([full, half, gone]);
    expect(element.dataset['dry']).toBeUndefined();
    water.fill(null);
    expect(element.dataset['dry']).toBe('yes');
  }
});

describe('[motion] left to the browser', () => {
  test('water is told once where it goes and since when, and again only for another leave or time', () => {
    const told = leftToBrowser();
    const water = waterIn(document.createElement('div'));
    // At t = 20 s the page's own time is 25 s: full water began to drain when that was 5 s.
    water.run(5000);
    water.run(5000);
    expect(told).toHaveLength(1);
    expect(told[0]).toMatchObject({
      frames: [{ transform: 'translateX(0px)' }, { transform: 'translateX(-1000px)' }],
      timing: { duration: 60_000, easing: 'steps(600)', fill: 'both' },
      startTime: 5050,
    });
    water.fill(90_000);
    water.run(5000);
    water.run(5400);
    expect(told.map(({ startTime }) => startTime)).toEqual([35_450]);
  });

  test('and is put where it stands as soon as the times part', () => {
    const told = leftToBrowser();
    const element = document.createElement('div');
    const water = waterIn(element);
    water.run(0);
    water.stand(30_050);
    expect([told[0]!.isCancelled, element.style.transform]).toEqual([true, 'translateX(-500px)']);
    water.run(0);
    expect(told).toHaveLength(2);
  });

  test('the hand goes round without end, so many places a minute as frames', () => {
    const told = leftToBrowser();
    const box = document.createElement('div');
    const face = sweepFace.place(box, { x: 0, y: 0, width: 500, height: 500 }, { top: '60' });
    face.hand!.run(-12_000);
    expect(told[0]).toMatchObject({
      frames: [{ transform: 'rotate(0.0deg)' }, { transform: 'rotate(360.0deg)' }],
      timing: { duration: 60_000, easing: 'steps(3600)', iterations: Infinity },
      startTime: -12_000,
    });
  });
});

describe('[motion] the pace of the run', () => {
  const behindAt = (...frames: readonly (readonly [t: number, own: number])[]): (number | null)[] => {
    const pace = createPace();
    return frames.map(([t, own]) => pace.behind(t, own));
  };

  test('goes as the page does from the second frame on, and is said the same while it does', () => {
    expect(behindAt([1000, 5000.5], [1016, 5016.5], [1033, 5032.5], [1050, 5050])).toEqual([
      null,
      4000.5,
      4000.5,
      4000.5,
    ]);
  });

  test('parts where the time stands, goes in steps or jumps, and comes together again', () => {
    expect(behindAt([0, 0], [16, 16], [16, 33], [16, 50])).toEqual([null, 0, null, null]);
    expect(behindAt([0, 0], [16, 16], [616, 33], [632, 49])).toEqual([null, 0, null, -583]);
  });

  test('is put right where little by little more has gathered than one would not see', () => {
    const frames = Array.from({ length: 20 }, (_, n) => [n * 16, n * 18] as const);
    const said = new Set(behindAt(...frames).slice(1));
    expect([...said]).toEqual([2, 28]);
  });
});
