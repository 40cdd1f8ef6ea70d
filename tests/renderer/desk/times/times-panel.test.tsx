// @vitest-environment happy-dom
/*
 * Touches tapped during a run, on the real records with their disk in memory.
 */

import { act, cleanup, fireEvent, render, screen, waitFor } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import { TimesPanel } from '../../../../renderer/desk/times/times-panel.tsx';
import { useMoment } from '../../../../renderer/ui/coach/use-deck.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { SQUAD_TEXT, SwumRuns } from '../../../support/host/folders/swum-runs.ts';

afterEach(cleanup);

function open(swum: SwumRuns): CoachWindow {
  swum.write('run-1', {}, []);
  const waits: (() => void)[] = [];
  const coach = new CoachWindow(SQUAD_TEXT, undefined, undefined, { waits });
  coach.take = async ({ run, ...touch }) => {
    const kept = await swum.records.touch(run, touch);
    if (kept.ok) coach.toldTimes(kept.times);
    act(() => void setImmediate(() => act(() => waits.splice(0).forEach((call) => call()))));
    return { ok: kept.ok, at: null, why: kept.ok ? null : kept.why };
  };
  coach.other({ do: 'start' });
  const Shown = () => (
    <TimesPanel tools={coach.tools} moment={useMoment(coach.tools.frames)!} onClose={() => undefined} />
  );
  render(<Shown />);
  return coach;
}

const touch = (lane: number): void => {
  const button = screen.getByRole('button', { name: `Touch lane ${lane}` });
  fireEvent.pointerDown(button);
  fireEvent.pointerUp(button);
  fireEvent.click(button);
};

const on = (lane: number): string | null => screen.getByRole('button', { name: `Touch lane ${lane}` }).textContent;

const takeBack = (): HTMLElement => screen.getByRole('button', { name: 'Take back' });

test('[times] a touch gives the rep that left last its time and distance from the target, and is kept beside the run', async () => {
  const swum = new SwumRuns();
  const coach = open(swum);
  const journal = swum.text('/data/runs/run-1.jsonl');
  // T0 at 10 s.
  coach.at(47.84);
  touch(1);
  coach.at(50.5);
  touch(2);
  expect(on(1)).toBe('Lane 1 1 of 40:37.8 2.2 s under');
  expect(on(2)).toBe('Lane 2 1 of 40:40.5 0.5 s over');
  // Lane 1 comes in after its next leave: that was still the second rep, and its button says so before the touch.
  coach.at(133);
  expect(on(1)).toBe('Lane 1 2 of 450 fast, rep 1: 0:37.8');
  touch(1);
  expect(on(1)).toBe('Lane 1 2 of 41:03.0 23.0 s over');
  expect(takeBack().textContent).toBe('Take backlane 1, 50 fast, rep 2: 1:03.0');
  fireEvent.click(takeBack());
  expect(on(1)).toBe('Lane 1 2 of 450 fast, rep 1: 0:37.8');
  // What came in last is what is taken back next.
  expect(takeBack().textContent).toBe('Take backlane 2, 50 fast, rep 1: 0:40.5');
  screen.getByText('Lane 1: time of 50 fast, 2 of 4, taken back.');
  await waitFor(() => {
    expect(JSON.parse(swum.text('/data/runs/run-1.after.json') ?? '{}')).toMatchObject({
      times: [
        { lane: 1, at: 10_000, watches: [37_840] },
        { lane: 2, at: 10_000, watches: [40_500] },
      ],
    });
  });
  expect(swum.text('/data/runs/run-1.jsonl')).toBe(journal);
  expect(coach.given).toEqual([]);
});

