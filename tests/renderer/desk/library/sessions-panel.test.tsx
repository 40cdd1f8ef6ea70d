// @vitest-environment happy-dom
/*
 * The library in the coach's window, on the real library with its disk in memory.
 */

import { act, cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { EMPTY, keepDraft } from '../../../../renderer/desk/write/draft.ts';
import { EXAMPLE } from '../../../../renderer/desk/write/example.ts';
import { WriteScreen } from '../../../../renderer/desk/write/write-screen.tsx';
import type { LibraryRequest, LibraryWish } from '../../../../renderer/link/requests/library.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { setWindowWidth } from '../../../support/coach/write-window/window-width.ts';
import { editorOf, writeText, writtenText } from '../../../support/coach/write-window/written-text.ts';
import { LibraryUnderTest, SESSION } from '../../../support/host/folders/library-folder.ts';

const TUESDAY = 'Tuesday\nSet\n8 x 50 fast @ 1:00\n';
const NO_CLOCK = { now: () => null, matched: false, match: () => undefined, forget: () => undefined };

let library: LibraryUnderTest;
let coach: CoachWindow;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['Date'], now: new Date(2026, 10, 27, 19) });
  setWindowWidth(1280);
  localStorage.clear();
  localStorage.setItem('lanecall.sessions', 'open');
  keepDraft({ ...EMPTY, text: 'Begun\nSet\n100 @ 2:00' });
  library = new LibraryUnderTest();
  library.write('Harbour squad, Thursday', SESSION);
  library.pass(24 * 3_600_000);
  library.write('Tuesday', TUESDAY);
});

afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

function show(tools: CoachWindow['tools']): void {
  render(
    <WriteScreen
      tools={tools}
      run={null}
      isOver={false}
      clock={NO_CLOCK}
      onBack={null}
      onRehearse={() => null}
      onOpened={() => undefined}
      onHistory={() => undefined}
      onPrint={() => undefined}
      brought={null}
    />,
  );
}

async function write(): Promise<HTMLElement> {
  const ask = <Wish extends LibraryWish>(asked: Extract<LibraryRequest, { do: Wish }>) => library.ask<Wish>(asked);
  coach = new CoachWindow(TUESDAY, ask);
  const light = { choice: () => 'system', choose: () => undefined, subscribe: () => () => undefined };
  show({ ...coach.tools, light } as unknown as typeof coach.tools);
  const panel = await screen.findByRole('region', { name: 'Sessions' });
  if ((await library.names()).length > 0) await within(panel).findByRole('button', { name: /^Tuesday/ });
  return panel;
}

function press(name: string | RegExp): void {
  fireEvent.click(screen.getByRole('button', { name }));
}

function listed(): readonly (string | null)[] {
  const list = screen.getByRole('list', { name: 'Sessions found' });
  return within(list)
    .queryAllByRole('button')
    .map((each) => each.querySelector('b')?.textContent ?? null)
    .filter((each) => each !== null);
}

/** What the coach sees when the disk has answered. */
const soon = async (look: () => void): Promise<void> => waitFor(look);

test('sessions are listed, the last used first, with their day and what they come to', async () => {
  await write();
  expect(listed()).toEqual(['Tuesday', 'Harbour squad, Thursday']);
  screen.getByText('Thu 26 November · 600–800 m · 12 min');
});

test('they are found by words and by the day, and where none fits it is said what to do', async () => {
  const panel = await write();
  const find = (words: string) => fireEvent.change(within(panel).getByRole('searchbox'), { target: { value: words } });
  find('thu 26 nov');
  await soon(() => expect(listed()).toEqual(['Harbour squad, Thursday']));
  find('fast');
  await soon(() => expect(listed()).toEqual(['Tuesday']));
  find('butterfly');
  await screen.findByText(/^No session has all these words/);
});

