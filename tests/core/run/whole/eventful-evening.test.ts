/*
 * An evening on which everything happens, rehearsed: what is expected was worked out by hand from the
 * session and the rules, in m:ss since the session was opened at 19:30.
 */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeEach, describe, expect, test } from 'vitest';
import { rehearsal, type RehearsalJson, type ScriptLine } from '../../../../app/cli/rehearse.ts';
import { readScript } from '../../../../app/cli/script.ts';
import type { Plan } from '../../../../app/core/plan/plan.ts';
import { readCommand } from '../../../../app/core/run/command/read-command.ts';
import { fit } from '../../../../app/core/run/hour/fit.ts';
import { apply } from '../../../../app/core/run/fold.ts';
import { settle } from '../../../../app/core/run/settle.ts';
import { openRun, type RunState } from '../../../../app/core/run/state.ts';
import { view } from '../../../../app/core/run/view.ts';
import { reading } from '../../../../app/core/words/time/reading.ts';
import { HOUR, MINUTE, SECOND } from '../../../../app/core/units.ts';
import { planOf } from '../../../support/run/deck.ts';

const folder = new URL('../../../cases/eventful-evening/', import.meta.url);
const textOf = (name: string): string => readFileSync(fileURLToPath(new URL(name, folder)), 'utf8');
let plan: Plan;
let lines: readonly ScriptLine[];
let evening: RehearsalJson;

beforeEach(() => {
  plan = planOf(textOf('session.txt'));
  const script = readScript(textOf('script.jsonl'));
  if (!script.ok) throw new Error(JSON.stringify(script.faults));
  lines = script.value;
  evening = rehearsal(plan, 0, lines);
});

/** Lines of the session. */
const ROUNDS = 22;
const LAST_75S = 26;

const at = (text: string): number => {
  const [minutes, seconds] = text.split(':').map(Number);
  return minutes! * MINUTE + seconds! * SECOND;
};

/** A lane's leaves from one time to another, both included. */
function leaves(lane: number, from = '0:00', to = '60:00'): string {
  const within = evening.leaves.filter((each) => each.atMs >= at(from) && each.atMs <= at(to));
  return within.flatMap((each) => (each.lane === lane ? [reading(each.atMs)] : [])).join(' ');
}

/** The run at a time, with the commands of the script up to then. */
function runAt(time: string): RunState {
  const given = lines.filter(({ atMs }) => atMs <= at(time));
  const state = given.reduce(
    (before, { atMs, fields }) => {
      const command = readCommand(fields);
      if (!command.ok) throw new Error(command.faults);
      return apply(before, command.value, atMs).state;
    },
    openRun(plan, 0),
  );
  return settle(state, at(time));
}

describe('[eventful evening] as a whole', () => {
  test('every command is accepted', () => {
    expect(evening.answers.filter(({ ok }) => !ok)).toEqual([]);
    expect(evening.answers).toHaveLength(lines.length);
  });

  test('the next club has the water on time: done at 58:50, with every swim-down rep away', () => {
    expect([evening.phase, evening.endMs]).toEqual(['done', at('58:50')]);
    expect([1, 2, 3, 4, 5, 6].map((lane) => leaves(lane, '53:00'))).toEqual([
      '53:50 55:05 56:20 57:35',
      '53:50 55:05 56:20 57:35',
      '53:50 55:10 56:30 57:50',
      '53:50 55:20 56:50',
      '53:50 55:20 56:50',
      '53:50 55:20 56:50',
    ]);
  });
});

