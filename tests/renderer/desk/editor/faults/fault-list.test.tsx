// @vitest-environment happy-dom
/*
 * The faults beside a text: where they are, and the mend of those that have one.
 */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, test, vi } from 'vitest';
import { openPlan } from '../../../../../app/core/plan/open-plan.ts';
import { FaultList } from '../../../../../renderer/desk/editor/faults/fault-list.tsx';
import { offeredMends } from '../../../../../renderer/desk/editor/faults/fault-mends.ts';

afterEach(cleanup);

const TEXT = 'Title\nlane 1\nlane 2\nlane 3\nSet\n4 x 50 @ 1.30\n8/7 x 100 @ 2:00\n4 x 75 rest15\n4 x 50 @ 130\n';

test('[faults] each with a mend has a button that says what it leaves, and makes it; the others have none', () => {
  const opened = openPlan({ text: TEXT, lanesText: null });
  if (opened.ok) throw new Error('the text has no faults');
  const { faults } = opened.faults;
  const onGoTo = vi.fn();
  const onMend = vi.fn();
  const mends = offeredMends(TEXT, faults);
  render(<FaultList id="x" unfinished={null} {...{ faults, mends, onGoTo, onMend }} />);
  const named = screen
    .getAllByRole('button', { name: /^(Mend|Repeat)/ })
    .map((button) => button.getAttribute('aria-label'));
  expect(named).toEqual(['Mend: 1:30, line 6', 'Repeat the last value: 8/7/7, line 7', 'Mend: rest 15, line 8']);
  fireEvent.click(screen.getByRole('button', { name: 'Repeat the last value: 8/7/7, line 7' }));
  expect(onMend.mock.calls).toEqual([[7]]);
  fireEvent.click(screen.getByRole('button', { name: 'line 9' }));
  expect(onGoTo.mock.calls).toEqual([[9, 10]]);
});

test('[faults] a mend is named without the comma behind it', () => {
  const names = (line: string): readonly string[] => {
    const text = `Title\nlane 1\nSet\n${line}\n`;
    const opened = openPlan({ text, lanesText: null });
    return opened.ok ? [] : offeredMends(text, opened.faults.faults).map(({ name }) => name);
  };
  expect(names('2 x 50 odds fast @ 1.40, evens easy @ 2:00')).toEqual(['Mend: 1:40']);
  expect(names('2 x 50 @ 1.40, 1:30')).toEqual(['Mend: 1:40']);
});

test('[faults] of the line that is being written it is only said that it is not finished yet', () => {
  const faults = [6, 8].map((line) => ({ line, column: 1, message: `what is wrong in line ${line}` }));
  const rest = { id: 'x', mends: [], onGoTo: vi.fn(), onMend: vi.fn() };
  const { rerender } = render(<FaultList {...rest} faults={faults} unfinished={8} />);
  screen.getByRole('heading', { name: 'One line cannot be read' });
  expect(screen.queryByText('what is wrong in line 8')).toBeNull();
  screen.getByText('Line 8 is not finished yet.');
  rerender(<FaultList {...rest} faults={[faults[1]!]} unfinished={8} />);
  expect(screen.getAllByRole('heading').map(({ textContent }) => textContent)).toEqual(['Line 8 is not finished yet']);
});

test('[faults] of Lanes for every session it is said that the lines are its own', () => {
  const faults = [1, 2].map((line) => ({ line, column: 1, message: `what is wrong in line ${line}` }));
  const rest = { id: 'x', mends: [], inLanes: true, onGoTo: vi.fn(), onMend: vi.fn() };
  const { rerender } = render(<FaultList {...rest} faults={faults} unfinished={null} />);
  screen.getByRole('heading', { name: '2 faults in Lanes for every session' });
  rerender(<FaultList {...rest} faults={faults} unfinished={1} />);
  screen.getByRole('heading', { name: 'One line in Lanes for every session cannot be read' });
  screen.getByText('Line 1 in Lanes for every session is not finished yet.');
});

test('[faults] a list of another length than the lanes says what is done with its values, which is no sure mend', () => {
  const lines = ['8/7/6 x 50 @ 1:00', '8/7/6/5 x 50 @ 1:00', '8/7 x 50 @ 1:00'];
  const faults = lines.map((_, index) => ({
    line: index + 1,
    column: 1,
    message: `a list of ${[3, 4, 2][index]} for ${[2, 2, 3][index]} lanes: one value each`,
  }));
  expect(offeredMends(lines.join('\n'), faults).map(({ name }) => name)).toEqual([
    'Leave out the last: 8/7',
    'Leave out the last 2: 8/7',
    'Repeat the last value: 8/7/7',
  ]);
});