test('one is opened by a tap; Undo brings back what was there, with its file', async () => {
  await write();
  writeText('Mine\nSet\n50 @ 1:00\n');
  await soon(() => expect(listed()).toContain('Mine'));
  press(/^Harbour squad/);
  await soon(() => expect(writtenText()).toBe(SESSION));
  screen.getByRole('heading', { name: 'Harbour squad, Thursday', level: 1 });
  await screen.findByText('Opened Harbour squad, Thursday.');
  press('Undo');
  expect(writtenText()).toBe('Mine\nSet\n50 @ 1:00\n');
  screen.getByRole('heading', { name: 'Mine', level: 1 });
  expect((await screen.findByRole('button', { name: /^Mine/ })).closest('li')?.getAttribute('aria-current')).toBe(
    'true',
  );
  expect(library.text('Harbour squad, Thursday')).toBe(SESSION);
});

test('Ctrl+Z does so too, wherever the keyboard is, and Ctrl+Shift+Z goes there again', async () => {
  await write();
  const before = writtenText();
  press(/^Tuesday/);
  await soon(() => expect(writtenText()).toBe(TUESDAY));
  fireEvent.keyDown(window, { key: 'z', ctrlKey: true });
  expect(writtenText()).toBe(before);
  fireEvent.keyDown(window, { key: 'Z', ctrlKey: true, shiftKey: true });
  expect(writtenText()).toBe(TUESDAY);
  screen.getByRole('heading', { name: 'Tuesday', level: 1 });
});

test('what was undone and done stays there when the page is left and come back to', async () => {
  await write();
  const before = writtenText();
  press(/^Tuesday/);
  await soon(() => expect(writtenText()).toBe(TUESDAY));
  const { writing } = coach.tools;
  cleanup();
  const light = { choice: () => 'system', choose: () => undefined, subscribe: () => () => undefined };
  const tools = { ...coach.tools, light, writing } as unknown as typeof coach.tools;
  render(
    <WriteScreen
      tools={tools}
      run={null}
      isOver={false}
      clock={NO_CLOCK}
      onBack={null}
      onRehearse={() => null}
      onOpened={() => undefined}
      onHistory={() => undefined}
      onPrint={() => undefined}
      brought={null}
    />,
  );
  fireEvent.keyDown(window, { key: 'z', ctrlKey: true });
  expect(writtenText()).toBe(before);
});

test('who writes another session over the whole of one begins a new one; the one before stays, and an undo goes back', async () => {
  await write();
  press(/^Tuesday/);
  await soon(() => expect(writtenText()).toBe(TUESDAY));
  writeText('W');
  writeText('Wednesday\nSet\n50 @ 1:00\n');
  screen.getByRole('heading', { name: 'New session', level: 1 });
  await soon(() => expect(listed()).toContain('Session 27 November'));
  expect(library.text('Tuesday')).toBe(TUESDAY);
  // What was typed is one step or two, by how fast it was.
  for (let step = 0; step < 2 && writtenText() !== TUESDAY; step++) {
    fireEvent.keyDown(window, { key: 'z', ctrlKey: true });
  }
  expect(writtenText()).toBe(TUESDAY);
  screen.getByRole('heading', { name: 'Tuesday', level: 1 });
});

test('a copy is made, opened, and its name said', async () => {
  await write();
  press('More for Tuesday');
  press('Duplicate Tuesday');
  await screen.findByText('Tuesday (2) is a copy of Tuesday.');
  expect(writtenText()).toBe(TUESDAY);
  await soon(() => expect(library.text('Tuesday (2)')).toBe(TUESDAY));
});

test('for next Thursday the day and the booked hour are moved, and nothing else', async () => {
  await write();
  press('More for Harbour squad, Thursday');
  press('Harbour squad, Thursday for another day');
  fireEvent.change(await screen.findByLabelText('Start'), { target: { value: '18:00' } });
  press('Make it for Thursday 3 December 2026');
  await screen.findByText('Made Harbour squad, Thursday 3 December.');
  expect(library.text('Harbour squad, Thursday 3 December')).toBe(
    SESSION.replace('26 November', '3 December').replace('19:30', '18:00').replace('20:30', '19:00'),
  );
  expect(library.text('Harbour squad, Thursday')).toBe(SESSION);
});

test('the keyboard goes to the day of a copy, and Enter there makes it', async () => {
  await write();
  press('More for Harbour squad, Thursday');
  press('Harbour squad, Thursday for another day');
  const day = await screen.findByLabelText('Day');
  expect(document.activeElement).toBe(day);
  fireEvent.keyDown(day, { key: 'Enter' });
  await screen.findByText('Made Harbour squad, Thursday 3 December.');
});

