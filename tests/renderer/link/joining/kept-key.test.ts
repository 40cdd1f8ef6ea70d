import { describe, expect, test } from 'vitest';
import { readKeyGiven, readWallKey } from '../../../../app/wire/sharing/joining.ts';
import { keptKey } from '../../../../renderer/link/joining/kept-key.ts';

const KEY = { id: 'a'.repeat(16), key: 'b'.repeat(64), role: 'remote', name: 'Phone 1' } as const;

/** A shelf that keeps what is put on it. */
function shelf(items: Record<string, string> = {}) {
  return {
    items,
    getItem: (name: string) => items[name] ?? null,
    setItem: (name: string, value: string) => void (items[name] = value),
    removeItem: (name: string) => void delete items[name],
  };
}

const forbidden = (): never => {
  throw new Error('SecurityError');
};

describe('[joining] a kept key', () => {
  test('is there again for the next page, until it is dropped', () => {
    const own = shelf();
    keptKey('key', readKeyGiven, () => own).keep(KEY);
    const next = keptKey('key', readKeyGiven, () => own);
    expect(next.now()).toEqual(KEY);
    next.drop();
    expect([next.now(), own.items]).toEqual([null, {}]);
    expect(keptKey('key', readKeyGiven, () => own).now()).toBeNull();
  });

  test.each([['no JSON'], ['null'], [JSON.stringify({ ...KEY, key: 'b' })], [JSON.stringify({ ...KEY, more: 1 })]])(
    'what is no key is none: %s',
    (kept) => {
      expect(keptKey('key', readKeyGiven, () => shelf({ key: kept })).now()).toBeNull();
    },
  );

  test('where the browser forbids storage, the page has it for as long as it is open', () => {
    const kept = keptKey('key', readKeyGiven, forbidden);
    expect(kept.now()).toBeNull();
    kept.keep(KEY);
    expect(kept.now()).toEqual(KEY);
    kept.drop();
    expect(kept.now()).toBeNull();
  });

  test('where storage is full too', () => {
    const kept = keptKey('key', readKeyGiven, () => ({ ...shelf(), setItem: forbidden, removeItem: forbidden }));
    kept.keep(KEY);
    expect(kept.now()).toEqual(KEY);
    kept.drop();
    expect(kept.now()).toBeNull();
  });

  test('of a wall is 256 bits in hexadecimal digits', () => {
    expect(readWallKey(KEY.key)).toBe(KEY.key);
    for (const kept of ['b', KEY.key.toUpperCase(), 7, null]) expect(readWallKey(kept)).toBeNull();
  });
});
