// @vitest-environment happy-dom
/*
 * Touches tapped during a run, on the real records with their disk in memory.
 */

import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import { TimesPanel } from '../../../../renderer/desk/times/times-panel.tsx';
import { Touches } from '../../../../renderer/desk/times/touches.ts';
import type { AskRecords } from '../../../../renderer/link/records.ts';
import { useMoment } from '../../../../renderer/ui/coach/use-deck.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { SQUAD_TEXT, SwumRuns } from '../../../support/host/swum-runs.ts';

afterEach(cleanup);

function open(ask: AskRecords, waits: (() => void)[] = []): CoachWindow {
  const coach = new CoachWindow(SQUAD_TEXT);
  coach.other({ do: 'start' });
  const touches = new Touches({ ask, run: 'run-1', after: (call) => waits.push(call) });
  const Shown = () => {
    const moment = useMoment(coach.tools.frames)!;
    return <TimesPanel tools={coach.tools} moment={moment} touches={touches} onClose={() => undefined} />;
  };
  render(<Shown />);
  return coach;
}

const touch = (lane: number): void => {
  const button = screen.getByRole('button', { name: `Touch lane ${lane}` });
  fireEvent.pointerDown(button);
  fireEvent.pointerUp(button);
  fireEvent.click(button);
};

const timesOf = (lane: number): readonly (string | null)[] =>
  within(screen.getByRole('list', { name: `Times of lane ${lane}` }))
    .queryAllByRole('listitem')
    .map(({ textContent }) => textContent);

test('[times] a touch gives the rep that left last its time, pace and distance from the target, and is kept beside the run', async () => {
  const swum = new SwumRuns();
  swum.write('run-1', {}, []);
  const journal = swum.text('/data/runs/run-1.jsonl');
  const coach = open(swum.ask);
  // T0 at 10 s.
  coach.at(47.84);
  touch(1);
  coach.at(50.5);
  touch(2);
  expect(timesOf(1)).toEqual(['0:37.8 rep 1, 1:15.6 a 100, 2.2 s under']);
  expect(timesOf(2)).toEqual(['0:40.5 rep 1, 1:21.0 a 100, 0.5 s over']);
  // Lane 1 comes in after its next leave: that was still the second rep.
  coach.at(133);
  touch(1);
  expect(timesOf(1)).toEqual(['1:03.0 rep 2, 2:06.0 a 100, 23.0 s over', '0:37.8 rep 1, 1:15.6 a 100, 2.2 s under']);
  fireEvent.click(screen.getByRole('button', { name: 'Take back lane 1’s time' }));
  expect(timesOf(1)).toHaveLength(1);
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

test('[times] a touch that cannot be says why, and takes no time', () => {
  const coach = open(new SwumRuns().ask);
  coach.at(12);
  touch(1);
  screen.getByText('Lane 1: nobody can be back yet.');
  coach.at(48);
  touch(1);
  coach.at(50);
  touch(1);
  screen.getByText('Lane 1 has its time: take it back first.');
  expect(timesOf(1)).toHaveLength(1);
});

test('[times] what the host does not take is said, stays, and is sent again', async () => {
  const swum = new SwumRuns();
  swum.write('run-1', {}, []);
  let isDown = true;
  const waits: (() => void)[] = [];
  const ask: AskRecords = (asked) => (isDown ? Promise.resolve({ ok: false, why: 'No host.' }) : swum.ask(asked));
  const coach = open(ask, waits);
  coach.at(48);
  touch(1);
  await screen.findByText('No host.');
  expect(timesOf(1)).toHaveLength(1);
  isDown = false;
  await waitFor(() => expect(waits).not.toEqual([]));
  waits.forEach((call) => call());
  await waitFor(() => expect(swum.text('/data/runs/run-1.after.json')).toContain('38000'));
});
