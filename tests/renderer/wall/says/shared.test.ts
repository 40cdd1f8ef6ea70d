// @vitest-environment happy-dom
/* Words are said once where all lanes share them, and left out whole where there is no room. */

import { expect, test } from 'vitest';
import { view } from '../../../../app/core/run/view.ts';
import { wallFace } from '../../../support/wall/wall-face.ts';
import { sharedBy } from '../../../../renderer/wall/head/head-face.ts';
import { wholeWriter } from '../../../../renderer/wall/board/writers.ts';
import { Deck } from '../../../support/run/deck.ts';

function sharedAt(text: string, seconds: number): ReturnType<typeof sharedBy> {
  const now = view(new Deck(text).at(0, { do: 'start' }).state, seconds * 1000);
  return sharedBy(now, wallFace(now, 0, 'stretch').lanes);
}

test('[shared] words that all lanes share, with the set that they are of, also where counts differ', () => {
  const text = 'lane 1\nlane 2\n3 rounds\n  100 steady @ 2:00\n  8/7 x 50 fast @ 1:00\n';
  expect(sharedAt(text, 5)).toEqual({ words: '100 steady', set: '100 steady' });
  expect(sharedAt(text, 135)).toEqual({ words: '50 fast', set: '8/7 x 50 fast' });
});

test('[shared] none while the start is waited for where a lane would say nothing else: a ladder, or no interval', () => {
  const waiting = (text: string) => {
    const now = view(new Deck(`lane 1 base 1:15\nlane 2 base 1:30\n${text}\n`).state, 0);
    const { lanes } = wallFace(now, 0, 'stretch');
    return [sharedBy(now, lanes).words, ...lanes.map(({ words, interval }) => `${words}|${interval}`)];
  };
  expect(waiting('100-200-100 free @ base')).toEqual(['', '|100 on 1:15', '|100 on 1:30']);
  expect(waiting('200 easy')).toEqual(['', '200 easy|', '200 easy|']);
  expect(waiting('4 x 100 free @ base')).toEqual(['4 x 100 free', '4 x 100 free|on 1:15', '4 x 100 free|on 1:30']);
});

test('[shared] none where lanes swim other distances, or are in other sets', () => {
  expect(sharedAt('lane 1\nlane 2\n2 x 200/150 pull @ 3:00\n', 20).words).toBe('');
  expect(sharedAt('lane 1\nlane 2\n1/3 x 50 fast @ 1:00\n4 x 25 easy @ 1:00\n', 75).words).toBe('');
});

test('[shared] nothing while all are still at what is swum now: the head says that, and each strip its own next', () => {
  const text = 'lane 1\nlane 2\n6:00 choice\n4 x 50 back @ 1:00\n';
  expect(sharedAt(text, 5)).toEqual({ words: 'choice', set: '6:00 choice' });
  expect(sharedAt(text, 100).set).toBe('');
  expect(sharedAt(text, 365)).toEqual({ words: '50 back', set: '4 x 50 back' });
});

test('[head] says which lanes are still at an earlier set than most', () => {
  const text = 'lane 1\nlane 2\nlane 3\n200 steady @ 3:00/3:10/4:00\n4 x 50 fast @ 1:00\n100 easy @ 2:00\n';
  const deck = new Deck(text).at(0, { do: 'start' });
  const thenAt = (seconds: number): string => {
    const { head } = wallFace(view(deck.state, seconds * 1000), 0, 'stretch');
    return `${head.set}, ${head.then}`;
  };
  expect(thenAt(180)).toBe('200 steady, then 4 x 50 fast');
  expect(thenAt(225)).toBe('4 x 50 fast, lane 3 still 200 steady');
  expect(thenAt(262)).toBe('4 x 50 fast, then 100 easy');
});

test('[shared] the rep that all lanes share, where more of them swim a set on a later line', () => {
  const text = 'lane 1\nlane 2\nlane 3\nlane 1: 4 x 100 @ 2:00\nlanes 2-3: 2 x 100 @ 2:00\n';
  expect(sharedAt(text, 20)).toEqual({ words: '100', set: '100' });
});

test('[words] are set smaller down to the least that can be read, then left out whole, never cut', () => {
  const element = document.createElement('p');
  const write = wholeWriter(element, { width: 100, size: 20, least: 10 }, (text) => text.length * 0.5);
  write('on 0:50');
  expect([element.textContent, element.style.fontSize, element.hidden]).toEqual(['on 0:50', '20px', false]);
  write('4 x 50 fast, odds');
  expect(element.textContent).toBe('4 × 50 fast, odds');
  expect(parseFloat(element.style.fontSize)).toBeLessThan(20);
  write('arms long, legs quiet, breathe to both sides');
  expect([element.textContent, element.hidden]).toEqual(['', true]);
});
