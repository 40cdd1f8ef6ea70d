/*
 * The sentence after each command, for runs worked out by hand.
 */

import { describe, expect, test } from 'vitest';
import { feedbackOf } from '../../../../app/core/run/feedback/feedback.ts';
import { leaveReading } from '../../../../app/core/words/time/clock.ts';
import type { Command } from '../../../../app/core/run/command/command.ts';
import { afterCommands, HARBOUR, runOf } from '../../../support/coach/coach-run.ts';

// Both lanes leave at 10 s (T0); lane 1 every 1:00, lane 2 every 1:10. The clock reads from T0.
const SET = 'lane 1, 3 swimmers\nlane 2\nSet\n4 x 50 fast @ 1:00/1:10\nbreak 0:30\n2 x 25 @ 0:40';
const going = () => runOf(SET, [0, { do: 'start' }]);
const said = (command: Command, at: number, state = going()): string | null =>
  feedbackOf(state, command, at, (view, time) => leaveReading('stretch', view, time) ?? '–');

describe('feedback', () => {
  test.each<[Command, number, string]>([
    [{ do: 'stop' }, 20_000, 'Stopped all lanes.'],
    [{ do: 'stop', lanes: [2] }, 20_000, 'Stopped lane 2.'],
    [{ do: 'skip' }, 20_000, 'Skipped 50 fast in all lanes: next leave 1:00 in lane 1.'],
    [{ do: 'skip', lanes: [1] }, 20_000, 'Skipped 50 fast in lane 1: next leave 1:00.'],
    [{ do: 'sit-out', lanes: [2] }, 20_000, 'Sat out 50 fast in lane 2: next leave 2:20.'],
    [{ do: 'sit-out' }, 20_000, 'Sat out 50 fast in all lanes: next leave 2:00 in lane 1.'],
    [{ do: 'repeat', lanes: [2] }, 20_000, 'Repeating 50 fast in lane 2: next leave 1:10.'],
    [{ do: 'shift', lanes: [2], seconds: 5 }, 20_000, '5 s later in lane 2: next leave 1:15.'],
    [{ do: 'shift', lanes: [2], seconds: -5 }, 20_000, '5 s sooner in lane 2: next leave 1:05.'],
    [{ do: 'interval', lanes: [1], seconds: 5 }, 20_000, '50 fast on 1:05, was 1:00, in lane 1: next leave 1:05.'],
    [
      { do: 'interval', seconds: -5 },
      20_000,
      '50 fast on 0:55, was 1:00, in lane 1; on 1:05, was 1:10, in lane 2: next leave 0:55 in lane 1.',
    ],
    [{ do: 'cut', line: 4, n: 1 }, 20_000, 'Cut 1 of 4 x 50 fast, ends 1:10 sooner.'],
    [{ do: 'lane-out', lanes: [2] }, 20_000, 'Lane 2 is out.'],
    [{ do: 'swimmers', lanes: [1], n: 4 }, 20_000, 'Lane 1: 4 swimmers from the next leave on.'],
    [{ do: 'gap', lanes: [1], seconds: 10 }, 20_000, 'Lane 1: 10 s apart from the next leave on.'],
    [{ do: 'mark', words: 'cramp' }, 20_000, 'Marked: cramp.'],
    [{ do: 'mark', lanes: [2], words: 'cramp' }, 20_000, 'Marked lane 2: cramp.'],
    [{ do: 'mark' }, 20_000, 'Marked.'],
    [{ do: 'move-on' }, 20_000, 'Moved on to the break.'],
    [{ do: 'restart' }, 20_000, 'Back at Set, 50 fast: waits for Start.'],
    [{ do: 'go-to', line: 6, rep: 2 }, 20_000, 'Gone to Set, 25 m: waits for Start.'],
    [{ do: 'finish' }, 20_000, 'Finished.'],
    [{ do: 'undo' }, 1_000, 'Undid Start.'],
  ])('%j', (command, at, text) => {
    expect(said(command, at)).toBe(text);
  });

  test('[undo] names the lanes of what it took back, where that named any', () => {
    const stopped = afterCommands(going(), [20_000, { do: 'stop', lanes: [2] }]);
    expect(said({ do: 'undo' }, 21_000, stopped)).toBe('Undid Stop, lane 2.');
  });

  test('the number or gap that a lane has already is said of the lanes it was given for', () => {
    expect(said({ do: 'gap', lanes: [1], seconds: 5 }, 20_000)).toBe('Lane 1: 5 s apart from the next leave on.');
    expect(said({ do: 'swimmers', n: 1 }, 20_000)).toBe('All lanes: 1 swimmer from the next leave on.');
    const out = afterCommands(going(), [20_000, { do: 'lane-out', lanes: [2] }]);
    expect(said({ do: 'gap', seconds: 5 }, 21_000, out)).toBe('Lane 1: 5 s apart from the next leave on.');
  });

  test('[interval] of a timed block says that it no longer takes the time that was written', () => {
    const block = runOf('lane 1\nSet\n8:00 of 100s free @ 2:00', [0, { do: 'start' }]);
    expect(said({ do: 'interval', seconds: 5 }, 20_000, block)).toBe(
      '100 free on 2:05, was 2:00, in lane 1: next leave 2:05. The timed block is now longer than written.',
    );
    expect(said({ do: 'interval', seconds: -5 }, 20_000, block)).toMatch(/is now shorter than written\.$/);
  });

  test('[resume] lanes that an earlier Stop had stopped are named besides those of the last one', () => {
    const stopped = afterCommands(going(), [20_000, { do: 'stop', lanes: [2] }], [40_000, { do: 'stop' }]);
    expect(said({ do: 'resume' }, 50_000, stopped)).toBe(
      'Resumed all lanes, lane 2 too, stopped earlier: next leave 1:00 in lane 1.',
    );
    expect(said({ do: 'rejoin' }, 50_000, stopped)).toBe(
      'Rejoined the old times in all lanes, lane 2 too, stopped earlier: next leave 1:00 in lane 1.',
    );
    expect(said({ do: 'resume', lanes: [2] }, 50_000, stopped)).toMatch(/^Resumed lane 2: /);
    const three = runOf(`lane 3\n${SET.replace('1:00/1:10', '1:00')}`, [0, { do: 'start' }]);
    const named = afterCommands(three, [20_000, { do: 'stop', lanes: [2] }], [40_000, { do: 'stop', lanes: [3] }]);
    // Who names the lanes knows which they are.
    expect(said({ do: 'resume', lanes: [2, 3] }, 50_000, named)).toBe('Resumed lanes 2 and 3: next leave 1:00.');
  });

  test('[start] a start that comes forward while all lanes are stopped says that nobody goes', () => {
    const text = 'between auto 1:00\nOne\n50 @ 1:00\nTwo\n50 @ 1:00';
    const stopped = runOf(text, [0, { do: 'start' }], [72_000, { do: 'stop' }]);
    expect(said({ do: 'start' }, 80_000, stopped)).toBe(
      'The start is in 10 s, but all lanes are stopped: use Resume to send them.',
    );
  });

  test('a second cut of a line counts from what the first has left', () => {
    const cut = afterCommands(going(), [20_000, { do: 'cut', line: 4, n: 1 }]);
    expect(said({ do: 'cut', line: 4, n: 1 }, 21_000, cut)).toBe('Cut 1 of 3 x 50 fast, ends 1:10 sooner.');
    const rounds = runOf('One\n50 @ 1:00\nTwo\n4 rounds\n  50 @ 1:00\n3 x 25 rest 10', [0, { do: 'start' }]);
    expect(said({ do: 'cut', line: 4, n: 1 }, 20_000, rounds)).toBe('Cut 1 of 4 rounds, ends 1:00 sooner.');
    const fewer = afterCommands(rounds, [20_000, { do: 'cut', line: 4, n: 1 }]);
    expect(said({ do: 'cut', line: 4, n: 2 }, 21_000, fewer)).toBe('Cut 2 of 3 rounds, ends 2:00 sooner.');
    // 25 m in 0:27.5 and 10 s.
    expect(said({ do: 'cut', line: 6, n: 1 }, 21_000, fewer)).toBe('Cut 1 of 3 x 25, ends ≈0:40 sooner.');
  });

  test('a leave is named with its lane where others that go come later; stopped and through lanes are none of them', () => {
    const stopped = afterCommands(going(), [20_000, { do: 'stop', lanes: [1] }]);
    expect(said({ do: 'skip' }, 21_000, stopped)).toBe('Skipped 50 fast in all lanes: next leave 1:10.');
    const last = runOf('lane 1\nlane 2\nSet\n2/4 x 50 fast @ 1:00/1:10', [0, { do: 'start' }]);
    expect(said({ do: 'skip' }, 20_000, last)).toBe('Skipped 50 fast in all lanes: next leave 1:10.');
    expect(said({ do: 'skip', lanes: [1] }, 20_000, last)).toBe(
      'Skipped 50 fast in lane 1: nothing left in this stretch.',
    );
  });

  test('past the last set the session is done; back in a break says which it is', () => {
    expect(said({ do: 'move-on' }, 20_000, runOf('Set\n2 x 50 @ 1:00', [0, { do: 'start' }]))).toBe(
      'Moved past the last set: the session is done.',
    );
    const inBreak = afterCommands(going(), [20_000, { do: 'move-on' }]);
    expect(said({ do: 'restart' }, 30_000, inBreak)).toBe('Back at Set, break: waits for Start.');
  });

  test('what is gone to is the rep of the first lane that swims there', () => {
    const apart = runOf('lane 1\nlane 2\nOne\n50 @ 1:00\nTwo\n0/4 x 100 kick @ 2:00\n50 @ 1:00');
    expect(said({ do: 'go-to', line: 6, rep: 1 }, 1_000, apart)).toBe('Gone to Two, 50 m: waits for Start.');
    const sitsOut = runOf('lane 1\nlane 2\nOne\n50 @ 1:00\nTwo\n0/4 x 100 kick @ 2:00');
    expect(said({ do: 'go-to', line: 6, rep: 1 }, 1_000, sitsOut)).toBe('Gone to Two, 100 kick: waits for Start.');
  });

  test('a start says how long it is until the first leave', () => {
    expect(said({ do: 'start' }, 1_000, runOf(SET))).toBe('Started Set: first leave in 14 s.');
  });

  test('a resume says the reading at which lanes go again', () => {
    const stopped = afterCommands(going(), [60_000, { do: 'stop' }]);
    // align(93 + 10) is 105 s, 1:35 after T0; lane 1 is the earlier, lane 2 keeps its 10 s behind it.
    expect(said({ do: 'resume' }, 93_000, stopped)).toBe('Resumed all lanes: next leave 1:35 in lane 1.');
    expect(said({ do: 'rejoin' }, 93_000, stopped)).toBe(
      'Rejoined the old times in all lanes, 1 rep missed: next leave 2:00 in lane 1.',
    );
  });

  test('a lane that comes in says when it leaves first', () => {
    const out = afterCommands(going(), [20_000, { do: 'lane-out', lanes: [2] }]);
    expect(said({ do: 'lane-in', lanes: [2] }, 40_000, out)).toBe('Lane 2 is in: next leave 1:10.');
  });

  test('several lanes are in or out, from the next start on where they have missed this one', () => {
    const three = runOf('lane 1\nlane 2\nlane 3\nSet\n2 x 50 @ 1:00', [0, { do: 'start' }]);
    expect(said({ do: 'lane-out', lanes: [2, 3] }, 20_000, three)).toBe('Lanes 2 and 3 are out.');
    const out = afterCommands(three, [20_000, { do: 'lane-out', lanes: [2, 3] }]);
    expect(said({ do: 'lane-in', lanes: [2, 3] }, 65_000, out)).toBe('Lanes 2 and 3 are in: from the next start on.');
  });

  test('where lanes are at different sets it is "the next rep", "the last rep", "the set"', () => {
    const apart = runOf('lane 1\nlane 2\nSet\n1/2 x 50 fast @ 1:00\n2 x 100 kick @ 2:00', [0, { do: 'start' }]);
    expect(said({ do: 'skip' }, 20_000, apart)).toMatch(/^Skipped the next rep in all lanes: /);
    expect(said({ do: 'sit-out' }, 20_000, apart)).toMatch(/^Sat out the next rep in all lanes: /);
    expect(said({ do: 'repeat' }, 80_000, apart)).toMatch(/^Repeating the last rep in all lanes: /);
    expect(said({ do: 'interval', seconds: 5 }, 20_000, apart)).toMatch(
      /^The set on 2:05, was 2:00, in lane 1; on 1:05, was 1:00, in lane 2: /,
    );
  });

  test('what is so of one of the lanes is said: a timed block, the most reps missed, a leave to come', () => {
    const block = runOf('lane 1\nlane 2\nSet\n1/2 x 50 @ 1:00\n8:00 of 100s @ 2:00', [0, { do: 'start' }]);
    expect(said({ do: 'interval', seconds: 5 }, 20_000, block)).toMatch(
      /The timed block is now longer than written\.$/,
    );
    const stopped = afterCommands(going(), [60_000, { do: 'stop' }]);
    expect(said({ do: 'rejoin' }, 130_000, stopped)).toMatch(/in all lanes, 2 reps missed: /);
    const late = runOf('lane 1\nlane 2\nlane 3\nSet\n4/4/1 x 50 @ 1:00', [0, { do: 'lane-out', lanes: [2, 3] }]);
    const begun = afterCommands(late, [0, { do: 'start' }]);
    expect(said({ do: 'lane-in', lanes: [2, 3] }, 20_000, begun)).toMatch(/are in: next leave 1:00/);
  });

  test('a talk or break that is begun says how long it is', () => {
    expect(said({ do: 'start' }, 1_000, runOf('break 0:30\n50 @ 1:00'))).toBe('Break of 0:30 has begun.');
  });

  test('what is skipped out of a stopped lane stays stopped, and says so', () => {
    const stopped = afterCommands(going(), [60_000, { do: 'stop', lanes: [1] }]);
    expect(said({ do: 'skip', lanes: [1] }, 61_000, stopped)).toBe('Skipped 50 fast in lane 1: still stopped.');
  });

  test('a talk or break is held, and moved for everyone', () => {
    const inBreak = afterCommands(going(), [20_000, { do: 'move-on' }]);
    expect(said({ do: 'stop' }, 25_000, inBreak)).toBe('Held: what follows the break waits for Resume.');
    const held = afterCommands(inBreak, [25_000, { do: 'stop' }]);
    // The break ends at 50 s; its swim begins then, as a multiple of 5 s, 30 s after the break's beginning.
    expect(said({ do: 'resume' }, 26_000, held)).toBe('Resumed: next set at 0:30.');
    expect(said({ do: 'shift', seconds: 30 }, 25_000, inBreak)).toBe('The break ends 30 s later.');
    const talk = runOf('talk 1:00\n50 @ 1:00', [0, { do: 'start' }], [5_000, { do: 'stop' }]);
    expect(said({ do: 'resume' }, 10_000, talk)).toBe('Resumed: what follows waits for Start.');
    const last = runOf('50 @ 1:00\ntalk 1:00', [0, { do: 'start' }], [80_000, { do: 'stop' }]);
    expect(said({ do: 'resume' }, 85_000, last)).toBe('Resumed: nothing follows.');
  });

  test('a rewrite says how the end moves', () => {
    const text = HARBOUR.replace('4 x 50 easy @ 1:10', '2 x 50 easy @ 1:10');
    expect(said({ do: 'rewrite', text }, 1_000, runOf(HARBOUR))).toBe('Rewrote what is to come, ends 2:20 sooner.');
  });

  test('[rewrite] a rewrite names the cuts and changed intervals that it forgets, by their lines as written', () => {
    const lines = ['Main', '4 x 50 @ 1:00', '  # a comment', '6 x 100 @ 2:00 # by feel', '3 rounds', '  50 @ 1:00'];
    const text = lines.join('\n');
    const changed = runOf(
      text,
      [0, { do: 'start' }],
      [20_000, { do: 'interval', seconds: 5 }],
      [21_000, { do: 'cut', line: 4, n: 2 }],
      [22_000, { do: 'cut', line: 5, n: 1 }],
    );
    const shorter = text.replace('6 x 100', '5 x 100');
    expect(said({ do: 'rewrite', text: shorter }, 30_000, changed)).toBe(
      'Rewrote what is to come, ends 3:00 later. Forgotten: the cuts of "6 x 100 @ 2:00" and "3 rounds".',
    );
    const waiting = runOf(text, [0, { do: 'cut', line: 2, n: 1 }]);
    expect(said({ do: 'rewrite', text: text.replace('4 x 50', '3 x 50') }, 1_000, waiting)).toBe(
      'Rewrote what is to come, the end stays. Forgotten: the cut of "4 x 50 @ 1:00".',
    );
    // Five reps at 2:05, and five at 2:00.
    const later = afterCommands(
      runOf(text, [0, { do: 'go-to', line: 4, rep: 1 }], [1_000, { do: 'start' }]),
      [2_000, { do: 'interval', seconds: 5 }],
      [3_000, { do: 'cut', line: 4, n: 1 }],
    );
    expect(said({ do: 'rewrite', text: shorter }, 4_000, later)).toBe(
      'Rewrote what is to come, ends 0:25 sooner. ' +
        'Forgotten: the cut of "6 x 100 @ 2:00"; the changed interval of "6 x 100 @ 2:00".',
    );
  });

  test('a command that the run refuses has none', () => {
    expect(said({ do: 'resume' }, 20_000)).toBeNull();
  });
});
