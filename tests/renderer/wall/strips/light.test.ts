import { expect, test } from 'vitest';
import { seeded } from '../seeded.ts';
import { createLights, type Lights } from '../../../../renderer/wall/strips/light.ts';

const FRAME = 16;

type Look = 'leaving' | 'ready' | 'waiting';

const ALL = Array.from({ length: 20 }, (_, lane) => lane);

/** Looks of all lanes: those named leave, the others wait. */
function looks(...leaving: number[]): ReadonlyMap<number, Look> {
  return new Map(ALL.map((lane) => [lane, leaving.includes(lane) ? 'leaving' : 'waiting']));
}

/** Lights that have been dark for long. */
function darkLights(): Lights<Look> {
  const lights = createLights<Look>('leaving');
  lights.at(-5000, looks());
  return lights;
}

function light(shown: ReadonlyMap<number, Look>): number[] {
  return ALL.filter((lane) => shown.get(lane) === 'leaving');
}

test('a strip turns light on its leave, and lanes that leave together change together', () => {
  const lights = darkLights();
  expect(light(lights.at(0, looks()))).toEqual([]);
  expect(light(lights.at(16, looks(1, 4)))).toEqual([1, 4]);
  expect(light(lights.at(2016, looks()))).toEqual([]);
});

test('going dark waits where a second has had two changes, so that a leave still has one', () => {
  const lights = darkLights();
  lights.at(0, looks(1));
  lights.at(100, looks(1, 2));
  expect(light(lights.at(200, looks(2)))).toEqual([1, 2]);
  expect(light(lights.at(300, looks(2, 3)))).toEqual([2, 3]);
});

test('a fourth leave within a second waits for its turn', () => {
  const lights = darkLights();
  lights.at(0, looks(1));
  lights.at(200, looks(1, 2));
  lights.at(400, looks(1, 2, 3));
  expect(light(lights.at(600, looks(1, 2, 3, 4)))).toEqual([1, 2, 3]);
  expect(light(lights.at(1000, looks(1, 2, 3, 4)))).toEqual([1, 2, 3, 4]);
});

test('never more than three changes of lightness in any second, whatever leaves or gets ready when', () => {
  for (const seed of [1, 2, 3, 4, 5]) {
    const random = seeded(seed);
    const leaves = Array.from({ length: 20 }, (_, lane) => ({
      lane,
      first: random() * 3000,
      every: 300 + random() * 5000,
    }));
    const lights = darkLights();
    const changes: number[] = [];
    let before = '';
    for (let t = 0; t < 60_000; t += FRAME) {
      const due = leaves.filter(({ first, every }) => t >= first && (t - first) % every < 2000).map(({ lane }) => lane);
      const ready = leaves
        .filter(({ first, every }) => t < first || (t - first) % every > every - 900)
        .map(({ lane }) => lane);
      const wanted = new Map(looks(...due));
      for (const lane of ready) if (!due.includes(lane)) wanted.set(lane, 'ready');
      const now = Array.from(lights.at(t, wanted).values()).join(' ');
      if (now !== before) changes.push(t);
      before = now;
    }
    expect(changes.length).toBeGreaterThan(20);
    changes.forEach((at, index) => expect(changes[index + 3] ?? Infinity).toBeGreaterThanOrEqual(at + 1000));
  }
});

test('a clock that is set back holds nothing up for more than a second', () => {
  const lights = darkLights();
  lights.at(90_000, looks(1));
  lights.at(90_100, looks(1, 2));
  lights.at(90_200, looks(1, 2, 3));
  expect(light(lights.at(1000, looks(5)))).toEqual([5]);
});
