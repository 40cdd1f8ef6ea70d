/*
 * What is offered, choices of lanes, and bounces.
 */

import { describe, expect, test } from 'vitest';
import { commandOf } from '../../../../../renderer/ui/coach/commands/action-list.ts';
import { createBounceGuard } from '../../../../../renderer/ui/coach/commands/bounce.ts';
import { chosenAt, NO_CHOICE, toggleLane } from '../../../../../renderer/ui/coach/commands/lane-choice.ts';
import { undoText } from '../../../../../renderer/ui/coach/commands/offers.ts';
import { refusalOf, type Refusal } from '../../../../../renderer/ui/coach/commands/refusal.ts';
import type { Command } from '../../../../../app/core/run/command/command.ts';
import type { RunState } from '../../../../../app/core/run/state.ts';
import { view } from '../../../../../app/core/run/view.ts';
import { afterCommands, runOf } from '../../../../support/coach/coach-run.ts';

const SET = 'lane 1\nlane 2\nSet\n2 x 50 @ 1:00/1:10\nbreak 0:30\n2 x 25 @ 0:40';
const going = runOf(SET, [0, { do: 'start' }]);

const refusalAt = (state: RunState, command: Command, t: number): Refusal => refusalOf(view(state, t), command);

describe('what is offered', () => {
  test('is what the run would take; the rest says why in its own sentence', () => {
    expect(refusalAt(going, commandOf('skip', [2]), 20_000)).toBeNull();
    expect(refusalAt(going, commandOf('resume', [2]), 20_000)).toBe('Lane 2 is not stopped.');
    expect(refusalAt(going, commandOf('undo', []), 20_000)).toMatch(/more than 10 s/);
  });

  test('a field out of range is not offered', () => {
    expect(refusalAt(going, { do: 'swimmers', lanes: [1], n: 0 }, 20_000)).toMatch(/n from 1 to 20/);
    expect(refusalAt(going, { do: 'swimmers', lanes: [1], n: 1 }, 20_000)).toBeNull();
  });
});

describe('what Undo takes back', () => {
  test('is said with its time left, and that it is too late, whoever has left', () => {
    const later = afterCommands(going, [69_000, { do: 'shift', seconds: 5 }]);
    const textAt = (t: number): string => undoText(view(later, t), refusalAt(later, { do: 'undo' }, t));
    expect(textAt(69_500)).toBe('+5 s, 10 s left');
    expect(textAt(71_000)).toBe('too late to undo');
    expect(textAt(80_000)).toBe('nothing to undo');
  });

  test('names the lanes of a command that was not for all', () => {
    const textOf = (lanes: number[] | undefined): string =>
      undoText(view(afterCommands(going, [20_000, { do: 'stop', ...(lanes ? { lanes } : {}) }]), 21_000), null);
    expect([textOf([2]), textOf(undefined)]).toEqual(['Stop lane 2, 9 s left', 'Stop, 9 s left']);
  });
});

describe('just after a Stop', () => {
  const stop = (...lanes: number[]) => afterCommands(going, [20_000, { do: 'stop', ...(lanes[0] ? { lanes } : {}) }]);

  test('Resume and Rejoin are refused for a second, and say what to do', () => {
    for (const name of ['resume', 'rejoin'] as const) {
      expect(refusalAt(stop(), commandOf(name, []), 20_500)).toMatch(/^Stopped\. .* works 1 s after a Stop; Undo/);
      expect(refusalAt(stop(2), commandOf(name, [2]), 20_999)).toMatch(/^Stopped\. /);
      expect(refusalAt(stop(), commandOf(name, []), 21_000)).toBeNull();
    }
    const held = runOf(SET, [0, { do: 'start' }], [155_000, { do: 'stop' }]);
    expect(refusalAt(held, commandOf('resume', []), 155_900)).toMatch(/^Stopped\. /);
    expect(refusalAt(held, commandOf('resume', []), 156_000)).toBeNull();
  });

  test('Undo, another Stop, and Resume of a lane that was stopped earlier are accepted at once', () => {
    const both = afterCommands(stop(2), [25_000, { do: 'stop' }]);
    expect(refusalAt(both, commandOf('undo', []), 25_001)).toBeNull();
    expect(refusalAt(both, commandOf('resume', [2]), 25_001)).toBeNull();
    expect(refusalAt(stop(2), commandOf('stop', []), 20_001)).toBeNull();
  });
});

describe('a Rejoin', () => {
  test('that would leave nothing is not offered; one that leaves some lane something is', () => {
    // The last leaves are at 70 and 80 s: within 10 s of one it is missed.
    const stopped = afterCommands(going, [20_000, { do: 'stop' }]);
    expect(refusalAt(stopped, commandOf('rejoin', []), 65_000)).toBeNull();
    expect(refusalAt(stopped, commandOf('rejoin', [1]), 65_000)).toBe('Nothing is left of the old times: use Resume.');
    expect(refusalAt(stopped, commandOf('rejoin', []), 75_000)).toBe('Nothing is left of the old times: use Resume.');
    expect(refusalAt(stopped, commandOf('resume', []), 75_000)).toBeNull();
  });
});

describe('a choice of lanes', () => {
  test('gathers lanes in order, gives one back when tapped again', () => {
    const both = toggleLane(toggleLane(NO_CHOICE, 4, 0), 2, 1_000);
    expect(chosenAt(both, 1_000)).toEqual([2, 4]);
    expect(chosenAt(toggleLane(both, 4, 2_000), 2_000)).toEqual([2]);
    expect(toggleLane(toggleLane(NO_CHOICE, 4, 0), 4, 1)).toEqual(NO_CHOICE);
  });

  test('holds for 5 s from the last lane tapped, then means all lanes again', () => {
    const one = toggleLane(NO_CHOICE, 4, 10_000);
    expect(chosenAt(one, 14_999)).toEqual([4]);
    expect(chosenAt(one, 15_000)).toEqual([]);
    const later = toggleLane(one, 2, 14_000);
    expect(chosenAt(later, 18_999)).toEqual([2, 4]);
  });

  test('that has run out is not gathered into the next', () => {
    expect(chosenAt(toggleLane(toggleLane(NO_CHOICE, 4, 0), 2, 6_000), 6_000)).toEqual([2]);
  });

  test('goes into the command by name; none goes in as none', () => {
    expect(commandOf('stop', [2, 4])).toEqual({ do: 'stop', lanes: [2, 4] });
    expect(commandOf('stop', [])).toEqual({ do: 'stop' });
    expect(commandOf('later', [2])).toEqual({ do: 'shift', lanes: [2], seconds: 5 });
    expect(commandOf('start', [2])).toEqual({ do: 'start' });
  });
});

describe('a bounce', () => {
  test('within 300 ms the same press is one, another is its own', () => {
    const guard = createBounceGuard();
    expect(guard.accept('skip', 0)).toBe(true);
    expect(guard.accept('skip', 299)).toBe(false);
    expect(guard.accept('stop', 299)).toBe(true);
    expect(guard.accept('skip', 300)).toBe(true);
  });
});
