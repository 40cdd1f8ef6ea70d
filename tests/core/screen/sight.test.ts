/*
 * Sizes that a reader needs, against check values worked out from the published angles: ISO 9241-303 (16' least, 20'
 * preferred), NUREG-0700 (`Height = 6.283 D MA / 21600`) and the workplace rule ASR A6 (distance / 155).
 */

import { describe, expect, test } from 'vitest';
import { distanceFor, heightAt, pixelHeight, reachOf } from '../../../app/core/screen/sight.ts';

const DIAGONAL_55 = 55 * 25.4;

/** Of a 16:9 screen with that diagonal, both in mm. */
const heightOf = (diagonal: number): number => (diagonal * 9) / Math.sqrt(337);

/** Minutes of arc, and for each the height in mm and the share of a 55-inch screen's height in per cent. */
const TABLE_8D: readonly (readonly [metres: number, cells: readonly (readonly [number, number, number])[]])[] = [
  [
    10,
    [
      [5, 14.5, 2.1],
      [10, 29.1, 4.2],
      [16, 46.5, 6.8],
      [20, 58.2, 8.5],
      [22, 64.0, 9.3],
    ],
  ],
  [
    15,
    [
      [5, 21.8, 3.2],
      [10, 43.6, 6.4],
      [16, 69.8, 10.2],
      [20, 87.3, 12.7],
      [22, 96.0, 14.0],
    ],
  ],
  [
    25,
    [
      [5, 36.4, 5.3],
      [10, 72.7, 10.6],
      [16, 116.4, 17.0],
      [20, 145.4, 21.2],
      [22, 160.0, 23.4],
    ],
  ],
  [
    50,
    [
      [5, 72.7, 10.6],
      [10, 145.4, 21.2],
      [16, 232.7, 34.0],
      [20, 290.9, 42.5],
      [22, 320.0, 46.7],
    ],
  ],
];

describe('[sight, check-values 8D] digits on a 55-inch screen', () => {
  for (const [metres, cells] of TABLE_8D) {
    test(`read at ${metres} m are as high as the table says, in mm and of the height`, () => {
      for (const [arc, mm, share] of cells) {
        const height = heightAt(metres * 1000, arc);
        expect(Math.abs(height - mm), `${arc}' in mm`).toBeLessThanOrEqual(0.05);
        expect(Math.abs((height / heightOf(DIAGONAL_55)) * 100 - share), `${arc}' of the height`).toBeLessThan(0.06);
      }
    });
  }

  test('in px of 1080 lines: 115 and 229 at 25 m, 229 and 459 at 50 m, for 10 and 20 minutes', () => {
    const screen = { width: 1920, height: 1080, diagonal: 55 };
    const px = (metres: number, arc: number): number => Math.round(heightAt(metres * 1000, arc) / pixelHeight(screen));
    expect([px(25, 10), px(25, 20), px(50, 10), px(50, 20)]).toEqual([115, 229, 229, 459]);
  });

  test('the small-angle formula of NUREG-0700 gives the same: 145.44 and 116.35 mm at 25 m', () => {
    for (const [arc, mm] of [
      [20, 145.44],
      [16, 116.35],
    ] as const) {
      expect(heightAt(25_000, arc)).toBeCloseTo((6.283 * 25_000 * arc) / 21_600, 0);
      expect(heightAt(25_000, arc)).toBeCloseTo(mm, 1);
    }
  });

  const ROWS: readonly (readonly [inches: number, rows: readonly number[]])[] = [
    [55, [6, 6, 4, 3, 3, 1]],
    [65, [8, 8, 5, 4, 4, 2]],
    [75, [9, 9, 5, 4, 4, 2]],
    [85, [10, 10, 6, 5, 5, 2]],
    [98, [12, 12, 7, 6, 6, 3]],
  ];

  test('as many rows fit as the table says, a row being 1.35 of its digits', () => {
    const asked = [
      [12.5, 20],
      [25, 10],
      [25, 16],
      [25, 20],
      [50, 10],
      [50, 20],
    ] as const;
    for (const [inches, rows] of ROWS) {
      const fit = asked.map(([metres, arc]) => heightOf(inches * 25.4) / (heightAt(metres * 1000, arc) * 1.35));
      expect(fit.map(Math.floor), `${inches} inches`).toEqual(rows);
    }
  });
});

test('[sight, check-values 8F] share = 2 d tan(a/2) / (diagonal 9/sqrt 337): 0.2124 at 25 m, 20 minutes, 55 inches', () => {
  expect(heightAt(25_000, 20) / heightOf(DIAGONAL_55)).toBeCloseTo(0.2124, 4);
});

test('[sight] the design case: digits of 10.2 % on 55 inches are read from 15 m', () => {
  const { least, preferred } = reachOf(0.102 * 1080, { width: 1920, height: 1080, diagonal: 55 });
  expect(least).toBeCloseTo(15, 1);
  expect(preferred).toBeCloseTo(12, 1);
});

test('[sight] the same digits on a screen on end are read from as far as on one across', () => {
  const across = reachOf(100, { width: 1920, height: 1080, diagonal: 43 });
  expect(reachOf(100, { width: 1080, height: 1920, diagonal: 43 })).toEqual(across);
});

test('[sight] distance and height turn into each other', () => {
  for (const metres of [5, 15, 25, 50]) expect(distanceFor(heightAt(metres, 16), 16)).toBeCloseTo(metres, 9);
});
