// @vitest-environment happy-dom
/*
 * The history in the coach's window, on the real records with their disk in memory.
 */

import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Afterwards } from '../../../../app/core/record/afterwards.ts';
import { HistoryRoom } from '../../../../renderer/desk/history/history-room.tsx';
import type { SessionAgain } from '../../../../renderer/desk/history/bring.ts';
import type { AskRecords } from '../../../../renderer/link/requests/records.ts';
import { tap } from '../../../support/coach/finger.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { SQUAD_TEXT, SwumRuns } from '../../../support/host/folders/swum-runs.ts';
import { journalLines, THURSDAY } from '../../../support/host/folders/written-journal.ts';

process.env['TZ'] = 'UTC';

const WEEK = 7 * 24 * 3_600_000;

let swum: SwumRuns;
let saved: { name: string; text: Promise<string> }[];
let again: SessionAgain[];

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['Date'], now: new Date(2026, 10, 27, 19) });
  swum = new SwumRuns();
  saved = [];
  again = [];
  const blobs: Blob[] = [];
  vi.spyOn(URL, 'createObjectURL').mockImplementation((blob) => `blob:${blobs.push(blob as Blob)}`);
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
    saved.push({ name: this.download, text: blobs[blobs.length - 1]!.text() });
  });
});

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
  vi.useRealTimers();
});

function open(ask: AskRecords = swum.ask): CoachWindow {
  const coach = new CoachWindow(SQUAD_TEXT, () => Promise.resolve({ ok: false, why: 'full' }), ask);
  const light = { choice: () => 'system', choose: () => undefined, subscribe: () => () => undefined };
  const tools = { ...coach.tools, light } as unknown as typeof coach.tools;
  render(
    <HistoryRoom
      tools={tools}
      back="Back to writing"
      onBack={() => undefined}
      onAgain={(session) => again.push(session)}
      onCss={() => ''}
    />,
  );
  return coach;
}

const press = (name: string | RegExp): void => void fireEvent.click(screen.getByRole('button', { name }));

const shownRuns = (): readonly (string | null)[] =>
  within(screen.getByRole('list', { name: 'Runs found' }))
    .getAllByRole('button')
    .map((each) => each.textContent);

const rowsOf = (caption: string): readonly string[] =>
  within(screen.getByRole('table', { name: caption }))
    .getAllByRole('row')
    .map((row) => Array.from(row.children, (cell) => cell.textContent).join('|'));

describe('[history] the list', () => {
  test('has the runs by date, the newest first, and the newest is opened', async () => {
    swum.write('older', { openedAt: THURSDAY - WEEK });
    swum.write('newer');
    open();
    await screen.findByRole('heading', { name: 'Harbour squad, Thursday' });
    expect(shownRuns()).toEqual([
      'Thu 26 November 2026, 19:30Harbour squad, Thursday350 m',
      'Thu 19 November 2026, 19:30Harbour squad, Thursday350 m',
    ]);
    screen.getByText('Thursday 26 November 2026, 19:30 to 20:40');
  });

  test('finds by names, words and days, and says what to do where none fits', async () => {
    swum.write('older', { openedAt: THURSDAY - WEEK });
    swum.write('newer');
    open();
    await waitFor(() => expect(shownRuns()).toHaveLength(2));
    fireEvent.change(screen.getByLabelText('To'), { target: { value: '2026-11-20' } });
    await waitFor(() => expect(shownRuns()).toHaveLength(1));
    fireEvent.change(screen.getByRole('searchbox'), { target: { value: 'bram cramp' } });
    await waitFor(() => expect(shownRuns()).toEqual([expect.stringContaining('19 November')]));
    fireEvent.change(screen.getByRole('searchbox'), { target: { value: 'butterfly' } });
    await screen.findByText('No run has all these words: write fewer.');
  });

  test('of none says how one comes to be', async () => {
    open();
    await screen.findByText('No run yet: each session that you start leaves one here.');
  });
});