describe('[eventful evening] the warm-up, the late and the talk', () => {
  test('[R2] two late swimmers leave with their lanes from the next leave after they have come', () => {
    const tails = (time: string) => runAt(time).lanes.map(({ last }) => last?.swimmers);
    expect(tails('5:00')).toEqual([5, 3, 4, 3, 2, 3]);
    expect(tails('7:10')).toEqual([5, 4, 4, 3, 3, 3]);
  });

  test('[Commands] lane 4 stopped before its leave at 5:35 restarts on a round reading, 20 s later, alone', () => {
    // Resumed at 5:43: 5:53 is not round, 5:55 is.
    expect(leaves(4, '0:00', '10:00')).toBe('1:05 3:20 5:55 8:10');
    expect(leaves(3, '0:00', '10:00')).toBe('1:05 3:20 5:35 7:50');
    expect(leaves(6, '0:00', '10:00')).toBe('1:05 3:35 6:05 8:35');
  });

  test('[Commands] the talk takes 10 s more by two shifts, and waits for the word until it is given', () => {
    expect(view(runAt('13:45'), at('13:45')).pauseEnd).toBe(at('13:50'));
    expect([runAt('13:49').phase, runAt('13:50').phase, runAt('14:20').phase]).toEqual(['going', 'waiting', 'waiting']);
    expect(runAt('14:22').t0).toBe(at('14:35'));
    expect(leaves(1, '9:00', '16:00')).toBe('14:35 15:50');
  });

  test('[Commands] lane 4 late again: only its last drill moves, by 15 s, and the part ends with it', () => {
    expect(leaves(4, '14:00', '23:00')).toBe('14:35 16:05 17:35 19:05 20:50');
    // 20:50, its interval of 1:30 and a tail of 20 s.
    expect([runAt('22:39').phase, runAt('22:40').phase]).toEqual(['going', 'waiting']);
  });
});

describe('[eventful evening] the cramp and the mistake', () => {
  test('[Commands] a cramped lane is back in its old times after Rejoin, one rep missed', () => {
    // By plan 14:35 16:05 17:35 19:05 20:35; rejoined at 18:58, when 19:05 was less than 10 s ahead.
    expect(leaves(3, '14:00', '23:00')).toBe('14:35 16:05 17:35 20:35');
    expect(runAt('18:00').marks).toEqual([{ at: at('17:56'), lanes: [3], words: 'cramp' }]);
  });

  test('[Commands] a Move on by mistake, undone, costs no lane anything', () => {
    // For four seconds everyone is in the break, which begins by itself.
    const mistaken = view(runAt('26:40'), at('26:40'));
    expect([mistaken.stretch.kind, mistaken.pauseEnd]).toEqual(['break', at('27:24')]);
    const without = rehearsal(
      plan,
      0,
      lines.filter(({ atMs }) => atMs !== at('26:39') && atMs !== at('26:43')),
    );
    expect(without.leaves).toEqual(evening.leaves);
    expect(leaves(4, '23:00', '29:00')).toBe('23:35 25:45 26:55 28:05');
  });
});

