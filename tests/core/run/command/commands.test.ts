/*
 * What holds of every command: its buttons and keys, what the run takes after the end, and what Undo makes of it.
 */

import { describe, expect, test } from 'vitest';
import { LEAD } from '../../../../app/core/run/align.ts';
import type { Command } from '../../../../app/core/run/command/command.ts';
import type { Action } from '../../../../app/core/run/command/command-words.ts';
import { RULES, WORDS } from '../../../../app/core/run/command/commands.ts';
import { readCommand } from '../../../../app/core/run/command/read-command.ts';
import { Deck } from '../../../support/deck.ts';

const TEXT = 'lane 1\nlane 2\nOne\n4 x 50 @ 1:00\nTwo\n50 @ 1:00';

/** One of each, with every field. */
const EACH: readonly Command[] = [
  { do: 'start' },
  { do: 'stop', lanes: [1] },
  { do: 'resume', lanes: [1] },
  { do: 'rejoin', lanes: [1] },
  { do: 'skip', lanes: [1] },
  { do: 'sit-out', lanes: [1] },
  { do: 'repeat', lanes: [1] },
  { do: 'shift', lanes: [1], seconds: 5 },
  { do: 'interval', lanes: [1], seconds: 5 },
  { do: 'mark', lanes: [1], words: 'cramp' },
  { do: 'restart' },
  { do: 'finish' },
  { do: 'move-on' },
  { do: 'undo' },
  { do: 'cut', line: 4, n: 1 },
  { do: 'go-to', line: 4, rounds: [1], rep: 1 },
  { do: 'rewrite', text: TEXT },
  { do: 'lane-out', lanes: [1] },
  { do: 'lane-in', lanes: [1] },
  { do: 'swimmers', lanes: [1], n: 2 },
  { do: 'gap', lanes: [1], seconds: 7 },
];

describe('every command', () => {
  test('stands among these', () => {
    expect(EACH.map((command) => command.do)).toEqual(Object.keys(RULES));
  });

  test.each(EACH)('is read from outside with the fields it has, and no others: %j', (command) => {
    expect(readCommand({ ...command })).toEqual({ ok: true, value: command });
    expect(readCommand({ ...command, other: 1 }).ok).toBe(false);
  });

  const over = () => new Deck(TEXT).at(0, { do: 'finish' });

  test.each(EACH.filter((command) => command.do !== 'undo' && command.do !== 'mark'))(
    'is refused after the end: %j',
    (command) => {
      expect(over().refusal(5, command)).toBe('The session is done.');
    },
  );

  test('but undo and mark, which are taken after it too', () => {
    expect(over().at(5, { do: 'undo' }).state.phase).toBe('waiting');
    expect(over().at(5, { do: 'mark' }).state.marks).toHaveLength(1);
  });
});

describe('[undo] after a leave that the command has cost', () => {
  // Both lanes would have left at 1:10.
  const undone = (command: Command) =>
    new Deck(TEXT).at(0, { do: 'start' }).at(69, command).at(75, { do: 'undo' }).leaves(1, 120);

  test.each<Command>([
    { do: 'stop' },
    { do: 'move-on' },
    { do: 'restart' },
    { do: 'go-to', line: 4, rep: 4 },
    { do: 'lane-out', lanes: [1] },
    { do: 'finish' },
  ])('%j becomes a stop that is resumed now', (command) => {
    expect(undone(command)).toEqual([10, 85]);
  });

  test.each<Command>([
    { do: 'shift', seconds: 5 },
    { do: 'shift', seconds: 60 },
    { do: 'interval', seconds: 5 },
    { do: 'sit-out' },
    { do: 'cut', line: 4, n: 3 },
  ])('%j is not undone any more', (command) => {
    expect(() => undone(command)).toThrow(/Too late|Swimmers have left/);
  });
});

describe('[R6] what begins by itself keeps the lead from every command but mark', () => {
  // The break is over at 1:40.
  const text = 'lane 1\nlane 2\nOne\n50 @ 1:00\nbreak 0:30\n50 @ 1:00\n2 x 25 @ 0:30';
  const next = (deck: Deck) => deck.leaves(1).find((leave) => leave > 70);

  test.each<[Command, number]>([
    [{ do: 'shift', seconds: 1 }, 110],
    [{ do: 'cut', line: 7, n: 1 }, 110],
    [{ do: 'lane-out', lanes: [2] }, 110],
    [{ do: 'swimmers', n: 2 }, 110],
    [{ do: 'gap', seconds: 2 }, 110],
    [{ do: 'mark' }, 100],
  ])('%j', (command, at) => {
    expect(next(new Deck(text).at(0, { do: 'start' }).at(99, command))).toBe(at);
  });

  test('a lane that comes in', () => {
    const deck = new Deck(text).at(0, { do: 'lane-out', lanes: [2] }).at(0, { do: 'start' });
    expect(next(deck.at(99, { do: 'lane-in', lanes: [2] }))).toBe(99 + LEAD / 1000 + 1);
  });
});

