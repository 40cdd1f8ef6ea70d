// @vitest-environment happy-dom
/* What a screen reader is told of the wall: who leaves next, once. */

import { expect, test } from 'vitest';
import { view } from '../../../../app/core/run/view.ts';
import { createNextSaid } from '../../../../renderer/wall/says/next-said.ts';
import { Deck } from '../../../support/run/deck.ts';

const THREE = 'lane 1\nlane 2\nlane 3\n3 x 50 fast @ 1:00/1:00/1:15\n';

/** All that is said while the run goes on by tenths of a second; what stands there again counts only where it is written. */
function saidWhile(deck: Deck, from: number, to: number, lanes: readonly number[] = [1, 2, 3]): readonly string[] {
  const element = document.createElement('p');
  const said: string[] = [];
  const { set } = Object.getOwnPropertyDescriptor(Node.prototype, 'textContent')!;
  Object.defineProperty(element, 'textContent', { set: (text: string) => (said.push(text), set!.call(element, text)) });
  const say = createNextSaid(element, lanes, 'stretch');
  for (let tenth = from * 10; tenth <= to * 10; tenth++) say(view(deck.state, tenth * 100));
  return said;
}

test('[screen reader] each leave once, when it becomes the next; lanes that leave together in one sentence', () => {
  const deck = new Deck(THREE).at(0, { do: 'start' });
  expect(saidWhile(deck, 1, 150)).toEqual([
    'Lanes 1–3 leave at 0:00',
    'Lanes 1 and 2 leave at 1:00',
    'Lane 3 leaves at 1:15',
    'Lanes 1 and 2 leave at 2:00',
    'Lane 3 leaves at 2:30',
  ]);
});

test('[screen reader] only the lanes of this screen', () => {
  const deck = new Deck(THREE).at(0, { do: 'start' });
  expect(saidWhile(deck, 1, 70, [3])).toEqual(['Lane 3 leaves at 0:00', 'Lane 3 leaves at 1:15']);
});

test('[screen reader] a leave that a command moves is said anew, and one of a stopped lane is not', () => {
  const deck = new Deck(THREE).at(0, { do: 'start' }).at(20, { do: 'stop', lanes: [1, 2] });
  expect(saidWhile(deck, 20, 30)).toEqual(['Lane 3 leaves at 1:15']);
  deck.at(30, { do: 'shift', lanes: [3], seconds: 5 });
  expect(saidWhile(deck, 30, 31)).toEqual(['Lane 3 leaves at 1:20']);
});

test.each([
  ['stop', 'Stopped'],
  ['move-on', 'Waiting for the coach'],
  ['finish', 'Session done'],
] as const)('[screen reader] no leave stands there that will not happen, but why: %s', (command, why) => {
  const deck = new Deck(`${THREE}Next\n50 @ 1:00\n`).at(0, { do: 'start' });
  const element = document.createElement('p');
  const say = createNextSaid(element, [1, 2, 3], 'stretch');
  say(view(deck.state, 20_000));
  expect(element.textContent).toBe('Lanes 1 and 2 leave at 1:00');
  say(view(deck.at(21, { do: command }).state, 21_000));
  expect(element.textContent).toBe(why);
});

test('[screen reader] what is said of no leave follows what is so, and goes when lanes leave again', () => {
  const deck = new Deck(`${THREE}Next\n50 @ 1:00\n`).at(0, { do: 'start' }).at(20, { do: 'stop' });
  expect(saidWhile(deck, 20, 21)).toEqual(['Stopped']);
  const element = document.createElement('p');
  const say = createNextSaid(element, [1, 2, 3], 'stretch');
  say(view(deck.state, 21_000));
  say(view(deck.at(22, { do: 'move-on' }).state, 22_000));
  expect(element.textContent).toBe('Waiting for the coach');
  say(view(deck.at(30, { do: 'start' }).state, 30_000));
  expect(element.textContent).toBe('Lanes 1–3 leave at 0:00');
});
