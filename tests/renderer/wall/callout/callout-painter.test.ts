// @vitest-environment happy-dom
/* While nobody swims, a set that all lanes start with stands on the screen once. */

import { expect, test } from 'vitest';
import { view } from '../../../../app/core/run/view.ts';
import { createCalloutPainter } from '../../../../renderer/wall/callout/callout-painter.ts';
import { digitsFace } from '../../../../renderer/wall/faces/digits-face.ts';
import { sharedBy } from '../../../../renderer/wall/head/head-face.ts';
import { layoutFor } from '../../../../renderer/wall/layout.ts';
import { readWallChoice } from '../../../../renderer/wall/screen/wall-choice.ts';
import { Deck } from '../../../support/run/deck.ts';
import { wallFace } from '../../../support/wall/wall-face.ts';

const ROOM = { width: 1920, height: 1080, lanes: 2, swimmers: 4, widest: '88:88', inset: 0.05 };

/** What stands over the lanes. */
function captionAt(deck: Deck, seconds: number): string {
  const board = document.createElement('main');
  for (const place of ['callout', 'callout-title', 'callout-lines', 'callout-lanes', 'left-box', 'left'])
    board.appendChild(document.createElement('div')).dataset['place'] = place;
  const layout = layoutFor({ ...ROOM, shows: readWallChoice('') }, digitsFace);
  const paint = createCalloutPainter(board, layout, (text) => text.length * 0.45);
  const now = view(deck.state, seconds * 1000);
  const { callout, lanes } = wallFace(now, 0, 'stretch');
  paint(callout, sharedBy(now, lanes));
  return board.querySelector("[data-place='callout-lanes']")!.textContent;
}

test('[once] the set that comes first in the list is not said again over the lanes', () => {
  expect(captionAt(new Deck('lane 1\nlane 2\n3 x 100 fast @ 2:00\n200 easy\n'), 0)).toBe('');
  const talk = new Deck('lane 1\nlane 2\nA\n50 @ 1:00\ntalk 1:00\nB\n3 x 100 fast @ 2:00\n').at(0, { do: 'start' });
  expect(captionAt(talk, 75)).toBe('');
});

test('[once] the first of a round is, and what lanes start with each by itself', () => {
  const rounds = new Deck('lane 1\nlane 2\n3 rounds\n  100 fast @ 2:00\n  50 easy @ 1:00\n');
  expect(captionAt(rounds, 0)).toBe('Each lane starts with 100 fast');
  expect(captionAt(new Deck('lane 1\nlane 2\n3/2 x 200/150 @ 4:00\n'), 0)).toBe('Each lane starts with');
});

test('[true] while the last swimmers still have to leave, as after Move on, the heading is of them too', () => {
  const text = 'lane 1 3 swimmers, gap 10\nA\n4 x 50 @ 2:00\n\nB\n3 rounds\n  100 fast @ 2:00\n  50 easy @ 1:00\n';
  const moved = new Deck(text).at(0, { do: 'start' }).at(15, { do: 'move-on' });
  expect(captionAt(moved, 16)).toBe('Still to leave; each lane then starts with 100 fast');
  expect(captionAt(moved, 40)).toBe('Each lane starts with 100 fast');
});

test('[whole] long words of it, which stand in the list, are left out and not cut', () => {
  const words = 'arms long and legs quiet, with a breath to either side and the eyes on the floor of the pool';
  const rounds = new Deck(`lane 1\nlane 2\n3 rounds\n  100 ${words} @ 2:00\n  50 easy @ 1:00\n`);
  expect(captionAt(rounds, 0)).toBe('Each lane starts with');
});