describe("the coach's buttons", () => {
  const actions: Readonly<Record<string, Action>> = Object.assign(
    {},
    ...Object.values(WORDS).map((words) => words.actions),
  );

  test('each with its key, other keys and the clicker; what it does where the name does not say it', () => {
    const shown = Object.values(actions).map(({ label, key, typed = [], clicker = [], does }) =>
      [label, key, [...typed, ...clicker].join(' '), does].join(' | '),
    );
    expect(shown).toEqual([
      'Start | Enter | PageDown | ',
      'Stop | Space | b . | ',
      'Resume | Space | b . | ',
      'Rejoin | J |  | back into the old times',
      'Skip rep | S |  | the set gets shorter',
      'Sit out | O |  | times stay',
      'Repeat | R |  | the last rep again',
      '−5 s | minus | - − | sooner',
      '+5 s | plus | + = | later',
      '−5 s a rep | [ |  | interval shorter',
      '+5 s a rep | ] |  | interval longer',
      'Mark | M |  | for the record',
      'Restart | Shift R |  | back to the last start',
      'Finish | Shift F |  | ends the session',
      'Move on | Shift M |  | to what is next',
      'Undo | U |  | ',
    ]);
  });

  const named = (is: (action: Action) => boolean) => Object.keys(actions).filter((name) => is(actions[name]!));

  test('those that end what is going want a press or Shift', () => {
    expect(named(({ pressed }) => pressed)).toEqual(['restart', 'finish', 'move-on']);
  });

  test('those about single lanes go by the choice of lanes; Start, Stop and Resume are for all', () => {
    expect(named(({ byChoice }) => byChoice)).toEqual([
      'rejoin',
      'skip',
      'sit-out',
      'repeat',
      'sooner',
      'later',
      'shorter',
      'longer',
      'mark',
    ]);
  });

  test('the bottom row of the window, and on the remote the few at hand and the rest behind one more tap', () => {
    expect(named(({ desk }) => desk === 'row')).toEqual(['skip', 'sit-out', 'repeat', 'restart', 'finish', 'move-on']);
    expect(named(({ remote }) => remote === 'few')).toEqual(['skip', 'sit-out', 'later']);
    expect(named(({ remote }) => remote === 'more')).toEqual([
      'repeat',
      'sooner',
      'shorter',
      'longer',
      'mark',
      'restart',
      'move-on',
    ]);
  });

  test('give the command that they name, for the lanes that they are for', () => {
    const given = Object.entries(actions).map(([name, { command }]) => [name, command({ lanes: [2] })]);
    expect(Object.fromEntries(given)).toEqual({
      start: { do: 'start' },
      stop: { do: 'stop', lanes: [2] },
      resume: { do: 'resume', lanes: [2] },
      rejoin: { do: 'rejoin', lanes: [2] },
      skip: { do: 'skip', lanes: [2] },
      'sit-out': { do: 'sit-out', lanes: [2] },
      repeat: { do: 'repeat', lanes: [2] },
      sooner: { do: 'shift', lanes: [2], seconds: -5 },
      later: { do: 'shift', lanes: [2], seconds: 5 },
      shorter: { do: 'interval', lanes: [2], seconds: -5 },
      longer: { do: 'interval', lanes: [2], seconds: 5 },
      mark: { do: 'mark', lanes: [2] },
      restart: { do: 'restart' },
      finish: { do: 'finish' },
      'move-on': { do: 'move-on' },
      undo: { do: 'undo' },
    });
  });

  test('commands are called by their names, a shift by how far', () => {
    const called = Object.values(WORDS).flatMap(({ label }) => (typeof label === 'string' ? [label] : []));
    expect(called).toEqual([
      'Start',
      'Stop',
      'Resume',
      'Rejoin',
      'Skip rep',
      'Sit out',
      'Repeat',
      'Interval',
      'Mark',
      'Restart',
      'Finish',
      'Move on',
      'Undo',
      'Cut',
      'Go to',
      'Rewrite',
      'Lane out',
      'Lane in',
      'Swimmers',
      'Gap',
    ]);
    expect([-5, 30].map((seconds) => WORDS.shift.label({ do: 'shift', seconds }))).toEqual(['−5 s', '+30 s']);
  });
});
