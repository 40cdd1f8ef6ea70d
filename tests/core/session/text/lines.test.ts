/*
 * Lines of a text: what of one is read, where it stands in the file, and what no text may have.
 */

import { describe, expect, test } from 'vitest';
import {
  columnAt,
  commentStart,
  contentOf,
  firstChangedLine,
  foldSpaces,
  lineAt,
  readLines,
  textLines,
  writtenLine,
} from '../../../../app/core/session/text/lines.ts';

describe('a line', () => {
  test.each<[raw: string, indent: number, start: number, text: string]>([
    ['4 x 50', 0, 0, '4 x 50'],
    ['  4 x 50  ', 2, 2, '4 x 50'],
    [' \t50', 5, 2, '50'],
    ['- 50', 0, 2, '50'],
    ['  –  50', 2, 5, '50'],
    ['•50', 0, 1, '50'],
    ['a) 50', 0, 3, '50'],
    ['12)50', 0, 3, '50'],
    ['--50', 0, 1, '-50'],
    ['ab) 50', 0, 0, 'ab) 50'],
    ['50 # hard', 0, 0, '50'],
    ['C# 50', 0, 0, 'C# 50'],
    ['  - 50 #', 2, 4, '50'],
  ])('%j is indented by %i, and begins at %i with %j', (raw, indent, start, text) => {
    expect(lineAt(raw, 7)).toEqual({ number: 7, raw, indent, start, text });
  });

  test.each(['', '  ', '\t', '# hard', '  # hard', '-', '- # hard', 'a)', '•  '])('%j says nothing', (raw) => {
    expect(lineAt(raw, 1)).toBeNull();
  });

  test('of one far too long a thousand characters are read', () => {
    expect(lineAt('x'.repeat(1000), 1)?.text).toHaveLength(1000);
    expect(lineAt('x'.repeat(1001), 1)?.text).toHaveLength(1000);
  });
});

test.each([
  ['50', 2],
  ['50 # hard', 3],
  ['50 #', 3],
  ['50 #1 # hard', 6],
  ['50 # hard # more', 3],
  ['#1', 0],
  ['  #1', 2],
  ['C# 50', 5],
  ['50 #hard', 8],
  ['50\t#\thard', 3],
])('the comment of %j begins at %i', (raw, at) => {
  expect(commentStart(raw)).toBe(at);
});

test.each([
  ['  50  ', '  50'],
  ['  50 # hard', '  50'],
  ['# hard', ''],
  ['', ''],
])('%j without its comment and the blanks behind is %j', (raw, content) => {
  expect(contentOf(raw)).toBe(content);
});

test.each([
  ['  -  50 # hard', '-  50'],
  ['50', '50'],
])('a line is quoted as the coach wrote it: %j as %j', (raw, written) => {
  expect(writtenLine(`T\r\n${raw}\r\n`, 2)).toBe(written);
  expect(writtenLine(`T\n${raw}`, 3)).toBe('');
});

test.each<[text: string, ...lines: string[]]>([
  [''],
  ['\n', ''],
  ['a', 'a'],
  ['a\n', 'a'],
  ['a\n\n', 'a', ''],
  ['\uFEFFa\r\nb\r\n', 'a', 'b'],
  ['a\uFEFF\rb', 'a\uFEFF\rb'],
])('the lines of %j are %j', (text, ...lines) => {
  expect(textLines(text)).toEqual(lines);
});

test.each<[before: string[], after: string[], line: number | null]>([
  [[], [], null],
  [['a', 'b'], ['a', 'b'], null],
  [['a', 'b'], ['b', 'b'], 1],
  [['a', 'b'], ['a', 'c'], 2],
  [['a'], ['a', 'c'], 2],
  [['a', 'c'], ['a'], 2],
])('the first line in which %j and %j differ is %j', (before, after, line) => {
  expect(firstChangedLine(before, after)).toBe(line);
});

test.each([
  ['50', 0, 1],
  ['50', 2, 3],
  ['\t\t50', 2, 9],
  ['😀😀50', 4, 3],
])('of %j the character at %i stands in column %i', (raw, index, column) => {
  expect(columnAt(raw, index)).toBe(column);
});

