// @vitest-environment happy-dom
/* The end of the session is as large as the head has room for. */

import { expect, test } from 'vitest';
import { digitsFace } from '../../../../renderer/wall/faces/digits-face.ts';
import type { Head } from '../../../../renderer/wall/head/head-face.ts';
import { createHeadPainter } from '../../../../renderer/wall/head/head-painter.ts';
import { layoutFor } from '../../../../renderer/wall/layout.ts';
import { readWallChoice } from '../../../../renderer/wall/screen/wall-choice.ts';

const END = 'ends ≈15:20, ≈5 h 10 min in hand';

/** The size in px in which the end is drawn. */
function endSize(said: Partial<Head>, search = '?end'): number {
  const board = document.createElement('main');
  for (const name of ['time', 'clock-label', 'title', 'set', 'written', 'then', 'end', 'lost'])
    board.appendChild(document.createElement('p')).dataset['place'] = name;
  const choice = readWallChoice(search);
  const room = { width: 1920, height: 1080, lanes: 6, swimmers: 4, widest: '88:88', inset: 0.05, shows: choice };
  const paint = createHeadPainter(board, layoutFor(room, digitsFace), choice, (text) => text.length * 0.42);
  const head: Head = { title: 'Main set', set: '', then: '', end: END, time: '14:25', ...said };
  paint({ head, shared: { words: '', set: said.set ? '4 x 50 fast' : '' }, label: '', lost: null, bare: false });
  const end = board.querySelector<HTMLElement>("[data-place='end']")!;
  expect(end.textContent).toBe(END);
  return parseFloat(end.style.fontSize);
}

test('[end] the less is said beside it, the larger it is', () => {
  const beside = endSize({ set: '4 x 50 fast', then: 'then 8 x 75 free' });
  const below = endSize({ set: '4 x 50 fast' });
  const alone = endSize({});
  expect(below).toBeGreaterThan(beside * 1.3);
  expect(alone).toBeGreaterThan(below * 1.3);
  expect(endSize({ set: '4 x 50 fast', then: 'then 8 x 75 free' }, '?end&without=words')).toBe(
    endSize({}, '?end&without=words'),
  );
});
