// @vitest-environment happy-dom
/* How far a screen's leaves can be read, as the coach is told, and what helps by one tap. */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, test, vi } from 'vitest';
import type { ScreenChange } from '../../../../app/core/screen/screen-settings.ts';
import { SightFields, sightText } from '../../../../renderer/desk/screens/sight-fields.tsx';
import type { SightHelp } from '../../../../renderer/link/lent-link.ts';

afterEach(cleanup);

const HELPS: readonly SightHelp[] = [
  { kind: 'fewer words', lanes: [], least: 13.4 },
  { kind: 'two columns', lanes: [], least: 14.2 },
  { kind: 'shared', lanes: [1, 2, 3], least: 20.1 },
  { kind: 'leaves only', lanes: [], least: 16 },
  { kind: 'digits', lanes: [], least: 27 },
];

const SIGHT = { least: 12.7, preferred: 10.2, worst: { name: 'lane numbers', least: 9.4 }, helps: HELPS };

function shown(reader: number) {
  const changes: ScreenChange[] = [];
  const onChange = vi.fn((change: ScreenChange) => void changes.push(change));
  render(<SightFields sight={SIGHT} reader={reader} onChange={onChange} />);
  return changes;
}

describe('[sight] in the coach’s window', () => {
  test('metres are rounded down, so that nobody is promised too much', () => {
    const sight = { least: 18.9, preferred: 14.99, worst: { name: 'leaves', least: 18.9 }, helps: [] };
    expect(sightText(sight, 15)).toBe('Leaves can be read to 18 m, well to 15 m.');
    expect(sightText(sight, 20)).toBe('Leaves can be read to 18 m, well to 15 m: not from 20 m.');
  });

  test('what is read less far than they is named, with its distance', () => {
    expect(sightText(SIGHT, 8)).toBe('Leaves can be read to 12 m, well to 10 m. Lane numbers only to 9 m.');
    expect(sightText(SIGHT, 12)).toBe(
      'Leaves can be read to 12 m, well to 10 m. Lane numbers only to 9 m: not from 12 m.',
    );
    expect(sightText(SIGHT, 15)).toBe(
      'Leaves can be read to 12 m, well to 10 m: not from 15 m. Lane numbers only to 9 m: not from 15 m.',
    );
  });

  test('where the farthest reader can read all that is for reading from there nothing is offered', () => {
    shown(9);
    expect(screen.queryAllByRole('button')).toEqual([]);
    cleanup();
    shown(10);
    expect(screen.getAllByRole('button')).toHaveLength(HELPS.length);
  });

  test.each<[string, ScreenChange]>([
    ['Fewer words', { words: false, after: false }],
    ['Two columns', { twoColumns: true }],
    ['Only lanes 1–3 here', { lanes: [1, 2, 3] }],
    ['Clock and leaves only', { leavesOnly: true }],
    ['Digits in place of the dial', { face: 'digits' }],
  ])('else “%s” is one tap', (name, change) => {
    const changes = shown(15);
    fireEvent.click(screen.getByRole('button', { name }));
    expect(changes).toEqual([change]);
  });
});
