/*
 * What the big button does, and what is offered beside it: a table of cases.
 */

import { describe, expect, test } from 'vitest';
import type { Command } from '../../../../../app/core/run/command/command.ts';
import { view } from '../../../../../app/core/run/view.ts';
import { refusalOf } from '../../../../../renderer/ui/coach/commands/refusal.ts';
import { primaryOf, stopOrResume } from '../../../../../renderer/ui/coach/commands/primary.ts';
import { commandOf } from '../../../../../renderer/ui/coach/commands/action-list.ts';
import { runOf } from '../../../../support/coach/coach-run.ts';

/** T0 at 10 s: lane 1 leaves at 10 and 70 s, lane 2 at 10 and 80 s; the break comes by itself at 150 s. */
const BREAK = 'lane 1\nlane 2\nSet\n2 x 50 @ 1:00/1:10\nbreak 0:30\n2 x 25 @ 0:40';
/** The same, and then the coach's word is waited for. */
const WORD = 'lane 1\nlane 2\nSet\n2 x 50 @ 1:00/1:10\nOther\n2 x 25 @ 0:40';
const TALK = 'lane 1\nSet\n50 @ 1:00\ntalk 1:00 turns\n2 x 25 @ 0:40';
const UNTIMED = 'Set\n2 x 50 @ 1:00\n200 easy';
const LAST = 'lane 1 3 swimmers\nSet\n2 x 50 @ 1:00';
const LAST_TALK = 'Set\n50 @ 1:00\ntalk 1:00 well done';

const START: readonly [number, Command] = [0, { do: 'start' }];
const stop = (at: number, ...lanes: number[]): readonly [number, Command] => [
  at,
  lanes.length > 0 ? { do: 'stop', lanes } : { do: 'stop' },
];

type Case = readonly [
  what: string,
  text: string,
  commands: readonly (readonly [number, Command])[],
  seconds: number,
  main: string | null,
  beside: readonly string[],
];

const CASES: readonly Case[] = [
  ['waiting for the first start', BREAK, [], 1, 'start', []],
  ['a countdown', BREAK, [START], 5, 'stop', []],
  ['lanes going', BREAK, [START], 20, 'stop', []],
  ['one lane stopped, the other going', BREAK, [START, stop(20_000, 2)], 30, 'stop', []],
  ['all lanes stopped', BREAK, [START, stop(20_000)], 20, 'resume', ['rejoin']],
  [
    'what is pending is stopped, the other lane is through',
    BREAK,
    [START, stop(20_000, 2)],
    80,
    'resume',
    ['rejoin', 'start'],
  ],
  ['the same within 3 s of the Stop', BREAK, [START, stop(75_000, 2)], 76, 'resume', ['rejoin', 'start']],
  ['all through, a break comes by itself', BREAK, [START], 85, 'stop', ['start']],
  ['the same, stopped', BREAK, [START, stop(90_000)], 91, 'resume', ['rejoin', 'start']],
  ['in a break that goes on by itself', BREAK, [START], 155, 'stop', ['start']],
  ['in a break that is held', BREAK, [START, stop(155_000)], 156, 'resume', ['rejoin', 'start']],
  ['all through, the coach is waited for next', WORD, [START], 85, 'start', []],
  ['waiting for the second start', WORD, [START], 155, 'start', []],
  ['in a talk, after which the coach is waited for', TALK, [START], 80, 'start', []],
  ['an untimed set that is pending', UNTIMED, [START], 20, 'stop', []],
  ['an untimed set at the end', UNTIMED, [START], 131, 'finish', []],
  ['the last tails', LAST, [START], 72, null, ['finish']],
  ['the last talk', LAST_TALK, [START], 75, null, ['finish']],
  ['done', LAST, [START, [80_000, { do: 'finish' }]], 81, null, []],
];

describe('the button, and what stands beside it', () => {
  test.each(CASES)('%s', (_what, text, commands, seconds, main, beside) => {
    const now = view(runOf(text, ...commands), seconds * 1000);
    expect(primaryOf(now)).toEqual({ main, beside });
  });

  test('is what the run takes, but for the time just after a Start or Stop', () => {
    for (const [what, text, commands, seconds, main] of CASES) {
      if (main === null) continue;
      const t = seconds * 1000;
      const last = commands[commands.length - 1]?.[0] ?? -Infinity;
      const refusal = refusalOf(view(runOf(text, ...commands), t), commandOf(main as 'start', []));
      if (!['start', 'resume'].includes(main) || t >= last + 3000) expect([what, refusal]).toEqual([what, null]);
    }
  });
});

describe('Space and the blank-screen key', () => {
  test('stop or resume, and never start', () => {
    for (const [, text, commands, seconds, main] of CASES) {
      const now = view(runOf(text, ...commands), seconds * 1000);
      expect(stopOrResume(now)).toBe(main === 'resume' ? 'resume' : 'stop');
    }
  });
});
