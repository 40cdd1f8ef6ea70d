// What stands in a saved table must be words to whatever program opens it, also one that splits at
// semicolons or tabs (spreadsheets do where a comma is the decimal sign).

import { expect, test } from 'vitest';
import { csvText, secondsCell, wordsCell } from '../../app/core/csv.ts';
import { readCsv } from '../support/formats/csv-reader.ts';

test.each([
  ['easy, then fast', '"easy, then fast"'],
  ['easy; then fast', '"easy; then fast"'],
  ['easy\tthen fast', '"easy\tthen fast"'],
  ['easy "hard"', '"easy ""hard"""'],
  ['easy\nfast', '"easy\nfast"'],
  ['easy', 'easy'],
])('%j stands in the table as %j', (cell, written) => {
  expect(csvText([[cell, 'x']])).toBe(`${written},x\r\n`);
  expect(readCsv(csvText([[cell, 'x']]))).toEqual([[cell, 'x']]);
});

test('every row ends in CR LF, one with no cells too', () => {
  expect(csvText([['a', 'b'], [], ['c']])).toBe('a,b\r\n\r\nc\r\n');
  expect(csvText([])).toBe('');
});

/** The cells that a program makes of a table where it splits at one separator, quotes only counting at a cell's start. */
function cellsSplitAt(separator: string, text: string): readonly string[] {
  return text
    .split(/\r?\n|\r/)
    .flatMap((line) => line.split(separator))
    .map((cell) => cell.replace(/^"/, '').trim());
}

test.each([
  '=1+1',
  ' +1',
  '-2 laps',
  '@home',
  '＝1',
  'easy;=HYPERLINK("x")',
  'easy; ;+1',
  'easy\t@home',
  'easy\n-1',
  'easy\r=1',
  '";=1"',
])('%j is a formula in no cell, wherever a program splits the row', (words) => {
  const text = csvText([['1', wordsCell(words), 'x']]);
  for (const separator of [',', ';', '\t']) {
    for (const cell of cellsSplitAt(separator, text)) expect(cell).not.toMatch(/^[=+\-@＝＋－＠]/);
  }
});

test.each([
  ['=1', "'=1"],
  ['＝1', "'＝1"],
  ['－1', "'－1"],
  ['easy;=1;+2', "easy;'=1;'+2"],
  ['easy\r=1\n@a', "easy\r'=1\n'@a"],
  ['easy\t "-1', 'easy\t\' "-1'],
  ['"" =1', '\'"" =1'],
  ['\t=1', "'\t=1"],
  ['\teasy\t', "'\teasy\t"],
  ['', ''],
])('%j gets its apostrophe in front of the sign: %j', (words, cell) => {
  expect(wordsCell(words)).toBe(cell);
});

test.each([
  [0, '0'],
  [90_000, '90'],
  [72_500, '72.5'],
  [1050, '1.05'],
  [999, '0.999'],
  [100, '0.1'],
  [3_600_001, '3600.001'],
])('%i ms are %s s in a cell', (time, cell) => {
  expect(secondsCell(time)).toBe(cell);
});

test.each(['8 x 50 free - build', 'a; b', 'x=y', 'pull/kick + swim', "'quoted"])('%j is left as it is', (words) => {
  expect(wordsCell(words)).toBe(words);
});

test.each(['\tfast', '\rfast', '\nfast'])(
  '%j does not begin with what some programs take for a formula’s mark',
  (words) => {
    expect(wordsCell(words)).toBe(`'${words}`);
  },
);
