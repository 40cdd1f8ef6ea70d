/*
 * What of a session stands on a line of its text.
 */

import { beforeEach, expect, test } from 'vitest';
import { itemIndexOf, setOnLine } from '../../../app/core/session/item-on-line.ts';
import type { Part } from '../../../app/core/session/session.ts';
import { planOf } from '../../support/run/deck.ts';

const TEXT =
  ['lane 1', 'lane 2', 'One', '50 @ 1:00', '2 rounds', '  2 rounds', '    25 @ 0:30', 'lane 2:', '  75 @ 2:00'].join(
    '\n',
  ) + '\n3 x 4 x 50 @ 1:00\ntalk 1:00';
let part: Part;
beforeEach(() => {
  part = planOf(TEXT).session.parts[0]!;
});
const LINES = Array.from({ length: 12 }, (_, index) => index + 1);

test('[parts] a line belongs to the item on it, or to the one it stands under at any depth; headings to none', () => {
  expect(LINES.map((line) => itemIndexOf(part, line))).toEqual([-1, -1, -1, 0, 1, 1, 1, 2, 2, 3, 4, -1]);
});

test('[parts] a set is found at any depth, one on the line of its rounds too; rounds and lanes lines are none', () => {
  const found = LINES.map((line) => setOnLine(part, line)?.kind ?? null);
  const none = null;
  expect(found).toEqual([none, none, none, 'set', none, none, 'set', none, 'set', 'set', 'talk', none]);
});