describe('[eventful evening] the fire alarm and the hour', () => {
  const restart = ['35:45', '35:20', '35:40', '35:30', '36:05', '36:40'];

  test('[R1] nobody is sent off during the evacuation', () => {
    expect([1, 2, 3, 4, 5, 6].map((lane) => leaves(lane, '31:00', '35:15'))).toEqual(['', '', '', '', '', '']);
  });

  test('[Commands] every lane restarts at least 10 s after Resume, the first on a round reading, in its place', () => {
    // Lane 2 would have gone first, at 31:15; Resume at 35:06 makes that 35:20, so all move on by 4:05.
    expect([1, 2, 3, 4, 5, 6].map((lane) => leaves(lane, '31:00', '36:50').split(' ')[0])).toEqual(restart);
    const due = ['31:40', '31:15', '31:35', '31:25', '32:00', '32:35'];
    expect(restart.map((time, lane) => at(time) - at(due[lane]!))).toEqual(Array(6).fill(at('4:05')));
    expect(Math.min(...restart.map(at)) - at('35:06')).toBeGreaterThanOrEqual(10 * SECOND);
  });

  test('[Fitting the hour] after the alarm it is 3:15 over; a round less is offered alone and ends 6:30 sooner', () => {
    // Main set from 23:35, 19:30 of lane 6, 4:05 of alarm, tail 10 s: 47:20; break, 8:35, 1:00 and 5:35: 63:15.
    const offer = fit(runAt('35:49'), at('35:49'), HOUR);
    expect([offer.over, offer.serves]).toEqual([at('3:15'), 'each']);
    expect(offer.cuts.find(({ line }) => line === ROUNDS)).toEqual({
      ...{ line: ROUNDS, kind: 'rounds', n: 1, of: 3 },
      ...{ saves: at('6:30'), endsAt: at('56:45'), takesBegun: false },
    });
  });

  test('[Commands] the round that was cut is swum by no lane', () => {
    const rounds = evening.leaves.flatMap(({ rounds: [round] }) => (round ? [round.round] : []));
    expect(Math.max(...rounds)).toBe(2);
    expect([1, 2, 3, 4, 5, 6].map((lane) => leaves(lane, '36:45', '45:00'))).toEqual([
      '37:35',
      '37:20 38:20',
      '37:40 38:40',
      '37:50',
      '37:20 38:35',
      '38:00 39:20',
    ]);
  });

  test('[Commands] a Stop while only tails are in the water holds the break; Resume gives it back its time', () => {
    expect(view(runAt('40:45'), at('40:45'))).toMatchObject({ held: true, followsAt: null });
    expect(view(runAt('40:48'), at('40:48'))).toMatchObject({ held: false, followsAt: at('40:50') });
  });

  test('[R5] the break begins at 40:50 by itself, and held by Stop what follows waits for the word', () => {
    // Lane 6: 39:20, its interval of 1:20 and a tail of 10 s.
    expect(view(runAt('40:51'), at('40:51')).pauseEnd).toBe(at('41:35'));
    expect(runAt('41:36').phase).toBe('waiting');
    expect(leaves(6, '40:00', '46:00')).toBe('45:30');
  });

  test('[Fitting the hour] 0:40 over once more: one 75 less is offered, and ends 1:40 sooner', () => {
    // From 45:30: lane 3 with five 75s on 1:40 and its tail until 54:05; swim-down 55:05 to 60:40.
    const offer = fit(runAt('46:01'), at('46:01'), HOUR);
    expect([offer.over, offer.serves]).toEqual([at('0:40'), 'each']);
    expect(offer.cuts).toEqual([
      { line: LAST_75S, kind: 'reps', n: 1, of: 5, saves: at('1:40'), endsAt: at('59:00'), takesBegun: false },
    ]);
    expect(leaves(3, '45:00', '53:00')).toBe('45:30 47:10 48:50 50:30');
    expect(leaves(6, '45:00', '49:59')).toBe('45:30 47:30 49:30');
  });

  test("[Commands] sprints written in below the 75s that are going leave at each lane's end, and the cut stays", () => {
    // Written at 46:40: lanes 1, 2 and 6 are through with their 75s at 51:30, 4 and 5 at 51:00, lane 3 at 52:10,
    // when Move on has taken its sprint away.
    expect([1, 2, 3, 4, 5, 6].map((lane) => leaves(lane, '50:31', '53:00'))).toEqual([
      ...['51:30', '51:30', '', '51:00', '51:00', '51:30'],
    ]);
    expect(runAt('46:40').cuts.get(LAST_75S)).toBe(1);
    expect(runAt('46:40').plan.source.text).toContain('easy choice');
  });

  test('[Commands] Move on ends the part before its time is up, and the swim-down waits for the word', () => {
    const before = view(runAt('51:43'), at('51:43'));
    const after = view(runAt('51:45'), at('51:45'));
    expect([before.phase, before.stretch.part]).toEqual(['going', 'Main set']);
    expect([after.phase, after.stretch.part]).toEqual(['waiting', 'Swim-down']);
  });
});
