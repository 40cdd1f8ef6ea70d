/*
 * What stands beside a text that cannot be read: what can be.
 */

import { describe, expect, test } from 'vitest';
import { writtenOutcome, type WrittenOutcome } from '../../../../renderer/desk/timetable/written-outcome.ts';
import { planOf } from '../../../support/run/deck.ts';

const TEXT =
  'Harbour\nlane 1 base 1:30\nlane 2\nWarm-up\n4 x 50 @ 1:00\nMain\n3 rounds\n  2 x 100 @ 2:00/2:10\n100 easy';

function meanwhile(
  text: string,
  before: string | null = null,
): NonNullable<(WrittenOutcome & { kind: 'faults' })['meanwhile']> | null {
  const { outcome } = writtenOutcome({ text, lanesText: null }, before === null ? null : planOf(before));
  if (outcome.kind !== 'faults') throw new Error(outcome.kind);
  return outcome.meanwhile;
}

const rows = (text: string, before: string | null = null): readonly string[] =>
  meanwhile(text, before)!.table.parts.flatMap((part) => [part.name, ...part.rows.map(({ words }) => words)]);

describe('[reading] beside a text with faults', () => {
  test('stands the session without that line, which says so', () => {
    const text = TEXT.replace('4 x 50 @ 1:00', '4 x 50 @ 1.00');
    expect(meanwhile(text)!.said).toBe('Without line 5, which cannot be read.');
    expect(rows(text)).toEqual(['Main', '3 rounds', '2 x 100', '100 easy']);
    // Its own lines keep their numbers.
    expect(meanwhile(text)!.hour.bars.every(({ line }) => [8, 9].includes(line))).toBe(true);
    const both = text.replace('100 easy', '100 easy @ 1.30');
    expect(meanwhile(both)!.said).toBe('Without lines 5 and 9, which cannot be read.');
  });

  test('it stands as it was, where the others cannot be read without the line', () => {
    const text = TEXT.replace('3 rounds', '3 rou');
    expect(meanwhile(text, TEXT)!.said).toBe('As it was when every line could be read.');
    expect(rows(text, TEXT)).toEqual(rows(TEXT.replace('100 easy', '100 easy @ 1.30'), null).concat('100 easy'));
    // Another session, or with other numbers of its lines, is no help.
    for (const other of [TEXT.replace('Harbour', 'Other'), `${TEXT}\n50 @ 1:00`]) {
      expect(meanwhile(text, other)?.said).not.toBe('As it was when every line could be read.');
    }
  });

  test('there is nothing where nothing is left, and where the fault is in lanes written apart', () => {
    expect(meanwhile('4 x 50 @ 1.00')).toBeNull();
    const { outcome } = writtenOutcome({ text: TEXT, lanesText: 'lane 1 css 1.20' });
    expect(outcome).toMatchObject({ kind: 'faults', in: 'lanes', meanwhile: null });
  });

  test('a lane whose line cannot be read stays, for the lists of the other lines', () => {
    const text = TEXT.replace('lane 1 base 1:30', 'lane 1 base 130');
    expect(meanwhile(text)!.said).toBe('Without line 2, which cannot be read.');
    expect(meanwhile(text)!.table.lanes).toEqual([1, 2]);
    expect(rows(text)).toContain('2 x 100');
  });

  test('lines that cannot be read without the others are told apart: they have no fault of their own', () => {
    const set = TEXT.replace('2 x 100 @ 2:00/2:10', '2 x 100 @ 2.00');
    expect(meanwhile(set)!.said).toBe('Without line 8, which cannot be read, and line 7, which needs it.');
    const two = set.replace('4 x 50 @ 1:00', '4 x 50 @ 1.00');
    expect(meanwhile(two)!.said).toBe('Without lines 5 and 8, which cannot be read, and line 7, which needs them.');
    const rounds = TEXT.replace('3 rounds', '50 easy\n0 rounds\n  50 easy');
    expect(meanwhile(rounds)!.said).toBe('Without line 8, which cannot be read, and lines 9 and 10, which need it.');
    const many = TEXT.replace('3 rounds', `50 easy\n0 rounds${'\n  50 easy'.repeat(7)}`);
    expect(meanwhile(many)!.said).toBe('Without line 8, which cannot be read, and 8 lines that need it.');
  });

  test('many lines are counted', () => {
    const text = TEXT.replace('100 easy', Array(7).fill('100 @ 1.30').join('\n'));
    expect(meanwhile(text)!.said).toBe('Without the 7 lines that cannot be read.');
  });
});
