/*
 * The sentence after a command, asked by a screen.
 */

import { expect, test } from 'vitest';
import type { Command } from '../../../../app/core/run/command/command.ts';
import { feedbackAt, feedbackOnLast } from '../../../../app/core/run/view/feedback.ts';
import { stoppedEarlier } from '../../../../app/core/run/view/stops.ts';
import { leaveReading } from '../../../../app/core/words/time/clock.ts';
import { Deck } from '../../../support/run/deck.ts';

type TimeText = Parameters<typeof feedbackAt>[2];
const reading: TimeText = (view, at) => leaveReading('stretch', view, at) ?? '–';
const going = () => new Deck('lane 1\nlane 2\n4 x 50 @ 1:00').at(0, { do: 'start' });

test('[feedback] of a command that is given at the view’s time; none where the run refuses it', () => {
  expect(feedbackAt(going().view(20), { do: 'skip', lanes: [2] }, reading)).toBe(
    'Skipped 50 m in lane 2: next leave 1:00.',
  );
  expect(feedbackAt(going().view(20), { do: 'resume' }, reading)).toBeNull();
});

test('[feedback] of the last command, from the run as it was before; of a mark too', () => {
  const last = (deck: Deck, seconds: number, command: Command) =>
    feedbackOnLast(deck.at(seconds, command).view(seconds), [{ command, at: seconds * 1000 }], reading);
  expect(last(going(), 20, { do: 'skip', lanes: [2] })).toBe('Skipped 50 m in lane 2: next leave 1:00.');
  expect(last(new Deck('50 @ 1:00'), 0, { do: 'mark' })).toBe('Marked.');
  expect(last(going(), 20, { do: 'mark', lanes: [2], words: 'cramp' })).toBe('Marked lane 2: cramp.');
});

test('[feedback] of an undo names what it took back, with the lanes that were named', () => {
  const undone = (...given: readonly Command[]): string | null => {
    const commands = given.map((command, index) => ({ command, at: 20_000 + index * 1000 }));
    const deck = commands.reduce((run, { command, at }) => run.at(at / 1000, command), going());
    return feedbackOnLast(deck.view(20 + given.length), commands, reading);
  };
  expect(undone({ do: 'stop', lanes: [2] }, { do: 'undo' })).toBe('Undid Stop, lane 2.');
  expect(undone({ do: 'shift', seconds: 5 }, { do: 'mark' }, { do: 'undo' })).toBe('Undid +5 s.');
  expect(undone({ do: 'skip', lanes: [1, 2] }, { do: 'sit-out', lanes: [1] }, { do: 'undo' }, { do: 'undo' })).toBe(
    'Undid Skip rep, lanes 1 and 2.',
  );
  expect(feedbackOnLast(going().view(20), [], reading)).toBeNull();
  expect(feedbackOnLast(going().view(20), [{ command: { do: 'undo' }, at: 0 }], reading)).toBeNull();
});

test('[stop] lanes that the last Stop does not hold were stopped earlier', () => {
  const lanes = [
    { number: 1, stop: 2 },
    { number: 2, stop: null },
    { number: 3, stop: 1 },
    { number: 4, stop: 2 },
  ];
  expect(stoppedEarlier(lanes)).toEqual([3]);
  expect(stoppedEarlier(lanes.slice(1, 2))).toEqual([]);
  expect(stoppedEarlier([])).toEqual([]);
});
