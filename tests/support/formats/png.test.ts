/*
 * A picture is read as it was written, whichever way its rows were.
 */

import { crc32, deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { coloursOf } from './png.ts';

/** rows: each with its filter first, then its bytes. */
function png(width: number, rows: readonly (readonly number[])[], colourType: 2 | 6): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(rows.length, 4);
  head.set([8, colourType], 8);
  const chunk = (name: string, body: Buffer): Buffer => {
    const named = Buffer.concat([Buffer.from(name, 'latin1'), body]);
    const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(body.length);
    sum.writeUInt32BE(crc32(named));
    return Buffer.concat([length, named, sum]);
  };
  const data = deflateSync(Buffer.from(rows.flat()));
  return Buffer.concat([Buffer.alloc(8), chunk('IHDR', head), chunk('IDAT', data), chunk('IEND', Buffer.alloc(0))]);
}

const BLACK = [0, 0, 0];
const POINT = [10, 20, 30];

describe('[support] a picture', () => {
  test('of one colour has one, with or without alpha', () => {
    expect(coloursOf(png(4, [[0, ...BLACK, ...BLACK, ...BLACK, ...BLACK]], 2))).toBe(1);
    expect(coloursOf(png(2, [[0, ...POINT, 255, ...POINT, 9]], 6))).toBe(1);
  });

  // Two rows more stand between, because the next that is looked at is the fifth.
  test.each([
    ['as it is', [0, ...POINT, ...POINT, ...POINT, ...POINT]],
    ['from the left', [1, ...POINT, 0, 0, 0, 0, 0, 0, 0, 0, 0]],
    ['from above', [2, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]],
    ['from both', [3, 5, 10, 15, 0, 0, 0, 0, 0, 0, 0, 0, 0]],
    ['from the nearest', [4, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]],
  ])('whose row is written %s has the colour of the row above', (_, row) => {
    const plain = [0, ...POINT, ...POINT, ...POINT, ...POINT];
    expect(coloursOf(png(4, [plain, plain, plain, plain, row], 2))).toBe(1);
    const other = [...row.slice(0, 7), (row[7]! + 1) % 256, ...row.slice(8)];
    expect(coloursOf(png(4, [plain, plain, plain, plain, other], 2))).toBeGreaterThan(1);
  });

  test('with letters has many', () => {
    const row = [0, ...Array.from({ length: 60 }, (_, at) => at * 4)];
    expect(coloursOf(png(20, [row], 2))).toBe(10);
  });

  test('of a kind that is not read is refused', () => {
    expect(() => coloursOf(png(1, [[0, 0]], 3 as never))).toThrow('not read');
  });
});
