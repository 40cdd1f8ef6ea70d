/*
 * A squad's name and its lanes, as they are kept.
 */

import { expect, test } from 'vitest';
import { isSameSquad, LONGEST_SQUAD_NAME, squadLanes, squadName } from '../../../../app/core/session/lanes/squad.ts';

const numbers = (...lines: readonly string[]) => squadLanes(lines)?.map(({ number }) => number) ?? null;

test('a name is kept with one space between its words, and is no longer than a list shows', () => {
  expect(squadName('  Harbour   squad ')).toBe('Harbour squad');
  expect(squadName('x'.repeat(LONGEST_SQUAD_NAME))).toHaveLength(40);
  expect([squadName('x'.repeat(LONGEST_SQUAD_NAME + 1)), squadName(' ')]).toEqual([null, null]);
});

test('two names are one where they differ in large and small letters at most', () => {
  expect(isSameSquad('Harbour', 'HARBOUR')).toBe(true);
  expect(isSameSquad('HARBOUR', 'harbour')).toBe(true);
  expect(isSameSquad('Harbour', 'Harbor')).toBe(false);
});

test('lanes come from one line each, in their order', () => {
  const lanes = squadLanes(['lane 4 css 1:28', 'lane 2 base 1:40, 6 swimmers']);
  expect(lanes).toMatchObject([
    { number: 2, base: 100_000, swimmers: 6 },
    { number: 4, css: 88_000 },
  ]);
});

test.each([
  ['no line at all', []],
  ['two lines in one', ['lane 1\nlane 2', '# both']],
  ['a line with its end', ['lane 1\r', 'lane 2']],
  ['a fault', ['lane 1 base 9']],
  ['a pool', ['pool 50 m', 'lane 1']],
  ['a gap for all', ['gap 10', 'lane 1']],
  ['a comment beside its lanes', ['lane 1', '# the fast ones']],
  ['a set', ['lane 1', '4 x 50 @ 1:00']],
])('%s is no squad', (_, lines) => {
  expect(numbers(...lines)).toBeNull();
});
