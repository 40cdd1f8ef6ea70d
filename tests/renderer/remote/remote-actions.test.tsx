// @vitest-environment happy-dom
/*
 * Which lanes the remote's buttons are for, and what they say.
 */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import type { RunState } from '../../../app/core/run/state.ts';
import type { RunMoment } from '../../../renderer/ui/coach/frames.ts';
import { Remote } from '../../../renderer/remote/remote.tsx';
import { RemoteActions } from '../../../renderer/remote/remote-actions.tsx';
import { runOf } from '../../support/coach/coach-run.ts';
import { CoachWindow } from '../../support/coach/coach-window.ts';
import { coachTable, type CoachTable } from '../../support/coach/coach-table.ts';
import { tap } from '../../support/coach/finger.ts';

/** T0 at 10 s: both lanes leave at 10 s and every minute. */
const SET = 'lane 1\nlane 2\nSet\n4 x 50 fast @ 1:00';

afterEach(cleanup);

function remote(state: RunState, t: number, lane: number | null): CoachTable {
  const table = coachTable(state);
  render(<RemoteActions tools={table.tools} moment={table.at(t)} lane={lane} />);
  return table;
}

const press = (name: string): boolean => fireEvent.click(screen.getByRole('button', { name }));

test('a lane counts down with the head, not once a second of its own', () => {
  const table = coachTable(runOf('start on 10\nlane 1\nlane 2\nSet\n4 x 50 fast @ 1:00.5', [0, { do: 'start' }]));
  // The page was drawn last at 23.0 s, and it is 23.6 s: the leave is at 70.5 s.
  const shown = table.at(23_000);
  table.at(23_600);
  const frames = { ...table.tools.frames, shown: () => shown };
  const { container } = render(<Remote tools={{ ...table.tools, frames }} />);
  press('Lane 2');
  expect(container.querySelector('header')?.textContent).toMatch(/in 47 s$/);
  expect(screen.getByRole('button', { name: 'Lane 2' }).textContent).toMatch(/in 47 s$/);
});

test('in a break each lane has the time that is left of it', () => {
  const table = coachTable(runOf('lane 1\nlane 2\nSet\nbreak 2:00 drink\n4 x 50 fast @ 1:00', [0, { do: 'start' }]));
  const shown = table.at(30_000);
  const frames = { ...table.tools.frames, shown: () => shown };
  render(<Remote tools={{ ...table.tools, frames }} />);
  expect(screen.getByRole('button', { name: 'Lane 2' }).textContent).toBe('21:30 left');
});

test('the end closes More, so that the lanes are in sight again; the times keep their room', () => {
  const coach = new CoachWindow(SET);
  render(<Remote tools={coach.tools} />);
  const hidesLanes = (): boolean => /isMore/.test(screen.getByRole('main').className);
  press('More');
  expect(hidesLanes()).toBe(true);
  coach.other({ do: 'finish' });
  expect(hidesLanes()).toBe(false);
  press('Times');
  expect(hidesLanes()).toBe(true);
  press('Back');
  expect(hidesLanes()).toBe(false);
});

test('Stop is for all lanes, also while it looks after one; that one has its own beside it', () => {
  const { sent } = remote(runOf(SET, [0, { do: 'start' }]), 20_000, 2);
  press('Stop');
  press('Stop lane 2');
  press('Skip rep');
  expect(sent).toEqual([{ do: 'stop' }, { do: 'stop', lanes: [2] }, { do: 'skip', lanes: [2] }]);
});

test('a stopped lane offers Resume and Rejoin, each with the reading at which it would go', () => {
  remote(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'stop', lanes: [2] }]), 75_000, 2);
  // Stopped past its leave at 1:00: resumed on the next round reading, 85 s or 1:15; rejoined at 2:00.
  expect(screen.getByRole('button', { name: 'Resume lane 2' }).textContent).toBe('Resume lane 2goes 1:15');
  expect(screen.getByRole('button', { name: 'Rejoin lane 2' }).textContent).toBe('Rejoin lane 2goes 2:00');
  expect(screen.getByRole('button', { name: 'Stop' })).toBeTruthy();
});

test('a second press 0.5 s after Stop does nothing to Resume, which took its place, and says so', () => {
  const { sent, said, at } = remote(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'stop' }]), 20_500, null);
  press('Resume');
  expect([sent, said()]).toEqual([[], expect.stringMatching(/^Stopped\. .*Undo takes the Stop back at once/)]);
  at(21_000);
  press('Resume');
  expect(sent).toEqual([{ do: 'resume' }]);
});

