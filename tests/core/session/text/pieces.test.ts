/*
 * A session's text as pieces: what a rewrite leaves alone and what it replaces.
 */

import { describe, expect, test } from 'vitest';
import { parseSession } from '../../../../app/core/session/parse.ts';
import { piecesOf, samePieces, type Piece } from '../../../../app/core/session/text/pieces.ts';

function pieces(...lines: string[]): readonly Piece[] {
  const text = lines.join('\n');
  const read = parseSession(text, null);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return piecesOf(text, read.value);
}

const spans = (of: readonly Piece[]) => of.map(({ first, last }) => [first, last]);

describe('[rewrite] the pieces of a text', () => {
  test('what stands before the first part, each heading, each line at its margin', () => {
    expect(spans(pieces('T', 'gap 5', 'One', '50', '100', 'Two', '50'))).toEqual([
      [1, 2],
      [3, 3],
      [4, 4],
      [5, 5],
      [6, 6],
      [7, 7],
    ]);
  });

  test('what is indented under a line belongs to it', () => {
    expect(spans(pieces('T', 'One', '2 rounds', '  50', '  100', '50'))).toEqual([
      [1, 1],
      [2, 2],
      [3, 5],
      [6, 6],
    ]);
  });

  test('blank lines and comments at the end of one belong to none', () => {
    expect(spans(pieces('T', '', 'One', '50', '', '# drink', '100', '', ' '))).toEqual([
      [1, 1],
      [3, 3],
      [4, 4],
      [7, 7],
    ]);
  });

  test('the first is there where nothing stands before the parts, and sets need no heading', () => {
    expect(spans(pieces('', '# ours', '50'))).toEqual([
      [1, 0],
      [3, 3],
    ]);
    expect(spans(pieces('50', '100'))).toEqual([
      [1, 0],
      [1, 1],
      [2, 2],
    ]);
  });
});

describe('[rewrite] pieces that stand in both texts', () => {
  const before = ['T', 'One', '50', '100', '200'];

  function same(after: readonly string[], was: readonly string[] = before): number {
    return samePieces(pieces(...was), pieces(...after), was.join('\n'), after.join('\n'));
  }

  test('all of a text that stays as it is', () => {
    expect(same(before)).toBe(5);
  });

  test.each([
    ['the first line of all', ['U', 'One', '50', '100', '200'], 0],
    ['a heading', ['T', 'Two', '50', '100', '200'], 1],
    ['a set', ['T', 'One', '50', '150', '200'], 3],
    ['the last', ['T', 'One', '50', '100', '250'], 4],
  ])('those up to a change: %s', (_, after, count) => {
    expect(same(after)).toBe(count);
  });

  test('those of the shorter text, where one goes on', () => {
    expect(same([...before, '300'])).toBe(5);
    expect(same(before, [...before, '300'])).toBe(5);
    expect(same([...before, '', '# end'])).toBe(5);
    expect(same(before.slice(0, 4))).toBe(4);
  });

  test('a piece that has become longer is another', () => {
    const rounds = ['T', '2 rounds', '  50'];
    expect(same([...rounds, '  100', '200'], [...rounds, '200'])).toBe(1);
    expect(same([...rounds, '200'], [...rounds, '  100', '200'])).toBe(1);
  });

  test('a line within a piece that is changed makes another of it', () => {
    expect(same(['T', '2 rounds', '  50', '  100', '200'], ['T', '2 rounds', '  75', '  100', '200'])).toBe(1);
  });

  test('a piece on another line is another', () => {
    expect(same(['T', 'One', '50', '', '100', '200'])).toBe(3);
  });

  test('comments, blank lines and blanks at the end of a line count for nothing', () => {
    expect(same(['T # of today', 'One', '50  ', '100', '200', '', '# end'])).toBe(5);
    expect(same(['T', 'One', '50', '', '100'], ['T', 'One', '50', '# drink', '100'])).toBe(4);
  });
});
