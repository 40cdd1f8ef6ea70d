/*
 * What a coach reads where a command is refused.
 */

import { describe, expect, test } from 'vitest';
import { readCommand } from '../../../app/core/run/command/read-command.ts';
import { Deck } from '../../support/run/deck.ts';

describe('a command that is not one', () => {
  const refusal = (fields: Record<string, unknown>) => {
    const read = readCommand(fields);
    return read.ok ? null : read.faults;
  };

  test.each([
    [{ do: 'start', now: 1 }, 'The command start has no field "now".'],
    [{ do: 'cut', line: 1 }, 'The command cut needs the field "n".'],
    [{ do: 'lane-out' }, 'The command lane-out needs the field "lanes".'],
    [{ do: 'gap', seconds: 0 }, 'The command gap needs seconds from 1 to 60.'],
    [{ do: 'gap', seconds: 61 }, 'The command gap needs seconds from 1 to 60.'],
    [{ do: 'shift', seconds: 0 }, 'The command shift needs whole seconds from -600 to 600, not 0.'],
    [{ do: 'shift', seconds: 601 }, 'The command shift needs whole seconds from -600 to 600, not 0.'],
    [{ do: 'interval', seconds: -601 }, 'The command interval needs whole seconds from -600 to 600, not 0.'],
    [{ do: 'swimmers', n: 0 }, 'The command swimmers needs n from 1 to 20.'],
    [{ do: 'swimmers', n: 21 }, 'The command swimmers needs n from 1 to 20.'],
    [{ do: 'cut', line: 1, n: 0 }, 'The command cut needs n, a whole number from 1.'],
    [{ do: 'cut', line: 0, n: 1 }, 'The command cut needs line, a whole number from 1.'],
    [{ do: 'cut', line: 1.5, n: 1 }, 'The command cut needs line, a whole number from 1.'],
    [{ do: 'go-to', line: 0, rep: 1 }, 'The command go-to needs line, a whole number from 1.'],
    [{ do: 'go-to', line: 1, rep: 0 }, 'The command go-to needs rep, a whole number from 1.'],
    [{ do: 'rewrite', text: '' }, 'The command rewrite needs text, a whole session.'],
    [{ do: 'rewrite', text: 7 }, 'The command rewrite needs text, a whole session.'],
    [{ do: 'mark', words: 7 }, 'The command mark needs words of at most 200 characters.'],
    [{ do: 'mark', words: 'a'.repeat(201) }, 'The command mark needs words of at most 200 characters.'],
    [{ do: 'stop', lanes: '1' }, 'The command stop needs lanes as a list of lane numbers, each from 0 to 20.'],
    [{ do: 'stop', lanes: ['1'] }, 'The command stop needs lanes as a list of lane numbers, each from 0 to 20.'],
  ])('%j', (fields, why) => {
    expect(refusal(fields)).toBe(why);
  });

  test.each([
    { do: 'gap', seconds: 1 },
    { do: 'gap', seconds: 60 },
    { do: 'shift', seconds: -600 },
    { do: 'interval', seconds: 600 },
    { do: 'swimmers', n: 1, lanes: [1] },
    { do: 'swimmers', n: 20 },
    { do: 'cut', line: 1, n: 1 },
    { do: 'go-to', line: 1, rep: 1 },
    { do: 'mark' },
    { do: 'mark', words: '\u{1f3ca}'.repeat(200) },
    { do: 'rewrite', text: '50' },
  ])('taken: %j', (fields) => {
    expect(readCommand(fields)).toEqual({ ok: true, value: fields });
  });

  test('forty characters of a name are said again, of a longer one the first forty', () => {
    expect(refusal({ do: 'f'.repeat(40) })).toBe(`There is no command "${'f'.repeat(40)}".`);
    expect(refusal({ do: `${'f'.repeat(40)}g` })).toBe(`There is no command "${'f'.repeat(40)}…".`);
  });
});