test.each([
  ['a  b', 'a b'],
  [' a b ', 'a b'],
  ['a\tb', 'a b'],
  ['a\u00A0b', 'a b'],
  ['a \n b', 'a b'],
  ['', ''],
])('%j with its blanks folded is %j', (text, folded) => {
  expect(foldSpaces(text)).toBe(folded);
});

describe('what no text may have', () => {
  const faults = (text: string): readonly string[] =>
    readLines(text).faults.map(({ line, column, message }) => `${line}:${column} ${message}`);

  test.each<[text: string, ...faults: string[]]>([
    ['50\tfast\r\n50\r\n'],
    ['\uFEFF50'],
    ['50\r', '1:3 a carriage return inside a line: end the line with a line feed, or with both'],
    ['5\r0\n50', '1:2 a carriage return inside a line: end the line with a line feed, or with both'],
    ['50\r\r\n50', '1:3 a carriage return inside a line: end the line with a line feed, or with both'],
    ['50\n\t\uFFFD', '2:5 a character that is not UTF-8: save the file as UTF-8'],
    ['\uD800 50', '1:1 a character that is not UTF-8: save the file as UTF-8'],
    ['\uDFFF 50', '1:1 a character that is not UTF-8: save the file as UTF-8'],
    [
      '50 \u0000\n50\u009F',
      '1:4 a control character (code 0): delete it; a session has only letters, numbers, signs, spaces and tabs',
      '2:3 a control character (code 159): delete it; a session has only letters, numbers, signs, spaces and tabs',
    ],
    [
      '\u0085 50',
      '1:1 a control character (code 133): delete it; a session has only letters, numbers, signs, spaces and tabs',
    ],
    // Beside one of these no line's own end becomes a fault.
    [
      '50\r\n5\u0000\r\n',
      '2:2 a control character (code 0): delete it; a session has only letters, numbers, signs, spaces and tabs',
    ],
    ['x'.repeat(500)],
    [`${'x'.repeat(500)}\r\n50`],
    ['😀'.repeat(500)],
    ['x'.repeat(501), '1:501 this line has 501 characters: at most 500 are read, so make it shorter'],
    [`50\n${'😀'.repeat(502)}`, '2:501 this line has 502 characters: at most 500 are read, so make it shorter'],
    [`\t${'x'.repeat(500)}`, '1:504 this line has 501 characters: at most 500 are read, so make it shorter'],
  ])('%j', (text, ...found) => {
    expect(faults(text)).toEqual(found);
  });

  test('a line at fault is read all the same', () => {
    expect(readLines('5\u00000\n\n50').lines.map(({ number, text }) => [number, text])).toEqual([
      [1, '5\u00000'],
      [3, '50'],
    ]);
  });

  test.each([
    ['x', 1],
    ['\u007F', 1],
    ['\u0080', 2],
    ['é', 2],
    ['\u07FF', 2],
    ['\u0800', 3],
    ['–', 3],
    ['\uD7FF', 3],
    ['\uE000', 3],
    ['\uFFFF', 3],
    ['\u{10000}', 4],
    ['😀', 4],
    ['\u{10FFFF}', 4],
  ])('more than 256 KiB, %j being %i of its bytes', (character, bytes) => {
    const tooLarge = (size: number): boolean => {
      const text = character.repeat(Math.floor(size / bytes)) + '\n'.repeat(size % bytes);
      const read = readLines(text);
      return read.lines.length === 0 && read.faults[0]?.message.startsWith('the file is larger than 256 KiB') === true;
    };
    expect([tooLarge(256 * 1024), tooLarge(256 * 1024 + 1)]).toEqual([false, true]);
  });

  test('a file too large is told once, at its beginning', () => {
    expect(readLines('x\n'.repeat(200_000))).toEqual({
      lines: [],
      faults: [
        {
          line: 1,
          column: 1,
          message: 'the file is larger than 256 KiB: no session is that long, so check that this is the right file',
        },
      ],
    });
  });
});
