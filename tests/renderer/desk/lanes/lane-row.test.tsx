// @vitest-environment happy-dom
/*
 * A lane's row: what its buttons are called and say, and the head above it.
 */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import type { RunState } from '../../../../app/core/run/state.ts';
import type { DeskTools } from '../../../../renderer/desk/desk-tools.ts';
import { LanePanel } from '../../../../renderer/desk/lanes/lane-panel.tsx';
import { LaneRow } from '../../../../renderer/desk/lanes/lane-row.tsx';
import { MarkPanel } from '../../../../renderer/desk/actions/mark-panel.tsx';
import { RunHead } from '../../../../renderer/desk/run/run-head.tsx';
import { runOf } from '../../../support/coach/coach-run.ts';
import { coachTable, type CoachTable } from '../../../support/coach/coach-table.ts';

/** T0 at 10 s: both lanes leave at 10 s and every minute; the break comes at 250 s, 4:00 of the clock. */
const SET = 'lane 1\nlane 2\nSet\n4 x 50 fast @ 1:00\nbreak 0:30 drink\n2 x 25 @ 0:40';

afterEach(cleanup);

function row(state: RunState, t: number, index: number): CoachTable {
  const table = coachTable(state);
  const moment = table.at(t);
  const lane = moment.view.lanes[index]!;
  const nothing = (): void => undefined;
  const { tools } = table;
  render(
    <LaneRow {...{ moment, lane }} tools={tools as DeskTools} chosen={false} open={false} keyed onMore={nothing} />,
  );
  return table;
}

const names = (): (string | null)[] => screen.getAllByRole('button').map((each) => each.getAttribute('aria-label'));

test('its buttons are named by what they do and the lane', () => {
  const { sent } = row(runOf(SET, [0, { do: 'start' }]), 20_000, 1);
  expect(names()).toEqual(['Lane 2', 'Stop lane 2', 'Sit out lane 2', '−5 s lane 2', '+5 s lane 2', 'Lane 2…']);
  fireEvent.click(screen.getByRole('button', { name: 'Stop lane 2' }));
  expect(sent).toEqual([{ do: 'stop', lanes: [2] }]);
});

test('stopped, it offers Resume and Rejoin with the reading at which each would go', () => {
  row(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'stop', lanes: [2] }]), 75_000, 1);
  expect(screen.getByRole('button', { name: 'Resume lane 2' }).textContent).toBe('Resumegoes 1:15');
  expect(screen.getByRole('button', { name: 'Rejoin lane 2' }).textContent).toBe('Rejoingoes 2:00');
});

test('[sit-out] a lane that leaves for nothing here sits out, with nothing to come, whatever it swam before', () => {
  const text = 'lane 1\nlane 2\nSet\n4 x 50 fast @ 1:00\nEnd\n200 easy';
  const sat = runOf(
    text,
    [0, { do: 'start' }],
    [20_000, { do: 'move-on' }],
    [30_000, { do: 'start' }],
    [31_000, { do: 'sit-out', lanes: [2] }],
  );
  row(sat, 45_000, 1);
  const shown = screen.getByRole('region', { name: 'Lane 2' }).textContent;
  expect(shown).toContain('sits out');
  expect(shown).toContain('nothing to come');
});

test('[R5] reps are counted as they now are: 2 of 3 after one of 4 was cut', () => {
  row(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'cut', line: 4, n: 1 }]), 21_000, 0);
  expect(screen.getByRole('region', { name: 'Lane 1' }).textContent).toContain('50 fast, 2 of 3, in 49 s');
});

test('[R5] before a break that begins by itself the head says when', () => {
  const { tools, at } = coachTable(runOf(SET, [0, { do: 'start' }]));
  render(<RunHead tools={tools as DeskTools} moment={at(200_000)} />);
  expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('Set, break at 4:00');
});

test.each([
  ['08:00', true],
  ['03:00', false],
])(
  '[one hour] a finish at %s, hours off, has the look of a warning and its sign; one that may be meant has not',
  (finish, isWrong) => {
    const { tools, at } = coachTable(runOf(`finish ${finish}\n${SET}`));
    render(<RunHead tools={tools as DeskTools} moment={at(0)} />);
    const hour = screen.getByText(isWrong ? /away: check it$/ : /in hand$/);
    expect(hour.textContent?.startsWith('⚠ ')).toBe(isWrong);
    expect(hour.closest('[data-over]') !== null).toBe(isWrong);
  },
);

test('in the countdown the head says that it starts, and with all lanes stopped that they are', () => {
  const clock = (state: RunState): string => {
    const table = coachTable(state);
    const moment = table.at(5_000);
    const frames = { ...table.tools.frames, latest: () => moment };
    render(<RunHead tools={{ ...table.tools, frames } as DeskTools} moment={moment} />);
    const text = screen.getByRole('timer').parentElement!.textContent;
    cleanup();
    return text;
  };
  expect(clock(runOf(SET, [0, { do: 'start' }]))).toMatch(/^starts in/);
  expect(clock(runOf(SET, [0, { do: 'start' }], [4_000, { do: 'stop' }]))).toMatch(/^stopped/);
  expect(clock(runOf(SET, [0, { do: 'start' }], [4_000, { do: 'shift', seconds: 5 }]))).toMatch(/^clock starts in/);
});

test('a mark for all lanes says so where it is written', () => {
  const { tools, at } = coachTable(runOf(SET, [0, { do: 'start' }]));
  render(<MarkPanel tools={tools as DeskTools} moment={at(20_000)} lanes={[]} onClose={() => undefined} />);
  screen.getByRole('heading', { name: 'Mark, all lanes' });
});

test('[rejoin] where nothing is left of the old times it is not offered, and says why when asked', () => {
  const { sent, said } = row(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'stop', lanes: [2] }]), 185_000, 1);
  const rejoin = screen.getByRole('button', { name: 'Rejoin lane 2' });
  expect([rejoin.textContent, rejoin.getAttribute('aria-disabled')]).toEqual(['Rejoinnothing left', 'true']);
  fireEvent.click(rejoin);
  expect([sent, said()]).toEqual([[], 'Nothing is left of the old times: use Resume.']);
});

test('its panel says how many swimmers there are, so that the count and the gap cannot be read as one figure', () => {
  const { tools, at } = coachTable(runOf(SET.replace('lane 1', 'lane 1, 7 swimmers'), [0, { do: 'start' }]));
  const nothing = (): void => undefined;
  render(<LanePanel tools={tools as DeskTools} moment={at(20_000)} number={1} onMark={nothing} onClose={nothing} />);
  screen.getByText('7 swimmers, 5 s apart, from the next leave on');
});

test('[R5] a break in which Stop was pressed says that it waits for Resume', () => {
  const table = coachTable(runOf(SET, [0, { do: 'start' }], [255_000, { do: 'stop' }]));
  const moment = table.at(260_000);
  const frames = {
    ...table.tools.frames,
    draw: (each: (at: typeof moment) => void) => (each(moment), () => undefined),
  };
  render(<RunHead tools={{ ...table.tools, frames } as DeskTools} moment={moment} />);
  expect(screen.getByRole('heading', { level: 1 }).textContent).toMatch(/left, then waits for Resume$/);
});