test('each of its actions says for whom it is: the lane looked after, or all', () => {
  const state = runOf(SET, [0, { do: 'start' }]);
  const hint = (name: string): string => screen.getByRole('button', { name }).textContent;
  remote(state, 20_000, 2);
  expect([hint('Skip rep'), hint('Sit out'), hint('+5 s')]).toEqual([
    'Skip replane 2: the set gets shorter',
    'Sit outlane 2: times stay',
    '+5 slane 2 later',
  ]);
  press('More');
  expect([hint('Repeat'), hint('Mark')]).toEqual(['Repeatlane 2: the last rep again', 'Marklane 2: for the record']);
  cleanup();
  remote(state, 20_000, null);
  expect(hint('Skip rep')).toBe('Skip repall lanes: the set gets shorter');
});

test('Undo says what it takes back and counts down; with nothing to undo it is not offered', () => {
  const table = remote(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'skip', lanes: [2] }]), 23_500, null);
  const undo = (): readonly (string | null)[] => {
    const button = screen.getByRole('button', { name: 'Undo' });
    return [button.textContent, button.getAttribute('aria-disabled')];
  };
  expect(undo()).toEqual(['UndoSkip rep lane 2, 7 s left', null]);
  cleanup();
  render(<RemoteActions tools={table.tools} moment={table.at(31_000)} lane={null} />);
  expect(undo()).toEqual(['Undonothing to undo', 'true']);
});

test('with another session it is for all lanes again, and shows the few actions', () => {
  const first = coachTable(runOf(SET, [0, { do: 'start' }]));
  const moment = first.at(20_000);
  const shown = (id: string) => {
    const frames = { ...first.tools.frames, shown: () => moments[id]! };
    return <Remote tools={{ ...first.tools, frames }} />;
  };
  const moments: { readonly [id: string]: RunMoment } = {
    one: { ...moment, run: { ...moment.run, id: 'one' } },
    two: { ...moment, run: { ...moment.run, id: 'two' } },
  };
  localStorage.clear();
  const { rerender } = render(shown('one'));
  press('Lane 2');
  press('More');
  rerender(shown('two'));
  expect(screen.getByText('All lanes')).toBeTruthy();
  expect(screen.getByRole('button', { name: 'Skip rep' })).toBeTruthy();
  // Loaded again in the same run it still looks after its lane.
  press('Lane 1');
  cleanup();
  render(shown('two'));
  expect(screen.getByRole('button', { name: 'Lane 1' }).getAttribute('aria-pressed')).toBe('true');
});

test('the rest is behind one more tap, and what ends something is held there too', () => {
  const { said, sent } = remote(runOf(SET, [0, { do: 'start' }]), 20_000, null);
  expect(screen.queryByRole('button', { name: 'Move on' })).toBeNull();
  press('More');
  tap(screen.getByRole('button', { name: 'Move on' }));
  expect([said(), sent]).toEqual(['Hold Move on for 0.6 s.', []]);
  press('Back');
  expect(screen.getByRole('button', { name: 'Skip rep' })).toBeTruthy();
});

test('after Finish no lane has an action any more, and Undo takes it back', () => {
  const { sent } = remote(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'finish' }]), 23_000, 2);
  expect(screen.queryByRole('button', { name: /Skip rep|Sit out|\+5 s/ })).toBeNull();
  expect(screen.getByRole('button', { name: 'Undo' }).textContent).toBe('UndoFinish, 7 s left');
  press('Undo');
  expect(sent).toEqual([{ do: 'undo' }]);
});

test('once Undo can take the end back no longer, it goes: a mark and the last touches are what is left', () => {
  const { sent } = remote(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'finish' }]), 40_000, null);
  const names = (): (string | null)[] => screen.getAllByRole('button').map((each) => each.getAttribute('aria-label'));
  expect(names()).toEqual(['Mark', 'Times']);
  press('Mark');
  expect(sent).toEqual([{ do: 'mark' }]);
  press('Times');
  expect(screen.getByRole('button', { name: 'Touch lane 2' })).toBeTruthy();
  press('Back');
  expect(names()).toEqual(['Mark', 'Times']);
});

