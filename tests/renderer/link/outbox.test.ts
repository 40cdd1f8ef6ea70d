/*
 * Commands on their way: what goes out with each, and what is made of an answer by post.
 */

import { describe, expect, test } from 'vitest';
import { createOutbox, UNHEARD } from '../../../renderer/link/outbox.ts';
import type { Command } from '../../../app/core/run/command/command.ts';

/** Longer than a message may be. */
const LARGE: Command = { do: 'rewrite', text: `Main set\n# ${'x'.repeat(70_000)}\n` };

/** An outbox whose messages, posts and timers a test holds in its hands. */
function outbox() {
  const sent: unknown[] = [];
  const timers = new Set<() => void>();
  let answerPost: (answer: unknown) => void = () => undefined;
  const box = createOutbox({
    send: (message) => sent.push(JSON.parse(message)),
    // Answers at the call: what fails in what hears it, fails here.
    post: () =>
      ({ then: (answered: (answer: unknown) => void) => (answerPost = answered) }) as unknown as Promise<unknown>,
    after(_, call) {
      timers.add(call);
      return () => timers.delete(call);
    },
    newId: () => 'id-1',
  });
  return { box, sent, timers, post: (answer: unknown) => answerPost(answer) };
}

const unheard = { ok: false, at: null, why: UNHEARD };

describe('[link] a command goes out', () => {
  test('alone where nothing is open, shown or rewritten', () => {
    const { box, sent } = outbox();
    void box.give({ do: 'stop' }, null);
    expect(sent).toEqual([{ say: 'command', id: 'id-1', command: { do: 'stop' } }]);
  });

  test('with the run it is meant for, what was shown, and what a rewrite was made from', () => {
    const { box, sent } = outbox();
    const expected = { 1: { line: 2, rounds: [], rep: 3 } };
    void box.give({ do: 'skip', lanes: [1] }, 'run-1', { expected, lastStop: 7 }, 'abc');
    expect(sent).toEqual([
      {
        say: 'command',
        id: 'id-1',
        command: { do: 'skip', lanes: [1] },
        run: 'run-1',
        expected,
        lastStop: 7,
        madeFrom: 'abc',
      },
    ]);
  });
});

describe('[link] an answer', () => {
  test('to a command that was given up, or never given, is passed over', async () => {
    const { box, timers } = outbox();
    const answer = box.give({ do: 'stop' }, null);
    [...timers].forEach((giveUp) => giveUp());
    expect(await answer).toEqual(unheard);
    expect(() => box.answered({ say: 'answer', id: 'id-1', ok: true, at: 5, why: null })).not.toThrow();
  });

  test('ends the waiting: there is no timer left', async () => {
    const { box, timers } = outbox();
    const answer = box.give({ do: 'stop' }, null);
    box.answered({ say: 'answer', id: 'id-1', ok: true, at: 5, why: null });
    expect(await answer).toEqual({ ok: true, at: 5, why: null });
    expect(timers.size).toBe(0);
  });
});

describe('[link] an answer by post', () => {
  test.each([
    [
      { ok: true, at: 1234, why: null },
      { ok: true, at: 1234, why: null },
    ],
    [
      { ok: false, at: null, why: 'Too soon.' },
      { ok: false, at: null, why: 'Too soon.' },
    ],
    [
      { ok: false, why: 'A session can have 256 KiB of text at most: make it shorter.' },
      { ok: false, at: null, why: 'A session can have 256 KiB of text at most: make it shorter.' },
    ],
    [
      { ok: false, at: '7', why: 7 },
      { ok: false, at: null, why: null },
    ],
    [{ ok: 'yes', at: 1234 }, unheard],
    [{}, unheard],
    [null, unheard],
    ['<html>', unheard],
  ])('%o is taken as %o', async (posted, answer) => {
    const { box, post } = outbox();
    const given = box.give(LARGE, null);
    post(posted);
    expect(await given).toEqual(answer);
  });

  test('that comes when the command was given up is passed over', async () => {
    const { box, post, timers } = outbox();
    const given = box.give(LARGE, null);
    [...timers].forEach((giveUp) => giveUp());
    expect(() => post({ ok: true, at: 5, why: null })).not.toThrow();
    expect(await given).toEqual(unheard);
  });
});