describe('[history] a run', () => {
  test('shows what each lane was to swim and swam, part by part, and what was done', async () => {
    swum.write('one');
    open();
    await screen.findByRole('heading', { name: 'Harbour squad, Thursday' });
    expect(rowsOf('What each lane did')).toEqual([
      'Lane|Leaves|Distance|First leave|Last leave|By part',
      'Lane 1|3 of 5|150 of 300 m|19:30:10|19:33:10|Main set 150 m',
      'Lane 2|4 of 5|200 of 300 m|19:30:10|19:33:10|Main set 200 m',
    ]);
    expect(rowsOf('Parts against the plan')[1]).toMatch(/^Main set\|4:10\|4:10\|as planned$/);
    const happened = within(screen.getByRole('region', { name: 'What happened' }));
    expect(happened.getAllByRole('listitem').map(({ textContent }) => textContent)).toEqual([
      expect.stringMatching(/^19:30 Started Main set/),
      '19:30 cramp, lane 2',
      expect.stringMatching(/^19:31 Sat out 50 fast in lane 1/),
      '19:31 Lanecall was not running for 1:08:30. Leaves in that time: see “Not called”.',
    ]);
    // They are told once.
    expect(screen.getAllByText(/50 fast, rep/)).toHaveLength(1);
  });

  test('takes effort, words to a mark, notes and who was there, and keeps them beside the journal', async () => {
    swum.write('one');
    const journal = swum.text('/data/runs/one.jsonl');
    open();
    fireEvent.click(await screen.findByRole('button', { name: 'Effort 6' }));
    screen.getByText('420');
    fireEvent.change(screen.getByLabelText('Words to the mark at 19:30: cramp, lane 2'), {
      target: { value: 'left calf' },
    });
    fireEvent.change(screen.getByLabelText('Notes, for next week'), {
      target: { value: 'Fins earlier.\n\nBase 1:35' },
    });
    press('All were there');
    press('Bram');
    await waitFor(() => {
      const kept = JSON.parse(swum.text('/data/runs/one.after.json') ?? '{}') as object;
      expect(kept).toMatchObject({
        effort: 6,
        marks: [{ command: 1, words: 'left calf' }],
        notes: ['Fins earlier.', 'Base 1:35'],
        attendance: [
          { lane: 1, swimmers: 1, names: ['Ana'] },
          { lane: 2, swimmers: 3, names: null },
        ],
      });
    });
    await waitFor(() => expect(shownRuns()[0]).toContain('effort 6'));
    expect(swum.text('/data/runs/one.jsonl')).toBe(journal);
  });

  test('is saved as a table and as JSON, and so is the history', async () => {
    swum.write('one');
    open();
    fireEvent.click(await screen.findByRole('button', { name: 'Effort 6' }));
    press('Save as a table');
    await waitFor(() => expect(saved).toHaveLength(1));
    press('Save as JSON');
    await waitFor(() => expect(saved).toHaveLength(2));
    await waitFor(() => expect(shownRuns()[0]).toContain('effort 6'));
    press('Save the history as a table');
    press('Save the history as JSON');
    expect(saved.map(({ name }) => name)).toEqual([
      'Harbour squad, Thursday 2026-11-26.csv',
      'Harbour squad, Thursday 2026-11-26.json',
      'History 2026-11-27.csv',
      'History 2026-11-27.json',
    ]);
    const [table, json, list, whole] = await Promise.all(saved.map(({ text }) => text));
    expect(table).toMatch(/^what,time of day,/);
    expect(JSON.parse(json!)).toMatchObject({ run: 'one', effort: 6, load: 420 });
    expect(list!.split('\r\n')[1]).toBe(
      '2026-11-26,19:30:00,"Harbour squad, Thursday",done,70.0,m,600,350,,6,420,150,200,',
    );
    expect(JSON.parse(whole!)).toMatchObject([{ run: 'one', effort: 6 }]);
  });

  test('is done again: its session goes to the editor', async () => {
    swum.write('one');
    open();
    await screen.findByRole('heading', { name: 'Harbour squad, Thursday' });
    press('Do this again');
    await waitFor(() => expect(again).toEqual([expect.objectContaining({ text: SQUAD_TEXT, openedAt: '2026-11-26' })]));
  });

  test('that another window adds to keeps both', async () => {
    swum.write('one');
    open();
    await screen.findByRole('button', { name: 'Effort 6' });
    const other = { marks: [], notes: ['from the other'], attendance: null, effort: null, times: [] };
    const kept = await swum.ask<'keep'>({ do: 'keep', run: 'one', version: null, added: other });
    expect(kept.ok).toBe(true);
    press('Effort 6');
    await waitFor(() => {
      expect(JSON.parse(swum.text('/data/runs/one.after.json')!)).toMatchObject({
        notes: ['from the other'],
        effort: 6,
      });
    });
    expect(screen.getByLabelText<HTMLTextAreaElement>('Notes, for next week').value).toBe('from the other');
  });
});

