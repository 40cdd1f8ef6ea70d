/*
 * What holds of every command: its buttons and keys, what the run takes after the end, and what Undo makes of it.
 */

import { describe, expect, test } from 'vitest';
import { LEAD } from '../../../../app/core/run/align.ts';
import type { Command } from '../../../../app/core/run/command/command.ts';
import type { Action } from '../../../../app/core/run/command/command-words.ts';
import { RULES, WORDS } from '../../../../app/core/run/command/commands.ts';
import { readCommand } from '../../../../app/core/run/command/read-command.ts';
import { Deck } from '../../../support/run/deck.ts';

const TEXT = 'lane 1\nlane 2\nOne\n4 x 50 @ 1:00\nTwo\n50 @ 1:00';

/** A value that each field takes. */
const SAMPLES: Readonly<Record<string, unknown>> = {
  lanes: [1],
  seconds: 5,
  n: 2,
  line: 4,
  rounds: [1],
  rep: 1,
  words: 'cramp',
  text: TEXT,
};

/** One of each, with every field. */
const EACH = Object.entries(RULES).map(([name, { fields }]) => {
  const values = Object.keys(fields).map((field) => [field, SAMPLES[field]]);
  return { do: name, ...Object.fromEntries(values) } as Command;
});

describe('every command', () => {
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
  /** Name; label, key, other keys and the clicker's, what it does; how it is given and where it stands; for lane 2. */
  const BUTTONS: readonly [name: string, looks: string, where: string, command: Command][] = [
    ['start', 'Start | Enter | PageDown | ', '', { do: 'start' }],
    ['stop', 'Stop | Space | b . | ', '', { do: 'stop', lanes: [2] }],
    ['resume', 'Resume | Space | b . | ', '', { do: 'resume', lanes: [2] }],
    ['rejoin', 'Rejoin | J |  | back into the old times', 'chosen', { do: 'rejoin', lanes: [2] }],
    ['skip', 'Skip rep | S |  | the set gets shorter', 'chosen row few', { do: 'skip', lanes: [2] }],
    ['sit-out', 'Sit out | O |  | times stay', 'chosen row few', { do: 'sit-out', lanes: [2] }],
    ['repeat', 'Repeat | R |  | the last rep again', 'chosen row more', { do: 'repeat', lanes: [2] }],
    ['sooner', '−5 s | minus | - − | sooner', 'chosen more', { do: 'shift', lanes: [2], seconds: -5 }],
    ['later', '+5 s | plus | + = | later', 'chosen few', { do: 'shift', lanes: [2], seconds: 5 }],
    ['shorter', '−5 s a rep | [ |  | interval shorter', 'chosen more', { do: 'interval', lanes: [2], seconds: -5 }],
    ['longer', '+5 s a rep | ] |  | interval longer', 'chosen more', { do: 'interval', lanes: [2], seconds: 5 }],
    ['mark', 'Mark | M |  | for the record', 'chosen more', { do: 'mark', lanes: [2] }],
    ['restart', 'Restart | Shift R |  | back to the last start', 'pressed row', { do: 'restart' }],
    ['finish', 'Finish | Shift F |  | ends the session', 'pressed row', { do: 'finish' }],
    ['move-on', 'Move on | Shift M |  | to what is next', 'pressed row more', { do: 'move-on' }],
    ['undo', 'Undo | U |  | ', '', { do: 'undo' }],
  ];
  const actions: Readonly<Record<string, Action>> = Object.assign(
    {},
    ...Object.values(WORDS).map((words) => words.actions),
  );

  test('stand in this order', () => {
    expect(Object.keys(actions)).toEqual(BUTTONS.map(([name]) => name));
  });

  test.each(BUTTONS)('%s', (name, looks, where, given) => {
    const { label, key, typed = [], clicker = [], does, pressed, byChoice, desk, remote, command } = actions[name]!;
    expect([label, key, [...typed, ...clicker].join(' '), does].join(' | ')).toBe(looks);
    const flags = [pressed && 'pressed', byChoice && 'chosen', desk, remote];
    expect(flags.filter(Boolean).join(' ')).toBe(where);
    expect(command({ lanes: [2] })).toEqual(given);
  });

  test('commands without a button are called by their names, a shift by how far', () => {
    const called = Object.values(WORDS).flatMap(({ label, actions: own }) =>
      typeof label === 'string' && Object.keys(own).length === 0 ? [label] : [],
    );
    expect(called).toEqual(['Cut', 'Go to', 'New text', 'Lane out', 'Lane in', 'Swimmers', 'Gap']);
    expect(WORDS.interval.label).toBe('Interval');
    expect([-5, 30].map((seconds) => WORDS.shift.label({ do: 'shift', seconds }))).toEqual(['−5 s', '+30 s']);
  });

  test('a command with one button is called as the button says', () => {
    for (const { label, actions: own } of Object.values(WORDS)) {
      const [only, ...more] = Object.values(own);
      if (only && more.length === 0) expect(label).toBe(only.label);
    }
  });
});
