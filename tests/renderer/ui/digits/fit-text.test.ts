import { expect, test } from 'vitest';
import { fitText, LINE } from '../../../../renderer/ui/digits/fit-text.ts';
import { itemWords, laneSetWords, NO_CUTS } from '../../../../app/core/words/set.ts';
import { planOf } from '../../../support/run/deck.ts';

/** Every character half an em wide. */
const measure = (text: string): number => text.length / 2;

test('what fits keeps the size wanted', () => {
  expect(fitText('50 fast', { width: 100, size: 20, least: 10 }, measure)).toEqual({ size: 20, lines: ['50 fast'] });
});

test('what does not fit is set smaller, as far as it must', () => {
  const { size, lines } = fitText('50 fast back', { width: 100, size: 20, least: 10 }, measure);
  expect(lines).toEqual(['50 fast back']);
  expect(size).toBeLessThan(20);
  expect(measure('50 fast back') * size).toBeLessThanOrEqual(100);
});

test('what does not fit at the least size is shortened at the end of a word, and says so', () => {
  const { size, lines } = fitText('50 fast back and free by 25', { width: 60, size: 20, least: 10 }, measure);
  expect(size).toBe(10);
  expect(lines).toEqual(['50 fast…']);
});

test('a word longer than its place is cut, never its place overrun', () => {
  const { lines } = fitText('x'.repeat(500), { width: 60, size: 20, least: 10 }, measure);
  expect(lines).toEqual([`${'x'.repeat(11)}…`]);
});

test('a ladder that is wider than its place breaks after a distance, where there is height for it', () => {
  const place = { width: 160, height: 50, size: 20, least: 8 };
  expect(fitText('50-100-150-200-150-100-50 free', place, measure)).toEqual({
    size: 20,
    lines: ['50-100-150-200-', '150-100-50 free'],
  });
  const onOne = { width: 160, size: 20, least: 8 };
  expect(fitText('50-100-150-200-150-100-50 free', onOne, measure).lines).toEqual(['50-100-150-200-150-100-50 free']);
});

test('lines break at words and fill no more than the height', () => {
  const place = { width: 200, height: 90, size: 40, least: 10 };
  for (let words = 1; words < 120; words++) {
    const { size, lines } = fitText('round '.repeat(words), place, measure);
    expect(lines.length * size * LINE).toBeLessThanOrEqual(90);
    lines.forEach((line) => expect(measure(line) * size).toBeLessThanOrEqual(200));
  }
});

test('sets stand as on a whiteboard, without their intervals', () => {
  const text = `lane 1
lane 2
lane 3
8/7/6 x 75 free @ 1:30
6 x 100/100/75 @ 1:45
100-200-100 pull @ base
20:00 of 100s free @ base
10:00 easy swim
2 rounds
  3 rounds
    50 kick @ 1:10
  4 x 25 @ 0:40
break 2:00 drinks
`;
  const items = planOf(text).session.parts[0]!.items;
  expect(items.map((item) => itemWords(item, NO_CUTS))).toEqual([
    '8/7/6 x 75 free',
    '6 x 100/100/75',
    '100-200-100 pull',
    '20:00 of 100s free',
    '10:00 easy swim',
    '2 rounds: 3 rounds of (50 kick), 4 x 25',
    'break 2:00 drinks',
  ]);
  const [counts, distances] = items;
  if (counts?.kind !== 'set' || distances?.kind !== 'set') throw new Error('no sets');
  expect([laneSetWords(counts, 2), laneSetWords(distances, 2)]).toEqual(['6 x 75 free', '6 x 75']);
});