describe('[history] who was there', () => {
  const keptAttendance = () => (JSON.parse(swum.text('/data/runs/one.after.json') ?? '{}') as Afterwards).attendance;

  const addSomebody = (name: string, lane: string): void => {
    fireEvent.change(screen.getByLabelText('Somebody else'), { target: { value: name } });
    fireEvent.change(screen.getByLabelText('in'), { target: { value: lane } });
    press('Add');
  };

  test('whoever is in no lane of the session is added by name, to a lane with names and to one without', async () => {
    swum.write('one');
    open();
    fireEvent.click(await screen.findByRole('button', { name: 'Ana' }));
    addSomebody(' Zoe ', '1');
    addSomebody('Yusuf', '2');
    await waitFor(() =>
      expect(keptAttendance()).toEqual([
        { lane: 1, swimmers: 2, names: ['Ana', 'Zoe'] },
        { lane: 2, swimmers: 1, names: ['Yusuf'] },
      ]),
    );
    press('Lane 2: one more');
    screen.getByText('1 and Yusuf');
    press('Zoe');
    await waitFor(() =>
      expect(keptAttendance()).toEqual([
        { lane: 1, swimmers: 1, names: ['Ana'] },
        { lane: 2, swimmers: 2, names: ['Yusuf'] },
      ]),
    );
    press('Yusuf');
    await waitFor(() => expect(keptAttendance()?.[1]).toEqual({ lane: 2, swimmers: 1, names: null }));
  });

  test('Enter adds whoever is typed, and so does going elsewhere; moving on to the lane does not yet', async () => {
    swum.write('one');
    open();
    await screen.findByRole('button', { name: 'Ana' });
    const field = screen.getByLabelText<HTMLInputElement>('Somebody else');
    fireEvent.change(field, { target: { value: 'Zoe' } });
    fireEvent.blur(field, { relatedTarget: screen.getByLabelText('in') });
    expect(field.value).toBe('Zoe');
    fireEvent.submit(field.form!);
    expect(field.value).toBe('');
    fireEvent.change(field, { target: { value: 'Yusuf' } });
    fireEvent.blur(field, { relatedTarget: screen.getByLabelText('Notes, for next week') });
    await waitFor(() => expect(keptAttendance()?.[0]?.names).toEqual(['Zoe', 'Yusuf']));
  });

  test('nobody is added twice, and nobody without a name', async () => {
    swum.write('one');
    open();
    await screen.findByRole('button', { name: 'Ana' });
    press('Add');
    screen.getByText('Write the name first.');
    addSomebody('Zoe', '1');
    addSomebody('Zoe', '1');
    screen.getByText('Zoe is in lane 1 already.');
  });
});

test('[history] a list that is refused says why in place of the record, and is asked for again', async () => {
  let isDown = true;
  const ask: AskRecords = (asked) => (isDown ? Promise.resolve({ ok: false, why: 'No host.' }) : swum.ask(asked));
  swum.write('one');
  open(ask);
  await waitFor(() => expect(screen.getAllByText('No host.')).toHaveLength(2));
  isDown = false;
  press('Look again');
  await screen.findByRole('heading', { name: 'Harbour squad, Thursday' });
});

describe('[history] over time', () => {
  test('weeks and lanes are drawn with their figures in tables below', async () => {
    swum.write('older', { openedAt: THURSDAY - WEEK });
    swum.write('newer');
    open();
    fireEvent.click(await screen.findByRole('button', { name: 'Effort 6' }));
    await waitFor(() => expect(shownRuns()[0]).toContain('effort 6'));
    // It is loaded when the list is there, which takes its time on a busy machine; then it draws at once.
    await import('../../../../renderer/desk/drawings/drawing.tsx');
    press(/^Weeks/);
    screen.getByRole('img', { name: 'Distance by week, planned and swum' });
    screen.getByRole('img', { name: 'Load and strain by week' });
    expect(rowsOf('Distance by week, in m')).toEqual([
      'Week from|Runs|Planned|Swum|Swum of planned',
      '23 November 2026|1|600|350|58 %',
      '16 November 2026|1|600|350|58 %',
    ]);
    expect(rowsOf('Load by week')[1]).toBe('23 November 2026|1 of 1|420|0.38|159');
    press(/^Lanes/);
    screen.getByRole('img', { name: 'Distance by lane, planned and swum' });
    expect(rowsOf('Distance by lane, in m')[1]).toBe('Lane 1|2|600|300|50 %');
    screen.getByText(/^No lane has swum a test/);
  });
});