test('one is renamed, the open one too; a name that cannot be is said and stays in its field', async () => {
  await write();
  press(/^Tuesday/);
  await screen.findByText('Opened Tuesday.');
  press('More for Tuesday');
  press('Rename Tuesday');
  const field = screen.getByLabelText('Name');
  fireEvent.change(field, { target: { value: 'Harbour squad, Thursday' } });
  press('Keep this name');
  await screen.findByText(/^There is one called Harbour squad, Thursday already/);
  fireEvent.change(field, { target: { value: 'Hard Tuesday' } });
  press('Keep this name');
  await screen.findByRole('heading', { name: 'Hard Tuesday' });
  expect([...(await library.names())].sort()).toEqual(['Harbour squad, Thursday', 'Hard Tuesday']);
});

test('one is moved to the bin, and back by Undo or out of the bin', async () => {
  await write();
  press(/^Tuesday/);
  await screen.findByText('Opened Tuesday.');
  press('More for Tuesday');
  press('Move Tuesday to the bin');
  await screen.findByText('Tuesday is in the bin, for 30 days.');
  expect(writtenText()).toBe('');
  press('Undo');
  await soon(() => expect(writtenText()).toBe(TUESDAY));
  expect(library.text('Tuesday')).toBe(TUESDAY);
  await soon(() => expect(listed()).toContain('Tuesday'));
  press('More for Tuesday');
  press('Move Tuesday to the bin');
  await soon(() => expect(listed()).toEqual(['Harbour squad, Thursday']));
  press('Bin');
  fireEvent.click(await screen.findByRole('button', { name: /^Put back Tuesday/ }));
  await soon(() => expect(listed()).toContain('Tuesday'));
  await screen.findByText(/^The bin is empty/);
});

test('a new one begins empty, or from a sample', async () => {
  await write();
  press('New session');
  expect(writtenText()).toBe('');
  expect(document.activeElement).toBe(editorOf().contentDOM);
  screen.getByRole('heading', { name: 'New session' });
  press('Samples');
  press(/^Start from Sprint and turns/);
  expect(writtenText()).toMatch(/^Sprint and turns\n/);
});

test('the part at the cursor is kept, and put into another session below its line', async () => {
  await write();
  press(/^Tuesday/);
  await soon(() => expect(writtenText()).toBe(TUESDAY));
  press('Keep this part');
  await screen.findByText('Put the cursor into a part first, or choose the lines to keep.');
  act(() => editorOf().dispatch({ selection: { anchor: TUESDAY.indexOf('8 x') } }));
  press('Keep this part');
  await screen.findByText('Set is kept: put it into any session.');
  expect(library.text('Set', 'piece')).toBe('Set\n8 x 50 fast @ 1:00\n');
  press('New session');
  // This document tells of a selection while it is made, which no browser does.
  act(() => editorOf().contentDOM.blur());
  writeText('Wednesday');
  act(() => editorOf().dispatch({ selection: { anchor: 3 } }));
  press(/^Put in Set/);
  await soon(() => expect(writtenText()).toBe('Wednesday\n\nSet\n8 x 50 fast @ 1:00'));
});

test('a file that is picked becomes a session; a bad one is refused with a sentence, and nothing is lost', async () => {
  await write();
  const field = screen.getByLabelText('Open a session');
  const pick = (bytes: Uint8Array): void => {
    const file = { name: 'monday.txt', size: bytes.length, arrayBuffer: () => Promise.resolve(bytes.buffer) };
    fireEvent.change(field, { target: { files: [file] } });
  };
  const before = writtenText();
  pick(new Uint8Array([0xff, 0xfe, 0x41]));
  await screen.findByText(/^monday.txt is not plain UTF-8 text/);
  expect(writtenText()).toBe(before);
  pick(new TextEncoder().encode(TUESDAY));
  await screen.findByText('monday.txt is a session of its own now.');
  await soon(() => expect(library.text('monday')).toBe(TUESDAY));
});