test('[times] a button says which rep of which set a touch ends, and shows no time of a set before', () => {
  const coach = open(new SwumRuns());
  expect(on(1)).toBe('Lane 1 not leftMain set: 50 fast');
  coach.at(11);
  expect(on(1)).toBe('Lane 1 1 of 450 fast');
  coach.at(48);
  touch(1);
  coach.at(260);
  expect(on(1)).toBe('Lane 1 4 of 450 fast, rep 1: 0:38.0');
  coach.other({ do: 'start' });
  // Counted down: nothing of the part before is read any more, and no touch goes there.
  coach.at(265);
  expect(on(1)).toBe('Lane 1 not leftSwim-down: 100 easy');
  touch(1);
  screen.getByText('Lane 1: nobody has left in Swim-down yet.');
  coach.at(300);
  expect(on(1)).toBe('Lane 1 1 of 1100 easy');
  // What came in last, wherever it was swum.
  expect(takeBack().textContent).toBe('Take backlane 1, 50 fast, rep 1: 0:38.0');
});

test('[times] a touch that cannot be says why, and takes no time', () => {
  const coach = open(new SwumRuns());
  coach.at(12);
  touch(1);
  screen.getByText('Lane 1: nobody can be back yet.');
  coach.at(48);
  touch(1);
  coach.at(50);
  touch(1);
  screen.getByText('Lane 1 has its time: take it back first.');
  expect(on(1)).toContain('0:38.0');
});

test('[times] a touch sooner than anybody swims is of the rep before; where that has its time it is marked', () => {
  const coach = open(new SwumRuns());
  // The second rep left at 70 s.
  coach.at(85);
  touch(1);
  screen.getByText('Lane 1: 1:15.0, 50 fast, 1 of 4.');
  coach.at(87);
  touch(1);
  screen.getByText('Lane 1: 0:17.0, 50 fast, 2 of 4, too soon? Take it back if nobody came in.');
  expect(on(1)).toBe('Lane 1 2 of 40:17.0 too soon?');
});

test('[times] another screen’s time is shown, and a second watch for it is taken: the mean counts', () => {
  const coach = open(new SwumRuns());
  coach.toldTimes([{ lane: 1, at: 10_000, watches: [37_000] }]);
  coach.at(48);
  expect(on(1)).toContain('0:37.0 3.0 s under');
  touch(1);
  expect(on(1)).toContain('0:37.5 2.5 s under');
});

test('[times] Take back stands in its place whether there is a time or not: nothing moves', () => {
  const coach = open(new SwumRuns());
  const buttons = () => screen.getAllByRole('button').map((button) => button.getAttribute('aria-label'));
  const before = buttons();
  expect(takeBack().getAttribute('aria-disabled')).toBe('true');
  coach.at(48);
  touch(1);
  expect([buttons(), takeBack().getAttribute('aria-disabled')]).toEqual([before, null]);
});

test('[times] one that is tapped while the link is lost says that it is not sent yet, until it is', async () => {
  const waits: (() => void)[] = [];
  const coach = new CoachWindow(SQUAD_TEXT, undefined, undefined, { waits });
  const answers: ((answer: Awaited<ReturnType<typeof coach.take>>) => void)[] = [];
  coach.take = () => new Promise((resolve) => answers.push(resolve));
  coach.other({ do: 'start' });
  const Shown = () => (
    <TimesPanel tools={coach.tools} moment={useMoment(coach.tools.frames)!} onClose={() => undefined} />
  );
  render(<Shown />);
  coach.at(47.84);
  touch(1);
  // On its way to a host in reach.
  expect(on(1)).toBe('Lane 1 1 of 40:37.8 2.2 s under');
  coach.linked(false);
  expect(on(1)).toBe('Lane 1 1 of 40:37.8 not sent yet');
  expect(takeBack().textContent).toBe('Take backlane 1, 50 fast, rep 1: 0:37.8, not sent yet');
  coach.linked(true);
  await act(() => Promise.resolve(answers.shift()!({ ok: false, at: null, why: 'The disk is full.' })));
  expect(on(1)).toBe('Lane 1 1 of 40:37.8 not sent yet');
  act(() => waits.splice(0).forEach((call) => call()));
  coach.toldTimes([{ lane: 1, at: 10_000, watches: [37_840] }]);
  await act(() => Promise.resolve(answers.shift()!({ ok: true, at: null, why: null })));
  expect(on(1)).toBe('Lane 1 1 of 40:37.8 2.2 s under');
});
