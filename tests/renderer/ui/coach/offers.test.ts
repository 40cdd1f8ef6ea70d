/*
 * The primary action, what is offered, and choices of lanes.
 */

import { describe, expect, test } from 'vitest';
import { settle } from '../../../../app/core/run/settle.ts';
import { view } from '../../../../app/core/run/view.ts';
import { commandOf } from '../../../../renderer/ui/coach/actions.ts';
import { createBounceGuard } from '../../../../renderer/ui/coach/bounce.ts';
import { chosenAt, NO_CHOICE, toggleLane } from '../../../../renderer/ui/coach/lane-choice.ts';
import { canHoldBreak, primaryOf, refusalOf, stopOrResume } from '../../../../renderer/ui/coach/offers.ts';
import { afterCommands, runOf } from '../../../support/coach-run.ts';

const SET = 'lane 1\nlane 2\nSet\n2 x 50 @ 1:00/1:10\nbreak 0:30\n2 x 25 @ 0:40';
const going = runOf(SET, [0, { do: 'start' }]);

describe('the one primary action', () => {
  test('waiting: Start; going: Stop; all that is left stopped: Resume', () => {
    expect(primaryOf({ state: runOf(SET) }, [])).toBe('start');
    expect(primaryOf({ state: going }, [])).toBe('stop');
    expect(primaryOf({ state: afterCommands(going, [20_000, { do: 'stop' }]) }, [])).toBe('resume');
  });

  test('one lane stopped: Stop for the others, Resume for that lane where it is chosen', () => {
    const state = afterCommands(going, [20_000, { do: 'stop', lanes: [2] }]);
    expect(primaryOf({ state }, [])).toBe('stop');
    expect(primaryOf({ state }, [2])).toBe('resume');
    expect(stopOrResume({ state }, [1])).toBe('stop');
  });

  test('in a break and after the last leave of a stretch: Start, which the run then takes', () => {
    const inBreak = afterCommands(going, [20_000, { do: 'move-on' }]);
    expect(primaryOf({ state: inBreak }, [])).toBe('start');
    expect(refusalOf(inBreak, { do: 'start' }, 24_000)).toBeNull();
    const through = settle(going, 85_000);
    expect(primaryOf({ state: through }, [])).toBe('start');
    expect(refusalOf(through, { do: 'start' }, 85_000)).toBeNull();
  });

  test('where nothing follows and nobody is to leave: Finish, which the run then takes', () => {
    const last = runOf('Set\n2 x 50 @ 1:00\n200 easy', [0, { do: 'start' }]);
    expect(primaryOf({ state: settle(last, 129_000) }, [])).toBe('stop');
    // T0 at 10 s: the 200 leaves at 130 s, and ends on the coach's word.
    const through = settle(last, 130_000);
    expect(primaryOf({ state: through }, [])).toBe('finish');
    expect(refusalOf(through, { do: 'start' }, 135_000)).not.toBeNull();
    expect(refusalOf(through, { do: 'finish' }, 135_000)).toBeNull();
    expect(stopOrResume({ state: through }, [])).toBe('stop');
  });

  test('the blank-screen key never starts: where Start is the primary it means Stop', () => {
    expect(stopOrResume({ state: runOf(SET) }, [])).toBe('stop');
    expect(refusalOf(runOf(SET), { do: 'stop' }, 0)).toMatch(/nothing is going/);
  });

  test('a break that goes on by itself can be held, once', () => {
    const inBreak = afterCommands(going, [20_000, { do: 'move-on' }]);
    expect(canHoldBreak(view(inBreak, 21_000))).toBe(true);
    const held = afterCommands(inBreak, [22_000, { do: 'stop' }]);
    expect(canHoldBreak(view(held, 23_000))).toBe(false);
    expect(canHoldBreak(view(going, 21_000))).toBe(false);
  });
});

describe('what is offered', () => {
  test('is what the run would take; the rest says why in its own sentence', () => {
    expect(refusalOf(going, commandOf('skip', [2]), 20_000)).toBeNull();
    expect(refusalOf(going, commandOf('resume', [2]), 20_000)).toBe('Lane 2 is stopped.');
    expect(refusalOf(going, commandOf('undo', []), 20_000)).toMatch(/more than 10 s/);
  });

  test('a field out of range is not offered', () => {
    expect(refusalOf(going, { do: 'swimmers', lanes: [1], n: 0 }, 20_000)).toMatch(/n from 1 to 20/);
    expect(refusalOf(going, { do: 'swimmers', lanes: [1], n: 1 }, 20_000)).toBeNull();
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