function paste(on: Element | Window, text: string): void {
  const event = new Event('paste', { bubbles: true, cancelable: true });
  Object.assign(event, { clipboardData: { files: [], getData: () => text } });
  fireEvent(on, event);
}

test('what is pasted outside the text is a session of its own, and what is pasted into a field is not', async () => {
  const panel = await write();
  const before = writtenText();
  const field = within(panel).getByRole('searchbox');
  act(() => field.focus());
  paste(field, TUESDAY);
  expect(writtenText()).toBe(before);
  act(() => field.blur());
  paste(window, TUESDAY);
  expect(writtenText()).toBe(TUESDAY);
  press('Undo');
  expect(writtenText()).toBe(before);
});

test('a file that another program has changed stands beside the text, and the coach chooses', async () => {
  await write();
  press(/^Tuesday/);
  await screen.findByText('Opened Tuesday.');
  library.write('Tuesday', TUESDAY.replace('8 x', '6 x'));
  fireEvent.focus(window);
  await screen.findByRole('heading', { name: 'Tuesday was changed elsewhere' });
  const theirs = screen.getByRole('list', { name: 'What is in the file' });
  expect(within(theirs).getByText('6 x 50 fast @ 1:00').tagName).toBe('MARK');
  expect(writtenText()).toBe(TUESDAY);
  // Nothing else opens beside the text before that, and it is said why.
  for (const name of ['Sessions', 'Lanes and squads', 'Screens', 'Notation']) {
    press(name);
    await screen.findByText('Choose first what becomes of Tuesday: it was changed elsewhere.');
    expect(screen.getByRole('button', { name }).getAttribute('aria-expanded')).not.toBe('true');
  }
  press('Take what is in the file');
  expect(writtenText()).toBe(TUESDAY.replace('8 x', '6 x'));
  await screen.findByRole('region', { name: 'What it comes to' });
  fireEvent.keyDown(window, { key: 'z', ctrlKey: true });
  await soon(() => expect(library.text('Tuesday')).toBe(TUESDAY));
});

test('on the first day the sample says what to do, until something of one’s own is begun', async () => {
  keepDraft({ ...EMPTY, text: EXAMPLE });
  library = new LibraryUnderTest();
  await write();
  screen.getByRole('region', { name: 'First steps' });
  press('Begin my own');
  expect(writtenText()).toBe('');
  expect(screen.queryByRole('region', { name: 'First steps' })).toBeNull();
});

test('Ctrl+O opens the list to type what is looked for; Enter opens the first found; Escape closes it', async () => {
  const panel = await write();
  fireEvent.keyDown(window, { key: 'o', ctrlKey: true });
  const field = within(panel).getByRole('searchbox');
  await soon(() => expect(document.activeElement).toBe(field));
  fireEvent.change(field, { target: { value: 'harbour' } });
  await soon(() => expect(listed()).toEqual(['Harbour squad, Thursday']));
  fireEvent.submit(field);
  await soon(() => expect(writtenText()).toBe(SESSION));
  fireEvent.keyDown(field, { key: 'Escape' });
  expect(screen.queryByRole('region', { name: 'Sessions' })).toBeNull();
});

test('where the list would hide the timetable it opens only when asked for, and gives way to what was chosen', async () => {
  setWindowWidth(1024);
  const light = { choice: () => 'system', choose: () => undefined, subscribe: () => () => undefined };
  const ask = <Wish extends LibraryWish>(asked: Extract<LibraryRequest, { do: Wish }>) => library.ask<Wish>(asked);
  coach = new CoachWindow(TUESDAY, ask);
  show({ ...coach.tools, light } as unknown as typeof coach.tools);
  const panel = (): HTMLElement | null => screen.queryByRole('region', { name: 'Sessions' });
  expect(panel()).toBeNull();
  press('Sessions');
  press('Close: Sessions');
  expect(panel()).toBeNull();
  press('Sessions');
  fireEvent.click(await screen.findByRole('button', { name: /^Tuesday/ }));
  await waitFor(() => expect(panel()).toBeNull());
  expect(writtenText()).toBe(TUESDAY);
  // The wide window opens it as it was left there.
  expect(localStorage.getItem('lanecall.sessions')).toBe('open');
});
