/*
 * The sure mends of faults, one by one, and faults that can be meant in more than one way.
 */

import { expect, test } from 'vitest';
import { parseSession } from '../../../../app/core/session/parse.ts';
import { mended, sureMend } from '../../../../app/core/session/tokens/mend.ts';

const HEADER = 'Harbour\nlane 1 css 1:20\nSet\n';

/** The line with its sure mend made; null where there is none. Throws for a line without a fault. */
function mendOf(line: string, header = HEADER): string | null {
  const text = `${header}${line}\n4 x 50 @ 1:00`;
  const parsed = parseSession(text, null);
  const number = header.split('\n').length;
  const fault = parsed.ok ? undefined : parsed.faults.find((each) => each.line === number);
  if (!fault) throw new Error(`${line} has no fault`);
  const mend = sureMend(text, fault, fault.column - 1);
  return mend && mended(line, mend);
}

test.each([
  ['4 x 50 free @ 1.30', '4 x 50 free @ 1:30'],
  ['4 x 50 free on 1.05 fast', '4 x 50 free on 1:05 fast'],
  ['4 x 50 @ 1:30, 1:25, 1.20, 1:15', '4 x 50 @ 1:30, 1:25, 1:20, 1:15'],
  ['4 x 50 free @1.30', '4 x 50 free @1:30'],
  ['1:00 rest between rounds', 'rest 1:00 between rounds'],
  ['30 s rest', 'rest 30 s'],
  ['60 rest', 'rest 60'],
  ['2:00 break drink', 'break 2:00 drink'],
  ['1:00 between rounds', 'rest 1:00 between rounds'],
  ['4 x 50 @ 12.30', '4 x 50 @ 12:30'],
  ['4 x 50 free rest 1.15', '4 x 50 free rest 1:15'],
  ['4 x 50 free rest 12.15', '4 x 50 free rest 12:15'],
  ['4 x 50 free rest 1.15 easy', '4 x 50 free rest 1:15 easy'],
  ['4 x 50 hold 28,5 @ 1:00', '4 x 50 hold 28.5 @ 1:00'],
  ['4 x 50 @ 1:00 hold 28,5', '4 x 50 @ 1:00 hold 28.5'],
  ['4 x 50 @ 1:3O', '4 x 50 @ 1:30'],
  ['4 x 50 @ 1:o5', '4 x 50 @ 1:05'],
  ['4 x 50 @ 1:OO', '4 x 50 @ 1:00'],
  ['4 x 50 @ base+1O', '4 x 50 @ base+10'],
  ['1O x 1OO @ 1:40', null],
  ['4 x 1OO @ 1:40', '4 x 100 @ 1:40'],
  ['2O0 easy', '200 easy'],
  ['4 x 50 @ 10or20', null],
  ['4 x 50 free rest15', '4 x 50 free rest 15'],
  ['4 x 50 @ 1:00 drop5', '4 x 50 @ 1:00 drop 5'],
  ['4 x 50 @ 1:00 drop 5 fast', '4 x 50 @ 1:00 drop 5, fast'],
  ['4 x 50 @ 1:00 drop  5 fast', '4 x 50 @ 1:00 drop  5, fast'],
  ['4 x 50 @ 1:00 hold 0:40 fast', '4 x 50 @ 1:00 hold 0:40, fast'],
])('[mend] %s is surely meant as %s', (line, right) => {
  expect(mendOf(line)).toBe(right);
});

test.each(['lane1 css 1:20', 'start19:30', 'pool25 m'])('[mend] %s wants a space', (line) => {
  expect(mendOf(line, 'Harbour\n')).toBe(line.replace(/(?<=[a-z])(?=\d)/, ' '));
});

test.each([
  ['lane 2 css 1:28 5 swimmers', 'lane 2 css 1:28, 5 swimmers'],
  ['lane 2 css 1:28, base 1:40 gap 10', 'lane 2 css 1:28, base 1:40, gap 10'],
])('[mend] %s wants a comma', (line, right) => {
  expect(mendOf(line, 'Harbour\n')).toBe(right);
});

test.each([
  ['lane 1 css 1:20, 5 swimers', 'lane 1 css 1:20, 5 swimmers'],
  ['lane 1 bsae 1:30', 'lane 1 base 1:30'],
  ['finsh 20:30', 'finish 20:30'],
  ['poool 25 m', 'pool 25 m'],
  ['lnae 1 css 1:20', 'lane 1 css 1:20'],
  ['bewteen auto 0:45', 'between auto 0:45'],
])('[mend] %s has a word that is misspelt', (line, right) => {
  expect(mendOf(line, 'Harbour\n')).toBe(right);
});

test.each([
  ['4 x 50 @ bsae', '4 x 50 @ base'],
  ['4 x 50 free @ bsae+10', '4 x 50 free @ base+10'],
  ['4 x 50 free ret 0:15', '4 x 50 free rest 0:15'],
  ['4 x 50 @ 1:00 hodl 0:40', '4 x 50 @ 1:00 hold 0:40'],
])('[mend] %s has a word that is misspelt, in a set', (line, right) => {
  expect(mendOf(line)).toBe(right);
});

test.each(['4 x 50 @ pace', 'lane 1 fast 1:30', '4 x 50 free best 0:15, rent 0:20'])(
  '[mend] %s has a word that is like none of them, or like several things',
  (line) => {
    expect(mendOf(line, line.startsWith('lane') ? 'Harbour\n' : HEADER)).toBeNull();
  },
);

test('[mend] a word behind a lane’s value may be a name, or none', () => {
  expect(mendOf('lane 2 css 1:28 fast', 'Harbour\n')).toBeNull();
});

test.each([
  // 1.3 s, or a minute and a half.
  '4 x 50 free rest 1.30',
  // 130 s, or 1:30.
  '4 x 50 free @ 130',
  '4 x 50 free @ 1:7',
  '4 x 50 free @ 5',
  '8 lengths',
  'talk turns',
  '3 rounds fast',
  '4 x 50 @ 2:00 easy 1.30',
  // A swim of 1:35 has no x behind it.
  '1.35 x 50',
])('[mend] %s can be meant in more than one way', (line) => {
  expect(mendOf(line)).toBeNull();
});

test('[mend] a line is judged by the pool above it', () => {
  expect(mendOf('20 @ 1.30', 'Harbour\npool 20 m\nSet\n')).toBe('20 @ 1:30');
});

test('[mend] of the times of lanes each is meant as one', () => {
  expect(mendOf('4 x 50 @ 1:30/1.20', 'Harbour\nlane 1\nlane 2\nSet\n')).toBe('4 x 50 @ 1:30/1:20');
});

test('[mend] a line that the text does not have has none', () => {
  expect(sureMend('Harbour', { line: 3 }, 0)).toBeNull();
});
