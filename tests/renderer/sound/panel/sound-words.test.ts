/* What a coach reads of the sound, here and elsewhere. */

import { expect, test } from 'vitest';
import type { DeckState } from '../../../../renderer/link/store.ts';
import { soundHint, soundSentences } from '../../../../renderer/sound/panel/sound-words.ts';

type Screens = DeckState['sound']['screens'];

const me = { id: 'me', screen: 'desk', n: 1, status: 'running', on: true } as const;
const wall = { id: 'w', screen: 'wall', n: 1, status: 'running', on: true } as const;

const told = (...screens: Screens) => ({ more: null, screens });

const own = (status: 'off' | 'blocked' | 'starting' | 'running' | 'gone' | 'missing', yielded = false) => ({
  status,
  yielded,
});

test('off: whether another screen sounds, and which', () => {
  const off = { ...me, status: 'off', on: false } as const;
  expect(soundHint(own('off'), told(off), 'me')).toBe('off');
  expect(soundSentences(own('off'), told(off), 'me')).toBe('No screen sounds.');
  expect(soundHint(own('off'), told(off, wall), 'me')).toBe('on the wall screen');
  expect(soundSentences(own('off'), told(off, wall), 'me')).toBe('The wall screen sounds.');
  expect(soundSentences(own('off', true), told(off, wall), 'me')).toBe(
    'The wall screen sounds: this screen has fallen silent for it.',
  );
  expect(soundHint(own('off'), told(off, wall, { ...wall, id: 'x' }), 'me')).toBe('on 2 screens');
});

test('a screen that is on and cannot be heard is named with what keeps it from it', () => {
  const blocked = { ...wall, status: 'blocked' } as const;
  expect(soundHint(own('off'), told(blocked), 'me')).toBe('on the wall screen (wants a tap)');
  expect(soundSentences(own('off'), told({ ...wall, status: 'gone' }), 'me')).toBe(
    'The wall screen (no device) sounds.',
  );
});

test('on: alone, or with whom', () => {
  expect(soundHint(own('running'), told(me), 'me')).toBe('on');
  expect(soundSentences(own('running'), told(me), 'me')).toBe('Only this screen sounds.');
  expect(soundHint(own('running'), told(me, wall), 'me')).toBe('on 2 screens');
  expect(soundSentences(own('running'), told(me, wall, { ...me, id: 'other' }), 'me')).toBe(
    "The wall screen and the coach's window sound too.",
  );
});

test('on with three others: all are named', () => {
  const remote = { ...me, id: 'r', screen: 'remote' } as const;
  expect(soundSentences(own('running'), told(me, wall, { ...me, id: 'other' }, remote), 'me')).toBe(
    "The wall screen, the coach's window and the remote sound too.",
  );
});

test.each([
  ['blocked', 'tap to hear it', 'The browser waits for a tap on this page.'],
  ['starting', 'starting', 'Starting.'],
  ['gone', 'no device', 'No device plays it. It is tried again every few seconds.'],
  ['missing', 'not in this browser', 'This browser cannot play sound.'],
] as const)('%s', (status, hint, sentence) => {
  expect(soundHint(own(status), told(me), 'me')).toBe(hint);
  expect(soundSentences(own(status), told(me), 'me')).toBe(sentence);
});