test('Start says what it starts and when: a set on the next round reading, a break at once', () => {
  const start = (): string => screen.getByRole('button', { name: 'Start' }).textContent;
  const session = `start on 10\n${SET.replace('Set', 'Set\nbreak 2:00 drink')}\nbreak 1:00 drink\nSwim-down\n100 easy @ 2:00`;
  const state = runOf(session, [0, { do: 'move-on' }]);
  // 10 s of warning, then the next reading that ends in 0.
  remote(state, 23_500, null);
  expect(start()).toBe('Startall lanes, in 17 s: 4 x 50 fast');
  cleanup();
  remote(runOf(session), 23_500, null);
  expect(start()).toBe('Startall lanes, at once: break 2:00 drink');
  cleanup();
  // In a break that the coach ends: what comes after it.
  remote(
    runOf(session.replace('break 2:00 drink\n4', 'break 2:00 drink\nSprint\n4'), [0, { do: 'start' }]),
    30_000,
    null,
  );
  expect(start()).toBe('Startall lanes, in 10 s: 4 x 50 fast');
});

test('a lane that is stopped shows the set it stopped in; all stopped lanes of the same set are said as one', () => {
  const what = (): string | null => document.querySelector('header p:nth-of-type(2), header > p')?.textContent ?? null;
  const shown = (state: RunState, lane: string | null): void => {
    const table = coachTable(state);
    const moment = table.at(75_000);
    render(<Remote tools={{ ...table.tools, frames: { ...table.tools.frames, shown: () => moment } }} />);
    if (lane !== null) press(lane);
  };
  localStorage.clear();
  shown(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'stop', lanes: [2] }]), 'Lane 2');
  expect(what()).toBe('50 fast, 2 of 4');
  cleanup();
  localStorage.clear();
  shown(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'stop' }]), null);
  expect(what()).toBe('50 fast, 2 of 4');
  cleanup();
  localStorage.clear();
  shown(
    runOf(SET, [0, { do: 'start' }], [20_000, { do: 'stop', lanes: [2] }], [72_000, { do: 'stop', lanes: [1] }]),
    null,
  );
  expect(what()).toBe('lane 1: 50 fast, 3 of 4');
});

test('[times] touches are behind More, cost no command, and Stop stays below', () => {
  const table = remote(runOf(SET, [0, { do: 'start' }]), 48_000, null);
  press('More');
  press('Times');
  const button = screen.getByRole('button', { name: 'Touch lane 2' });
  fireEvent.pointerDown(button);
  table.at(50_000);
  fireEvent.click(button);
  // From when the finger came down.
  expect(button.textContent).toContain('0:38.0');
  expect(table.tools.touches.state().times).toEqual([{ lane: 2, at: 10_000, watches: [38_000] }]);
  expect(table.sent).toEqual([]);
  press('Stop');
  expect(table.sent).toEqual([{ do: 'stop' }]);
  expect(screen.getByRole('button', { name: 'Touch lane 1' })).toBeTruthy();
  press('Back');
  press('Back');
  expect(screen.getByRole('button', { name: 'Skip rep' })).toBeTruthy();
});

test('what a remote may not do is not offered: neither Finish nor Restart, nor any writing', () => {
  remote(runOf(SET, [0, { do: 'start' }]), 20_000, null);
  press('More');
  const names = screen.getAllByRole('button').map((each) => each.getAttribute('aria-label'));
  expect(names).toEqual(['Repeat', '−5 s', '−5 s a rep', '+5 s a rep', 'Mark', 'Move on', 'Times', 'Back', 'Stop']);
});

test('where only Finish is left, the remote says who finishes', () => {
  remote(runOf('start on 10\nlane 1\nSet\n4 x 50 easy', [0, { do: 'start' }]), 20_000, null);
  expect(screen.queryByRole('button', { name: 'Finish' })).toBeNull();
  expect(screen.getByText('Finish in the coach’s window.')).toBeTruthy();
});

test('−5 s and +5 s a rep touch the lane that is looked after', () => {
  const { sent } = remote(runOf(SET, [0, { do: 'start' }]), 20_000, 2);
  press('More');
  press('+5 s a rep');
  expect(sent).toEqual([{ do: 'interval', seconds: 5, lanes: [2] }]);
});

test('a remote of the network undoes what it has done itself, and says where the rest is undone', () => {
  const table = coachTable(runOf(SET, [0, { do: 'start' }], [20_000, { do: 'skip', lanes: [2] }]));
  const own = { ...table.tools, undoesOwnOnly: true };
  const { rerender } = render(<RemoteActions tools={own} moment={table.at(23_500)} lane={null} />);
  press('Undo');
  expect([table.sent, table.said()]).toEqual([
    [],
    'That was done on another screen: undo it there, or in the coach’s window.',
  ]);
  const actions = { ...table.tools.actions, gave: (at: number) => at === 20_000 };
  rerender(<RemoteActions tools={{ ...own, actions }} moment={table.at(24_000)} lane={null} />);
  press('Undo');
  expect(table.sent).toEqual([{ do: 'undo' }]);
});
