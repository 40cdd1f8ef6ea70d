// @vitest-environment happy-dom
/*
 * A run that is not ended while the history is open, on the real records with their disk in memory.
 */

import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { HistoryRoom } from '../../../../renderer/desk/history/history-room.tsx';
import { LOOK_EVERY } from '../../../../renderer/desk/history/use-history.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { SQUAD_DEEDS, SQUAD_TEXT, SwumRuns } from '../../../support/host/folders/swum-runs.ts';
import { DONE, journalLines } from '../../../support/host/folders/written-journal.ts';

process.env['TZ'] = 'UTC';

let swum: SwumRuns;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  swum = new SwumRuns();
});

afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const write = (lines: typeof SQUAD_DEEDS): void =>
  swum.disk.put('/data/runs/one.jsonl', Buffer.from(journalLines({ run: 'one', text: SQUAD_TEXT }, lines).join('')));

/** The host takes turns of its own between runs. */
const pass = (ms: number): Promise<void> =>
  act(async () => {
    await vi.advanceTimersByTimeAsync(ms);
    for (let turn = 0; turn < 50; turn++) await new Promise(setImmediate);
  });

test('[history] it is followed in the list and in its record until it ends, and what is typed into it stays', async () => {
  write(SQUAD_DEEDS);
  const { tools } = new CoachWindow(SQUAD_TEXT, undefined, swum.ask);
  const light = { choice: () => 'system', choose: () => undefined, subscribe: () => () => undefined };
  const none = (): void => undefined;
  render(
    <HistoryRoom
      tools={{ ...tools, light } as unknown as typeof tools}
      back="Back to writing"
      onBack={none}
      onAgain={none}
      onCss={() => ''}
    />,
  );
  await pass(0);
  const listed = () => within(screen.getByRole('list', { name: 'Runs found' })).getByRole('button').textContent;
  const notes = () => screen.getByLabelText<HTMLTextAreaElement>('Notes, for next week');
  expect(listed()).toMatch(/200 m · not ended$/);
  fireEvent.change(notes(), { target: { value: 'Fins' } });
  write([...SQUAD_DEEDS, DONE]);
  await pass(LOOK_EVERY);
  expect(listed()).toMatch(/350 m$/);
  screen.getByText('Thursday 26 November 2026, 19:30 to 20:40');
  expect(notes().value).toBe('Fins');
  const asked = vi.spyOn(swum.disk, 'list');
  await pass(10 * LOOK_EVERY);
  expect(asked).not.toHaveBeenCalled();
});
