/*
 * A television of 2018 lacks a few functions that the pages' libraries use; a newer browser keeps its own.
 */

import { afterEach, describe, expect, test, vi } from 'vitest';

const OWNERS = [
  [Object, 'fromEntries'],
  [Array.prototype, 'flatMap'],
  [Promise, 'allSettled'],
] as const;

const own = OWNERS.map(([owner, name]) => Object.getOwnPropertyDescriptor(owner, name)!);

/** As the page has them that was loaded where they are not there. */
async function onTelevision() {
  OWNERS.forEach(([owner, name]) => Reflect.deleteProperty(owner, name));
  vi.resetModules();
  await import('../../../renderer/link/old-browsers.ts');
  // Not through the names: what the tests themselves use goes on being the browser's.
  const added = OWNERS.map(([owner, name]) => Object.getOwnPropertyDescriptor(owner, name)!);
  const [fromEntries, flatMap, allSettled] = added.map(({ value }) => value as (...given: unknown[]) => unknown);
  return { added, fromEntries: fromEntries!, flatMap: flatMap!, allSettled: allSettled! };
}

function putBack(): void {
  OWNERS.forEach(([owner, name], index) => Object.defineProperty(owner, name, own[index]!));
}

afterEach(putBack);

describe('[old browsers] on a television', () => {
  test('an object is made from entries', async () => {
    const { fromEntries } = await onTelevision();
    expect(fromEntries([['a', 1] as const, ['b', 2] as const].values())).toEqual({ a: 1, b: 2 });
  });

  test('lists are made flat by one level, with each item’s place', async () => {
    const { flatMap } = await onTelevision();
    const each = (item: unknown, index: number): unknown => (item === 'one' ? index : [item, [index]]);
    expect(flatMap.call(['a', 'one', 'b'], each)).toEqual(['a', [0], 1, 'b', [2]]);
  });

  test('promises are waited for to the last, each with what became of it', async () => {
    const { allSettled } = await onTelevision();
    const gone = new Error('gone');
    const promises = new Set([Promise.resolve(1), Promise.reject(gone), 3]);
    expect(await allSettled(promises)).toEqual([
      { status: 'fulfilled', value: 1 },
      { status: 'rejected', reason: gone },
      { status: 'fulfilled', value: 3 },
    ]);
  });

  test('what is added is as the browser’s own: not listed, and to be replaced by a library', async () => {
    const { added } = await onTelevision();
    for (const descriptor of added)
      expect(descriptor).toMatchObject({ enumerable: false, writable: true, configurable: true });
  });
});

test('[old browsers] what a browser has it keeps', async () => {
  vi.resetModules();
  await import('../../../renderer/link/old-browsers.ts');
  OWNERS.forEach(([owner, name], index) => expect(Object.getOwnPropertyDescriptor(owner, name)).toEqual(own[index]));
});
