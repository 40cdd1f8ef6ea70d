// @vitest-environment happy-dom
/* While nobody swims what the lanes say is of one size. */

import { expect, test } from 'vitest';
import { view } from '../../../../app/core/run/view.ts';
import { digitsFace } from '../../../../renderer/wall/faces/digits-face.ts';
import { sweepFace } from '../../../../renderer/wall/faces/sweep-face.ts';
import { layoutFor } from '../../../../renderer/wall/layout.ts';
import { readWallChoice } from '../../../../renderer/wall/screen/wall-choice.ts';
import { smallForm, smallWords, type SmallForm } from '../../../../renderer/wall/strips/small-words.ts';
import { Deck } from '../../../support/run/deck.ts';
import { wallFace } from '../../../support/wall/wall-face.ts';

const choice = readWallChoice('');
const ROOM = { width: 1920, height: 1080, swimmers: 4, widest: '88:88', inset: 0.05, shows: choice };
const layout = layoutFor({ ...ROOM, lanes: 6 }, digitsFace);

/** Before a session of six lanes starts, of which the last swims a set with these words. */
function formWith(words: string): SmallForm {
  const lanes = [1, 2, 3, 4, 5, 6].map((lane) => `lane ${lane}`).join('\n');
  const text = `${lanes}\n0/0/0/0/0/2 x 50 ${words} @ 1:00\n4/4/4/4/4/0 x 50 free @ 1:00\n`;
  const faces = wallFace(view(new Deck(text).state, 0), 0, 'stretch').lanes;
  return smallForm(faces, false, layout, (said) => said.length * 0.45, choice);
}

test('[size] all lanes are on one line while that fits large in each, smaller together, and on two lines together', () => {
  const { laneHeight } = layout.callout;
  const large = formWith('free');
  expect(large.lines).toBe(1);
  expect(large.size).toBeGreaterThan(laneHeight * 0.56);
  const smaller = formWith('slowly');
  expect(smaller.lines).toBe(1);
  expect(smaller.size).toBeLessThan(large.size);
  const two = formWith('drill, fist and free, arms');
  expect(two.lines).toBe(2);
  expect(two.size).toBeLessThan(smaller.size);
});

test('[size] words that fit at no size are left out, and make those of other lanes no smaller', () => {
  expect(formWith('drill '.repeat(20).trim())).toEqual(formWith('free'));
});

test('[turn] a lane whose swimmers still leave when a talk begins says whose turn it is, and nothing of what follows', () => {
  const lanes = [1, 2, 3, 4, 5, 6].map((lane) => `lane ${lane} ${lane === 1 ? ', 4 swimmers' : ''}`).join('\n');
  const text = `${lanes}\n8 x 100 free @ 2:00\ntalk 2:00 turns\n4 x 50 fast @ 1:00 hold 0:40\n`;
  const deck = new Deck(text).at(0, { do: 'start' }).at(14, { do: 'move-on' });
  const faces = wallFace(view(deck.state, 15_000), 0, 'stretch').lanes;
  expect(faces[0]!.turn).not.toBe('');
  // Were it said with the interval it would be too long for one line.
  const form = smallForm([faces[0]!], false, layout, (said) => (said.includes('on ') ? 100 : 1), choice);
  expect(form.lines).toBe(1);
});

test.each([
  ['digits', digitsFace],
  ['sweep', sweepFace],
])('[turn] all lanes stopped: the %s say whose turn it is of a lane that still leaves', (_, face) => {
  const beside = layoutFor({ ...ROOM, lanes: 6 }, face);
  const lanes = [1, 2, 3, 4, 5, 6].map((lane) => `lane ${lane} ${lane === 1 ? ', 4 swimmers' : ''}`).join('\n');
  const deck = new Deck(`${lanes}\n8 x 100 free @ 2:00\n`).at(0, { do: 'start' }).at(132, { do: 'stop' });
  const shown = wallFace(view(deck.state, 136_000), 0, 'stretch').lanes;
  expect(shown[0]!.turn).toBe('3 at 2:10');
  const strip = stripOf();
  const measure = (said: string): number => said.length * 0.45;
  const form = smallForm(shown, false, beside, measure, choice);
  smallWords(strip, beside, measure, choice)(shown[0]!, false, form);
  expect(strip.textContent).toContain('3 at 2:10');
});

/** The places that a lane's small words are written in. */
function stripOf(): HTMLElement {
  const strip = document.createElement('div');
  for (const place of ['word', 'rep', 'round', 'interval', 'target', 'words', 'after', 'turn']) {
    strip.appendChild(document.createElement('div')).dataset['place'] = place;
  }
  return strip;
}
