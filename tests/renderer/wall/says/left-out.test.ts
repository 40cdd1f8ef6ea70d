/* What a lane's strip says of reps that the coach has dropped. */

import { expect, test } from 'vitest';
import { view } from '../../../../app/core/run/view.ts';
import type { LaneFace } from '../../../../renderer/wall/strips/lane-face.ts';
import { wallFace } from '../../../support/wall/wall-face.ts';
import { Deck } from '../../../support/run/deck.ts';

const TEXT = `lane 1 css 1:20, base 1:30, 5 swimmers
lane 2 css 1:28, base 1:40, 6 swimmers
lane 3 css 1:41, base 1:55, 3 swimmers, gap 10

Main set
3 rounds
  150 steady @ base
  4 x 50 fast @ 0:50/0:55/1:05 hold css-2
`;

/** Started at once: T0 is 10 s. */
function started(): Deck {
  return new Deck(TEXT).at(0, { do: 'start' });
}

function face(deck: Deck, seconds: number): { readonly lanes: readonly LaneFace[] } {
  return wallFace(view(deck.state, Math.round(seconds * 1000)), 0, 'stretch');
}

test('a strip says which rep it sits out, or skips, until its next leave, and nothing of that before or after', () => {
  const deck = started();
  expect(face(deck, 120).lanes[1]!.target).toBe('hold 0:43');
  const sat = face(deck.at(121, { do: 'sit-out', lanes: [2] }), 122).lanes[1]!;
  expect(sat).toMatchObject({ rep: '2 of 4', target: 'sits out 1 of 4' });
  const later = face(deck.at(123, { do: 'sit-out', lanes: [2] }), 124).lanes[1]!;
  expect(later).toMatchObject({ rep: '3 of 4', target: 'sits out 2 reps' });
  const skips = face(deck.at(126, { do: 'skip', lanes: [3] }), 127).lanes[2]!;
  expect(skips).toMatchObject({ rep: '2 of 4', target: 'skips 1 of 4' });
  expect(face(deck, 127).lanes[0]!.target).toBe('hold 0:39');
  const next = deck.view(127).lanes[2]!.next!.at! / 1000;
  expect(face(deck, next + 3).lanes[2]!.target).not.toContain('skips');
});

test('a lane that skips its first rep says so, one that comes in late says nothing of what it has missed', () => {
  const skips = face(started().at(3, { do: 'skip', lanes: [1] }), 4).lanes[0]!;
  expect(skips).toMatchObject({ target: 'skips 1 of 1' });
  const out = started().at(3, { do: 'lane-out', lanes: [1] });
  expect(face(out.at(150, { do: 'lane-in', lanes: [1] }), 151).lanes[0]!.target).not.toContain('skips');
});
