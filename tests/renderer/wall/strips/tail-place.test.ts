// @vitest-environment happy-dom
/* While a tail goes, whose turn is next and its dots keep clear of the words beside them, in every layout with words below the digits. */

import { expect, test } from 'vitest';
import { view } from '../../../../app/core/run/view.ts';
import { FACES } from '../../../../renderer/wall/faces/faces.ts';
import { layoutFor, type Layout } from '../../../../renderer/wall/layout.ts';
import { readWallChoice } from '../../../../renderer/wall/screen/wall-choice.ts';
import { createStripPainter } from '../../../../renderer/wall/strips/strip-painter.ts';
import { Deck } from '../../../support/run/deck.ts';
import { wallFace } from '../../../support/wall/wall-face.ts';

const SIZES = [
  [1920, 1080],
  [1280, 720],
  [1024, 768],
  [1080, 1920],
] as const;

const PLACES = 'leave seconds dots water word rep round interval target words after turn'.split(' ');

/** A little more than the typeface needs. */
const measure = (text: string): number => text.length * 0.36;

const choice = readWallChoice('');

/** Most of twelve swimmers wait for their turn: the longest tail and turn that there are. */
const deck = new Deck('lane 1 12 swimmers\n12 rounds\n  12 x 50 fast @ 2:00 hold 0:38\n').at(0, { do: 'start' });

/** The strip of its lane while its tail goes, drawn for a layout. */
function stripIn(layout: Layout, of = deck, asked = choice): (place: string) => HTMLElement {
  const strip = document.createElement('section');
  for (const place of PLACES) strip.appendChild(document.createElement('p')).dataset['place'] = place;
  const now = view(of.state, (10 + 120 * 10 + 46) * 1000);
  const { lanes } = wallFace(now, 0, 'stretch');
  createStripPainter(strip, layout, asked, measure).paint(lanes[0]!, 'waiting', null, true);
  return (place) => strip.querySelector<HTMLElement>(`[data-place='${place}']`)!;
}

/** As it is drawn, in px. */
function widthOf(element: HTMLElement): number {
  return element.hidden ? 0 : measure(element.textContent) * parseFloat(element.style.fontSize);
}

test('[tail] whose turn is next and its dots keep clear of the lines that they stand at the ends of', () => {
  let tried = 0;
  for (const [width, height] of SIZES)
    for (const face of FACES)
      for (let lanes = 1; lanes <= 12; lanes++) {
        const widest = face.usual === 'pool' ? ':88' : '88:88';
        const layout = layoutFor({ width, height, lanes, swimmers: 12, widest, inset: 0.05, shows: choice }, face);
        const { form, lines, rep, dot } = layout.lanes;
        if (form !== 'below') continue;
        tried++;
        const place = stripIn(layout);
        const [turn, dots] = [widthOf(place('turn')), 12 * dot];
        expect(place('turn').textContent).toMatch(/^\d+ at /);
        expect(place('rep').textContent).toContain('11 of 12');
        const first = widthOf(place('rep')) + turn + (lines === 1 ? dots : 0);
        expect(first).toBeLessThan(rep.width);
        if (lines > 1) expect(widthOf(place('round')) + dots).toBeLessThan(rep.width);
      }
  expect(tried).toBeGreaterThan(20);
});

test('[tail] whose turn is next is said by name where the settings ask for names and it fits, else by number', () => {
  const turnWith = (name: string, asked = readWallChoice('?names')): string => {
    const names = Array.from({ length: 12 }, (_, swimmer) => `${name}${'abcdefghijkl'[swimmer]}`).join(', ');
    const named = new Deck(`lane 1 ${names}\n12 rounds\n  12 x 50 fast @ 2:00 hold 0:38\n`).at(0, { do: 'start' });
    const room = { width: 1920, height: 1080, lanes: 6, swimmers: 12, widest: '88:88', inset: 0.05, shows: asked };
    return stripIn(layoutFor(room, asked.face), named, asked)('turn').textContent;
  };
  expect(turnWith('Mi')).toMatch(/^\d+ Mi[a-l] at 20:\d\d$/);
  expect(turnWith('Mi', choice)).toMatch(/^\d+ at 20:\d\d$/);
  expect(turnWith('Maximiliane-Antoinette-Theodora')).toMatch(/^\d+ at 20:\d\d$/);
});
