import { describe, expect, test } from 'vitest';
import type { Command } from './command.ts';
import { lane, part, pause, plainSession, rounds, set, untimed } from '../invent/plain-scenario.ts';
import { modelRehearsal } from './run-model.ts';
import type { WrittenScenario } from '../scenario.ts';

type Order = [seconds: number, name: string, fields?: Partial<Command>];

/** Runs commands given in seconds; leaves come back as `lane:line.rep@seconds`. */
function run(session: WrittenScenario, ...orders: Order[]) {
  const commands = orders.map(([seconds, name, fields]) => ({ atMs: Math.round(seconds * 1000), do: name, ...fields }));
  const rehearsal = modelRehearsal(session, 0, commands);
  return {
    ...rehearsal,
    ok: rehearsal.answers.map((answer) => answer.ok),
    happened: rehearsal.leaves.map((leave) => `${leave.lane}:${leave.line}.${leave.rep}@${leave.atMs / 1000}`),
  };
}

/** Lanes 1 and 2, 4 x 100 on 1:00 (line 3), then a part of its own with 2 x 50 on 1:00 (line 5). */
function twoLanes() {
  return plainSession([part('Main', set(4, 100, 60)), part('Later', set(2, 50, 60))], { lanes: [lane(1), lane(2)] });
}

