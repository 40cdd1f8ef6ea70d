import { expect, test } from 'vitest';
import { seeded } from './seeded.ts';
import { createLights } from '../../../renderer/wall/light.ts';

const FRAME = 16;

function set(...lanes: number[]): ReadonlySet<number> {
  return new Set(lanes);
}

test('a strip turns light on its leave, and lanes that leave together change together', () => {
  const lights = createLights();
  expect([...lights.at(0, set())]).toEqual([]);
  expect([...lights.at(16, set(1, 4))]).toEqual([1, 4]);
  expect([...lights.at(2016, set())]).toEqual([]);
});

test('going dark waits where a second has had two changes, so that a leave still has one', () => {
  const lights = createLights();
  lights.at(0, set(1));
  lights.at(100, set(1, 2));
  expect([...lights.at(200, set(2))]).toEqual([1, 2]);
  expect([...lights.at(300, set(2, 3))]).toEqual([2, 3]);
});

test('a fourth leave within a second waits for its turn', () => {
  const lights = createLights();
  lights.at(0, set(1));
  lights.at(200, set(1, 2));
  lights.at(400, set(1, 2, 3));
  expect([...lights.at(600, set(1, 2, 3, 4))]).toEqual([1, 2, 3]);
  expect([...lights.at(1000, set(1, 2, 3, 4))]).toEqual([1, 2, 3, 4]);
});

test('never more than three changes of lightness in any second, whatever leaves when', () => {
  for (const seed of [1, 2, 3, 4, 5]) {
    const random = seeded(seed);
    const leaves = Array.from({ length: 20 }, (_, lane) => ({
      lane,
      first: random() * 3000,
      every: 300 + random() * 5000,
    }));
    const lights = createLights();
    const changes: number[] = [];
    let before = '';
    for (let t = 0; t < 60_000; t += FRAME) {
      const due = leaves.filter(({ first, every }) => t >= first && (t - first) % every < 2000).map(({ lane }) => lane);
      const now = [...lights.at(t, new Set(due))].join(' ');
      if (now !== before) changes.push(t);
      before = now;
    }
    expect(changes.length).toBeGreaterThan(20);
    changes.forEach((at, index) => expect(changes[index + 3] ?? Infinity).toBeGreaterThanOrEqual(at + 1000));
  }
});

test('a clock that is set back holds nothing up for more than a second', () => {
  const lights = createLights();
  lights.at(90_000, set(1));
  lights.at(90_100, set(1, 2));
  lights.at(90_200, set(1, 2, 3));
  expect([...lights.at(1000, set(5))]).toEqual([5]);
});
