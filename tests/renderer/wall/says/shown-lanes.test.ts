/* A screen that shows some of the lanes says what they swim, and nothing of the others. */

import { expect, test } from 'vitest';
import { view, type RunView } from '../../../../app/core/run/view.ts';
import { calloutOf } from '../../../../renderer/wall/says/face.ts';
import { headFace } from '../../../../renderer/wall/head/head-face.ts';
import { createShownLanes } from '../../../../renderer/wall/says/shown-lanes.ts';
import { Deck } from '../../../support/run/deck.ts';

const SQUAD = `lane 1
lane 2
lane 3
lane 4
Main set
3 rounds
  6/6/5/4 x 75 free @ 1:20
  lanes 1-2: 2 x 25 sprint @ 0:40
lanes 3-4: 4 x 50 kick @ 1:10
400/400/300/200 easy @ 8:00
`;

function shown(numbers: readonly number[], seconds: number, deck = new Deck(SQUAD).at(0, { do: 'start' })): RunView {
  return createShownLanes(numbers)(view(deck.state, seconds * 1000));
}

test('[lanes] the head says the set as those lanes swim it', () => {
  expect(headFace(shown([1, 2, 3, 4], 20), 0, 'stretch').set).toBe(
    '3 rounds: 6/6/5/4 x 75 free, lanes 1 and 2: 2 x 25 sprint',
  );
  expect(headFace(shown([3, 4], 20), 0, 'stretch').set).toBe('3 rounds: 5/4 x 75 free');
  expect(headFace(shown([1, 2], 20), 0, 'stretch').set).toBe('3 rounds: 6 x 75 free, 2 x 25 sprint');
  expect(headFace(shown([2, 3], 20), 0, 'stretch').set).toBe('3 rounds: 6/5 x 75 free, lane 2: 2 x 25 sprint');
});

test('[lanes] and what comes next for them', () => {
  expect(headFace(shown([3, 4], 20), 0, 'stretch').then).toBe('then 4 x 50 kick');
  expect(headFace(shown([1, 2], 20), 0, 'stretch').then).toBe('then 400 easy');
});

test('[lanes] while the coach is waited for, what they will swim', () => {
  const waiting = new Deck(SQUAD);
  expect(calloutOf(shown([3], 5, waiting), 0, true, [])!.lines).toEqual([
    '3 rounds: 5 x 75 free',
    '4 x 50 kick',
    '300 easy',
  ]);
});

test('[words] left out, there are none while nobody swims either; kit and what a talk is about stay', () => {
  const talk = new Deck(`lane 1\nA\ntalk 2:00 turns\nkit: fins\n4 x 50 kick @ 1:00\n`);
  expect(calloutOf(view(talk.state, 1000), 0, false, [])).toMatchObject({ title: 'Next: A', lines: [] });
  talk.at(5, { do: 'start' });
  const now = calloutOf(view(talk.state, 9000), 0, false, [])!;
  expect([now.title, now.lines]).toEqual(['Talk: turns', ['kit: fins']]);
});