describe('the model of a run, against runs worked out on paper', () => {
  test('[R3] a start leaves ten seconds and falls on a round reading; what calls waits', () => {
    const { happened, phase, stretch, projectedEndMs } = run(twoLanes(), [2, 'start']);
    expect(happened.filter((leave) => leave.startsWith('1'))).toEqual([
      '1:3.1@15',
      '1:3.2@75',
      '1:3.3@135',
      '1:3.4@195',
    ]);
    expect([phase, stretch]).toEqual(['waiting', 1]);
    // 15 + 240 = 255, between 60: 315, and 120 more.
    expect(projectedEndMs).toBe(435_000);
  });

  test('[R1] a leave a quarter of a second after a stop has left, one a millisecond later has not', () => {
    const stoppedAt = (seconds: number) => run(twoLanes(), [0, 'start'], [seconds, 'stop', { lanes: [1] }]).happened;
    expect(stoppedAt(69.75)).toContain('1:3.2@70');
    expect(stoppedAt(69.749)).not.toContain('1:3.2@70');
  });

  test('[R1] what begins by itself is on its way too, whatever is commanded in its last quarter second', () => {
    const session = plainSession([part('Main', set(1, 50, 60), pause('break', 30), set(2, 50, 60))]);
    // The break is over at 10 + 60 + 30 = 100, and the swim after it begins there.
    const movedOn = (seconds: number) => run(session, [0, 'start'], [seconds, 'move-on']);
    expect(movedOn(99.75).happened).toContain('1:5.1@100');
    expect(movedOn(99.749).happened).not.toContain('1:5.1@100');
  });

  test('[R5] a stretch ends with the tail of its longest lane; what is in the water cannot be shortened', () => {
    const session = plainSession([part('Main', set(1, 50, 60), pause('break', 30), set(1, 50, 60))], {
      lanes: [lane(1, { swimmers: 3 })],
    });
    expect(run(session, [0, 'start']).happened).toEqual(['1:3.1@10', '1:5.1@110']);
    expect(run(session, [5, 'start'], [6, 'swimmers', { n: 1 }]).happened).toEqual(['1:3.1@15', '1:5.1@105']);
    expect(run(session, [0, 'start'], [20, 'swimmers', { n: 1 }]).happened).toEqual(['1:3.1@10', '1:5.1@110']);
    expect(run(session, [0, 'start'], [20, 'gap', { seconds: 1 }]).happened).toEqual(['1:3.1@10', '1:5.1@110']);
  });

  test('[R5] a lane with nothing to swim in a stretch adds no tail to it', () => {
    const session = plainSession([part('Main', set([1, 0], 50, 60), pause('break', 30))], {
      lanes: [lane(1), lane(2, { swimmers: 20 })],
    });
    expect(run(session, [0, 'start']).endMs).toBe(100_000);
  });

  test('[R5] a last stretch with an untimed set goes on until the coach says so', () => {
    const session = plainSession([part('Main', untimed(100))]);
    expect(run(session, [0, 'start'])).toMatchObject({ phase: 'going', endMs: null });
    expect(run(session, [0, 'start'], [400, 'move-on'])).toMatchObject({ phase: 'done', endMs: 400_000 });
  });

  test('[R6] a swim that a command lets begin at once still gives ten seconds of warning', () => {
    const session = plainSession([part('Main', set(2, 50, 60)), part('Later', set(1, 50, 60))], {
      between: { ms: 0, auto: true },
    });
    // Without its second rep the first part is over at 70, and the next would begin there.
    expect(run(session, [0, 'start'], [40, 'skip']).happened).toEqual(['1:3.1@10', '1:5.1@70']);
    expect(run(session, [0, 'start'], [69, 'skip']).happened).toEqual(['1:3.1@10', '1:5.1@80']);
    // Swimmers and gaps count, a mark does not.
    for (const [name, fields, begin] of [
      ['swimmers', { n: 1 }, 80],
      ['gap', { seconds: 9 }, 80],
      ['mark', {}, 70],
    ] as const) {
      const { happened } = run(session, [0, 'start'], [40, 'skip'], [69, name, fields]);
      expect(happened).toEqual(['1:3.1@10', `1:5.1@${begin}`]);
    }
    expect(run(session, [0, 'start'], [40, 'skip'], [69, 'interval', { seconds: 5 }]).ok).toEqual([true, true, false]);
  });

  test('start, again: not within 3 s, then sooner where that is sooner, after that the next stretch where nothing is pending', () => {
    const session = plainSession([part('Main', set(1, 50, 60)), part('Later', set(1, 50, 60))], { startOn: 30 });
    expect(run(session, [25, 'start'], [27.9, 'start'], [28, 'start']).ok).toEqual([true, false, false]);
    const auto = plainSession([part('Main', set(1, 50, 60)), part('Later', set(1, 50, 60))], {
      between: { ms: 90_000, auto: true },
    });
    // By itself the second would begin at 10 + 60 + 90 = 160; asked at 80 it begins at 90.
    expect(run(auto, [0, 'start'], [80, 'start']).happened).toEqual(['1:3.1@10', '1:5.1@90']);
    // Stop is the same button, and a finger may come down twice.
    const stopped = (seconds: number) => run(auto, [0, 'start'], [40, 'stop'], [seconds, 'start']).ok;
    expect([stopped(42.999), stopped(43)]).toEqual([
      [true, true, false],
      [true, true, true],
    ]);
    // While the last swimmer is still on the way (10 to 70) a start goes on at once.
    expect(run(session, [0, 'start'], [40, 'start']).happened).toEqual(['1:3.1@30', '1:5.1@60']);
  });

  test('stop and resume: early it costs nothing, late it restarts on a round reading, a group keeping its places', () => {
    const early = run(twoLanes(), [0, 'start'], [20, 'stop'], [60, 'resume']);
    expect(early.happened).toContain('1:3.2@70');
    const late = run(
      twoLanes(),
      [0, 'start'],
      [12, 'shift', { lanes: [2], seconds: 7 }],
      [20, 'stop'],
      [101, 'resume'],
    );
    expect(late.happened.slice(0, 6)).toEqual([
      '1:3.1@10',
      '2:3.1@10',
      '1:3.2@115',
      '2:3.2@122',
      '1:3.3@175',
      '2:3.3@182',
    ]);
    const apart = run(
      twoLanes(),
      [0, 'start'],
      [12, 'shift', { lanes: [2], seconds: 7 }],
      [20, 'stop', { lanes: [1] }],
      [21, 'stop'],
      [101, 'resume'],
    );
    expect(apart.happened.slice(2, 4)).toEqual(['1:3.2@115', '2:3.2@115']);
  });

  test('a Stop for everyone holds what follows, until a resume or a rejoin that leaves something', () => {
    const session = plainSession([part('Main', set(2, 50, 60), pause('break', 30), set(1, 50, 60))], {
      lanes: [lane(1, { swimmers: 3 })],
    });
    // The last has left at 70, the stretch is over at 140, and the break would begin by itself.
    expect(run(session, [0, 'start'], [100, 'stop'])).toMatchObject({ ok: [true, true], phase: 'waiting', stretch: 1 });
    expect(run(session, [0, 'start'], [100, 'stop'], [101, 'stop']).ok).toEqual([true, true, false]);
    expect(run(session, [0, 'start'], [100, 'stop', { lanes: [1] }]).ok).toEqual([true, false]);
    expect(run(session, [0, 'start'], [100, 'stop'], [105, 'resume'])).toMatchObject({
      ok: [true, true, true],
      phase: 'done',
    });
    expect(run(session, [0, 'start'], [100, 'stop'], [141, 'resume']).ok).toEqual([true, true, false]);
    expect(run(session, [0, 'start'], [20, 'stop'], [30, 'skip'])).toMatchObject({ phase: 'waiting', stretch: 1 });
    expect(run(session, [0, 'start'], [20, 'stop'], [30, 'rejoin'])).toMatchObject({ phase: 'done' });
    expect(run(session, [0, 'start'], [20, 'stop'], [65, 'rejoin'])).toMatchObject({ phase: 'waiting', stretch: 1 });
    // In the last stretch, and where a word is waited for, there is nothing to hold.
    expect(run(twoLanes(), [0, 'start'], [200, 'stop']).ok).toEqual([true, false]);
  });

  test('a lane that comes in after a Stop that found nobody to leave comes in stopped', () => {
    const session = plainSession([part('Main', set([1, 4], 50, 60), pause('break', 30))], {
      lanes: [lane(1), lane(2)],
    });
    const { happened, ok } = run(
      session,
      [0, 'start'],
      [1, 'lane-out', { lanes: [2] }],
      [20, 'stop'],
      [25, 'lane-in', { lanes: [2] }],
      [100, 'resume', { lanes: [2] }],
    );
    expect(ok).toEqual([true, true, true, true, true]);
    expect(happened).toEqual(['1:3.1@10', '2:3.2@110', '2:3.3@170', '2:3.4@230']);
  });

  test('rejoin drops what is due within the lead and goes back into the old times', () => {
    expect(run(twoLanes(), [0, 'start'], [20, 'stop', { lanes: [1] }], [120, 'rejoin']).happened).toContain(
      '1:3.3@130',
    );
    const rejoined = run(twoLanes(), [0, 'start'], [20, 'stop', { lanes: [1] }], [120.001, 'rejoin']);
    expect(rejoined.happened.filter((leave) => leave.startsWith('1'))).toEqual(['1:3.1@10', '1:3.4@190']);
  });

  test('skip brings what follows forward, sit out does not, repeat puts the last rep in again', () => {
    const lane1 = (name: string) =>
      run(twoLanes(), [0, 'start'], [20, name, { lanes: [1] }]).happened.filter((leave) => leave.startsWith('1'));
    expect(lane1('skip')).toEqual(['1:3.1@10', '1:3.3@70', '1:3.4@130']);
    expect(lane1('sit-out')).toEqual(['1:3.1@10', '1:3.3@130', '1:3.4@190']);
    expect(lane1('repeat')).toEqual(['1:3.1@10', '1:3.1@70', '1:3.2@130', '1:3.3@190', '1:3.4@250']);
  });

  test('a longer interval counts from the one now running, a shorter one is refused where it would surprise', () => {
    const longer = run(twoLanes(), [0, 'start'], [20, 'interval', { lanes: [1], seconds: 5 }]);
    expect(longer.happened.filter((leave) => leave.startsWith('1'))).toEqual([
      '1:3.1@10',
      '1:3.2@75',
      '1:3.3@140',
      '1:3.4@205',
    ]);
    expect(run(twoLanes(), [0, 'start'], [55.001, 'interval', { seconds: -5 }]).ok).toEqual([true, false]);
    expect(run(twoLanes(), [0, 'start'], [55, 'interval', { seconds: -5 }]).ok).toEqual([true, true]);
  });

  test('a lane that comes in swims by the timetable of those that are in', () => {
    const { happened } = run(
      twoLanes(),
      [0, 'start'],
      [1, 'lane-out', { lanes: [2] }],
      [20, 'shift', { seconds: 7 }],
      [67, 'lane-in', { lanes: [2] }],
    );
    expect(happened.filter((leave) => leave.startsWith('2'))).toEqual(['2:3.2@77', '2:3.3@137', '2:3.4@197']);
  });

  test('cut takes the last reps, or the last rounds with their talks, and leaves one', () => {
    const cut = run(
      twoLanes(),
      [0, 'start'],
      [20, 'cut', { line: 3, n: 2 }],
      [21, 'cut', { line: 3, n: 2 }],
      [22, 'cut', { line: 3, n: 1 }],
    );
    expect(cut.ok).toEqual([true, true, false, true]);
    expect(cut.happened.filter((leave) => leave.startsWith('1'))).toEqual(['1:3.1@10']);
    const session = plainSession([part('Main', rounds(3, set(1, 50, 60), pause('talk', 30)))]);
    expect(run(session, [5, 'cut', { line: 3, n: 2 }], [6, 'start'])).toMatchObject({ phase: 'done', endMs: 110_000 });
  });

  test('a cut leaves the stretches before the current one whole', () => {
    const session = plainSession([part('Main', rounds(2, set(3, 50, 60), pause('talk', 30)))]);
    const { happened } = run(
      session,
      [0, 'go-to', { line: 4, rounds: [2], rep: 1 }],
      [1, 'cut', { line: 4, n: 2 }],
      [2, 'restart'],
      [3, 'restart'],
      [4, 'start'],
    );
    expect(happened).toEqual(['1:4.1@15', '1:4.2@75', '1:4.3@135']);
  });

  test('each cut takes the last reps that a passage through the set still has', () => {
    const session = plainSession([part('Main', rounds(2, set(5, 50, 60), untimed(100)))]);
    // The first round is passed over at the first cut, and loses two by the second alone.
    const { happened } = run(
      session,
      [0, 'go-to', { line: 4, rounds: [2], rep: 1 }],
      [1, 'cut', { line: 4, n: 2 }],
      [2, 'go-to', { line: 4, rounds: [1], rep: 1 }],
      [3, 'cut', { line: 4, n: 2 }],
      [5, 'start'],
    );
    expect(happened).toEqual(['1:4.1@15', '1:4.2@75', '1:4.3@135', '1:5.1@195']);
  });

  test('a stretch that a cut left with nothing under way is not there when a go to comes back to it', () => {
    const session = plainSession([
      part('Main', rounds(2, set(2, 50, 60), pause('talk', 30)), set(1, 25, 30), pause('talk', 30)),
    ]);
    const { leaves, ok } = run(
      session,
      [0, 'go-to', { line: 4, rounds: [2], rep: 1 }],
      [1, 'start'],
      [20, 'cut', { line: 3, n: 1 }],
      [24, 'go-to', { line: 4, rounds: [1], rep: 1 }],
      [25, 'start'],
      [200, 'start'],
    );
    expect(ok).toEqual([true, true, true, true, true, true]);
    expect(leaves.map(({ line, stretch, atMs }) => [line, stretch, atMs / 1000])).toEqual([
      [4, 2, 15],
      [4, 0, 35],
      [4, 0, 95],
      [6, 2, 210],
    ]);
  });

  test('a cut that leaves nothing from the place where a go to waits takes that stretch with it', () => {
    const session = plainSession([part('Main', set(4, 50, 60)), part('Later', set(2, 50, 60))]);
    const { ok, happened } = run(
      session,
      [0, 'go-to', { line: 3, rep: 3 }],
      [1, 'cut', { line: 3, n: 2 }],
      [5, 'start'],
    );
    expect(ok).toEqual([true, true, true]);
    expect(happened).toEqual(['1:5.1@15', '1:5.2@75']);
  });

  test('go to starts every lane with its first rep from there, all together', () => {
    const session = plainSession([part('Main', set(4, 100, 60), set(2, 50, 60))], { lanes: [lane(1), lane(2)] });
    expect(run(session, [0, 'go-to', { line: 4, rep: 2 }], [1, 'start']).happened).toEqual(['1:4.2@15', '2:4.2@15']);
  });

  test('move on waits, restart makes whole; neither within 3 s of an end that came by itself', () => {
    const { happened, ok } = run(
      twoLanes(),
      [0, 'start'],
      [80, 'restart'],
      [81, 'start'],
      [100, 'move-on'],
      [101, 'start'],
    );
    expect(ok).toEqual([true, true, true, true, true]);
    expect(happened.filter((leave) => leave.startsWith('1'))).toEqual([
      '1:3.1@10',
      '1:3.2@70',
      '1:3.1@95',
      '1:5.1@115',
      '1:5.2@175',
    ]);
    expect(run(twoLanes(), [0, 'start'], [252.999, 'move-on'], [253, 'restart']).ok).toEqual([true, false, true]);
  });

  test('undo makes a command as if never given where no leave tells the difference', () => {
    const undone = run(twoLanes(), [0, 'start'], [20, 'skip', { lanes: [1] }], [30, 'undo']);
    expect(undone.happened).toEqual(run(twoLanes(), [0, 'start']).happened);
    expect(run(twoLanes(), [0, 'start'], [20, 'skip'], [30.001, 'undo']).ok).toEqual([true, true, false]);
    expect(run(twoLanes(), [0, 'start'], [65, 'sit-out'], [70, 'undo']).ok).toEqual([true, true, false]);
  });

  test('undo of a Stop that stopped nobody is refused once its not being there would have sent somebody off', () => {
    const session = plainSession([part('Main', set(1, 50, 60), pause('break', 30), set(1, 50, 60))]);
    const undone = (stop: number, undo: number) => run(session, [0, 'start'], [stop, 'stop'], [undo, 'undo']).ok;
    expect(undone(65, 75)).toEqual([true, true, true]);
    expect(undone(95, 99.749)).toEqual([true, true, true]);
    expect(undone(95, 99.75)).toEqual([true, true, false]);
  });

  test('undo of a command that took leaves away is a stop, resumed now', () => {
    const { happened, ok } = run(twoLanes(), [0, 'start'], [65, 'move-on'], [72, 'undo'], [73, 'undo']);
    expect(ok).toEqual([true, true, true, false]);
    // The leaves of 70 did not happen; resumed at 72 they come at 85, and the rest a minute apart.
    expect(happened.filter((leave) => leave.startsWith('1'))).toEqual([
      '1:3.1@10',
      '1:3.2@85',
      '1:3.3@145',
      '1:3.4@205',
    ]);
  });

  test('undo is refused where a leave that has happened would be lost', () => {
    const session = plainSession([part('Main', set([1, 4], 50, 60)), part('Later', set(1, 50, 60))], {
      between: { ms: 0, auto: true },
      lanes: [lane(1), lane(2)],
    });
    // Without lane 2 the first part is over at once, and lane 1 is sent off again ten seconds later.
    const undone = (seconds: number) => run(session, [0, 'start'], [80, 'lane-out', { lanes: [2] }], [seconds, 'undo']);
    expect(undone(89.749)).toMatchObject({ ok: [true, true, true] });
    expect(undone(89.75)).toMatchObject({ ok: [true, true, false] });
    expect(undone(89.75).happened).toEqual(['1:3.1@10', '2:3.1@10', '2:3.2@70', '1:5.1@90']);
  });
});