describe('[history] deleting', () => {
  test('a run is asked once, and its bytes are gone', async () => {
    swum.write('one');
    swum.write('two', { openedAt: THURSDAY - WEEK });
    open();
    await screen.findByRole('heading', { name: 'Harbour squad, Thursday' });
    press('Delete this run');
    press('Keep it');
    expect(swum.text('/data/runs/one.jsonl')).not.toBeNull();
    press('Delete this run');
    tap(screen.getByRole('button', { name: 'Delete for good' }), 2);
    await screen.findByText('Hold Delete for good for 0.6 s.');
    expect(swum.text('/data/runs/one.jsonl')).not.toBeNull();
    press('Delete for good');
    await screen.findByText('The run is deleted.');
    expect(swum.text('/data/runs/one.jsonl')).toBeNull();
    await waitFor(() => expect(shownRuns()).toEqual([expect.stringContaining('19 November')]));
  });

  test('a name is gone from every run, and the rest stays', async () => {
    swum.write('one');
    open();
    await screen.findByRole('heading', { name: 'Harbour squad, Thursday' });
    press(/^Delete ?a name everywhere/);
    fireEvent.change(screen.getByLabelText('The name, as it is written'), { target: { value: 'Bram' } });
    press('Delete this name everywhere');
    press('Delete for good');
    await screen.findByText('Bram is gone, from 1 run.');
    expect(swum.text('/data/runs/one.jsonl')).not.toContain('Bram');
    await waitFor(() => expect(shownRuns()).toEqual([expect.stringContaining('350 m')]));
  });

  test('what was opened and never started goes in one step; what was started stays', async () => {
    swum.write('one');
    swum.write('two', {}, []);
    const lines = journalLines({ run: 'three', text: SQUAD_TEXT }, [{ say: 'closed', at: 5000, why: 'not begun' }]);
    swum.disk.put('/data/runs/three.jsonl', Buffer.from(lines.join('')));
    open();
    await screen.findByRole('heading', { name: 'Harbour squad, Thursday' });
    press(/^Delete ?a name everywhere/);
    press('Delete what was never started');
    press('Delete for good');
    await screen.findByText('What was never started is gone, from 2 runs.');
    expect(['one', 'two', 'three'].map((run) => swum.text(`/data/runs/${run}.jsonl`) !== null)).toEqual([
      ...[true, false, false],
    ]);
  });

  test('of what was never started one goes by itself, and the others stay', async () => {
    swum.write('one');
    swum.write('two', {}, []);
    const notBegun = [{ say: 'closed', at: 5000, why: 'not begun' }] as const;
    const text = SQUAD_TEXT.replace('Thursday', 'Friday');
    swum.disk.put('/data/runs/three.jsonl', Buffer.from(journalLines({ run: 'three', text }, notBegun).join('')));
    open();
    await screen.findByRole('heading', { name: 'Harbour squad, Thursday' });
    press(/^Delete ?a name everywhere/);
    fireEvent.click(
      await screen.findByRole('button', { name: 'Delete Harbour squad, Friday, opened Thu 26 November 2026, 19:30' }),
    );
    press('Delete for good');
    await screen.findByText('Harbour squad, Friday is gone, from 1 run.');
    expect(['one', 'two', 'three'].map((run) => swum.text(`/data/runs/${run}.jsonl`) !== null)).toEqual([
      ...[true, true, false],
    ]);
    await waitFor(() =>
      expect(within(screen.getByRole('list', { name: 'Never started' })).getAllByRole('button')).toHaveLength(1),
    );
  });

  test('everything goes, what this window remembers of it too', async () => {
    swum.write('one');
    const { tools } = open();
    tools.writing.write({ text: SQUAD_TEXT }, null);
    await screen.findByRole('heading', { name: 'Harbour squad, Thursday' });
    press(/^Delete ?a name everywhere/);
    press('Delete everything');
    press('Delete for good');
    await screen.findByText('Everything is gone, from 1 run.');
    expect(swum.text('/data/runs/one.jsonl')).toBeNull();
    expect(JSON.stringify({ ...localStorage })).not.toContain('Bram');
    expect(tools.writing.state().draft.text).toBe('');
  });
});
