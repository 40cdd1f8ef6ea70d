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
];

function shown(reader: number) {
  const changes: ScreenChange[] = [];
  const onChange = vi.fn((change: ScreenChange) => void changes.push(change));
  render(<SightFields sight={{ least: 12.7, preferred: 10.2, helps: HELPS }} reader={reader} onChange={onChange} />);
  return changes;
}

describe('[sight] in the coach’s window', () => {
  test('metres are rounded down, so that nobody is promised too much', () => {
    const sight = { least: 18.9, preferred: 14.99, helps: [] };
    expect(sightText(sight, 15)).toBe('Leaves can be read to 18 m, well to 15 m.');
    expect(sightText(sight, 20)).toBe('Leaves can be read to 18 m, well to 15 m: not from 20 m.');
  });

  test('where the farthest reader can read them nothing is offered', () => {
    shown(12);
    expect(screen.queryAllByRole('button')).toEqual([]);
  });

  test.each<[string, ScreenChange]>([
    ['Fewer words', { words: false, after: false }],
    ['Two columns', { twoColumns: true }],
    ['Only lanes 1, 2 and 3 here', { lanes: [1, 2, 3] }],
    ['Clock and leaves only', { leavesOnly: true }],
  ])('else “%s” is one tap', (name, change) => {
    const changes = shown(15);
    fireEvent.click(screen.getByRole('button', { name }));
    expect(changes).toEqual([change]);
  });
});