describe('a command for lanes', () => {
  const deck = () => new Deck('lane 1\nlane 2\nlane 3\n2 x 50 @ 1:00').at(0, { do: 'start' });

  test('is refused with what the lanes lack, said of one, of several and of all', () => {
    const over = deck();
    expect(over.refusal(100, { do: 'skip', lanes: [2] })).toBe('Lane 2 has no reps to come.');
    expect(over.refusal(100, { do: 'skip', lanes: [1, 3] })).toBe('None of lanes 1 and 3 has any reps to come.');
    expect(over.refusal(100, { do: 'sit-out', lanes: [1, 2, 3] })).toBe('None of lanes 1–3 has any reps to come.');
    expect(over.refusal(100, { do: 'interval', seconds: 5 })).toBe('No lane has any reps to come.');
  });

  test.each([
    ['resume', 'No lane is stopped.', 'Lane 2 is not stopped.'],
    ['rejoin', 'No lane is stopped.', 'Lane 2 is not stopped.'],
    [
      'repeat',
      'No lane has left yet in this stretch: there is no rep to repeat.',
      'Lane 2 has not left yet in this stretch: there is no rep to repeat.',
    ],
  ] as const)('%s says of a lane that it lacks what none has', (name, none, one) => {
    expect(deck().refusal(5, { do: name })).toBe(none);
    expect(deck().refusal(5, { do: name, lanes: [2] })).toBe(one);
  });

  test('stop says that a lane is stopped already, or has nothing left to stop', () => {
    const stopped = deck().at(20, { do: 'stop' });
    expect(stopped.refusal(30, { do: 'stop' })).toBe(
      'No lane is going: each is stopped already or has no reps to come.',
    );
    expect(stopped.refusal(30, { do: 'stop', lanes: [2] })).toBe('Lane 2 is stopped already or has no reps to come.');
  });

  test('stop, with nothing but swimmers who follow still to go, says that they do so by themselves', () => {
    const last = new Deck('lane 1 4 swimmers\n50 @ 1:00').at(0, { do: 'start' });
    expect(last.refusal(24.9, { do: 'stop' })).toBe(
      'Every lead has left: the swimmers behind follow and cannot be stopped.',
    );
    expect(last.refusal(25, { do: 'stop' })).toBe('No lane is going: each is stopped already or has no reps to come.');
  });

  test("while the coach's word is waited for says that no lead is to leave: those behind may still follow", () => {
    const waiting = new Deck('lane 1 4 swimmers\nA\n50 @ 1:00\n\nB\n50 @ 1:00')
      .at(0, { do: 'start' })
      .at(12, { do: 'move-on' });
    const given = [
      { do: 'stop' },
      { do: 'repeat' },
      { do: 'shift', seconds: 5 },
      { do: 'interval', seconds: 5 },
    ] as const;
    for (const command of given)
      expect(waiting.refusal(13, command)).toBe('The run is waiting for Start: no lead is due to leave.');
  });

  test('that are not there or are out', () => {
    expect(deck().refusal(20, { do: 'skip', lanes: [1, 7] })).toBe('There is no lane 7.');
    expect(
      deck()
        .at(15, { do: 'lane-out', lanes: [2] })
        .refusal(20, { do: 'skip', lanes: [1, 2] }),
    ).toBe('Lane 2 is out.');
  });
});

describe('[undo] one that comes too late', () => {
  test('says that swimmers have left since, where some have', () => {
    const deck = new Deck('lane 1\n2 x 50 @ 1:00').at(0, { do: 'start' }).at(69, { do: 'repeat' });
    expect(deck.refusal(71, { do: 'undo' })).toBe('Swimmers have left since then: what they swam cannot be undone.');
  });

  test('says that lanes would have left already without the command, where nobody has left since', () => {
    const deck = new Deck('lane 1\n2 x 50 @ 1:00').at(0, { do: 'start' }).at(69, { do: 'shift', seconds: 5 });
    expect(deck.refusal(71, { do: 'undo' })).toBe(
      'Too late to undo: without that command, lanes would already have left.',
    );
  });
});

describe('[cut] what cannot be cut', () => {
  const text = [
    'T',
    'One',
    '20:00 of 100s @ 2:00',
    '5:00 easy',
    'talk 1:00',
    'break 1:00',
    '100 easy',
    '4/0 x 50 @ 1:00',
  ];
  const deck = () => new Deck(['lane 1', 'lane 2', ...text].join('\n'));

  test.each([
    [4, 'Line 4 is neither a set nor rounds: choose another line to cut.'],
    [5, 'A timed swim or timed block cannot be cut: use Skip rep or Move on.'],
    [6, 'A timed swim or timed block cannot be cut: use Skip rep or Move on.'],
    [7, 'A talk or break cannot be cut: use Move on.'],
    [8, 'A talk or break cannot be cut: use Move on.'],
    [9, 'An untimed set cannot be cut: use Move on.'],
  ])('line %i: %s', (line, why) => {
    expect(deck().refusal(0, { do: 'cut', line, n: 1 })).toBe(why);
  });

  test('one rep of those lanes that swim the set stays, one round of rounds', () => {
    expect(deck().refusal(0, { do: 'cut', line: 10, n: 4 })).toBe(
      'Line 10 must keep at least one rep in every lane: cut fewer, or use Move on.',
    );
    expect(deck().at(0, { do: 'cut', line: 10, n: 3 }).state.cuts.get(10)).toBe(3);
    const rounds = new Deck('2 rounds\n  50 @ 1:00');
    expect(rounds.refusal(0, { do: 'cut', line: 1, n: 2 })).toBe(
      'Line 1 must keep at least one round: cut fewer, or use Move on.',
    );
  });

  test('what has left or is passed cannot be cut any more', () => {
    const deck = new Deck('2 x 50 @ 1:00\n4 x 100 @ 2:00').at(0, { do: 'start' });
    expect(deck.refusal(71, { do: 'cut', line: 1, n: 1 })).toBe('Line 1 has nothing left to cut.');
  });
});
