// @vitest-environment happy-dom
/*
 * Writing a session: what stands in the editor, files, and warnings beside their lines.
 */

import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { keepDraft, keptDraft } from '../../../../renderer/desk/write/draft.ts';
import { WriteScreen } from '../../../../renderer/desk/write/write-screen.tsx';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { setWindowWidth } from '../../../support/coach/write-window/window-width.ts';
import { writeText, writtenText } from '../../../support/coach/write-window/written-text.ts';

const TEXT = 'Harbour\nlane 1 base 1:30, 7 swimmers\nlane 2 base 1:30\nSet\n4 x 100 @ 1:00';

const NO_CLOCK = { now: () => null, matched: false, match: () => undefined, forget: () => undefined };

beforeEach(() => {
  setWindowWidth(1280);
  localStorage.clear();
  localStorage.setItem('lanecall.sessions', 'open');
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function write(run: 'beside a run' | 'beside one that is over' | 'alone'): void {
  const coach = new CoachWindow(TEXT);
  const tools = {
    ...coach.tools,
    light: { choice: () => 'system', choose: () => undefined, subscribe: () => () => undefined },
  };
  render(
    <WriteScreen
      tools={tools as unknown as typeof coach.tools}
      run={run === 'alone' ? null : coach.run}
      isOver={run === 'beside one that is over'}
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

describe('version and licences', () => {
  test('are read when somebody opens them, not before', async () => {
    const asked = vi.fn(() => Promise.resolve(new Response('Lanecall 9.9.9, under the MIT licence')));
    vi.stubGlobal('fetch', asked);
    write('alone');
    expect(asked).not.toHaveBeenCalledWith('/licences');
    const details = screen.getByText('Version and licences').parentElement as HTMLDetailsElement;
    details.open = true;
    fireEvent(details, new Event('toggle'));
    await screen.findByText('Lanecall 9.9.9, under the MIT licence');
    expect(asked).toHaveBeenCalledWith('/licences');
  });

  test('that cannot be read say so', async () => {
    vi.stubGlobal('fetch', () => Promise.resolve(new Response('', { status: 404 })));
    write('alone');
    const details = screen.getByText('Version and licences').parentElement as HTMLDetailsElement;
    details.open = true;
    fireEvent(details, new Event('toggle'));
    await screen.findByText(/cannot be read/);
  });
});

describe('beside a run', () => {
  test('that is over, nothing is said of it: no text is in use', async () => {
    write('beside one that is over');
    writeText('Wednesday\nSet\n4 x 50 @ 1:00');
    await screen.findByRole('heading', { name: 'Wednesday', level: 2 }, { timeout: 5000 });
    expect(screen.queryByText(/not in use until you run it|as the run has it/)).toBeNull();
    expect(screen.queryByRole('button', { name: 'Bring in the run’s text' })).toBeNull();
  });

  test('what is shown is what runs; an undo goes back to the draft, and what runs can be taken again', async () => {
    keepDraft({ text: 'Tuesday\nSet\n4 x 50 @ 1:00', lanesText: '', from: 'tuesday.txt', during: null });
    write('beside a run');
    expect(writtenText()).toBe(TEXT);
    screen.getByText('as the run has it');
    writeText('Wednesday\nSet\n4 x 50 @ 1:00');
    await screen.findByText('not in use until you run it', {}, { timeout: 5000 });
    fireEvent.click(screen.getByRole('button', { name: 'Bring in the run’s text' }));
    expect(writtenText()).toBe(TEXT);
    screen.getByText('as the run has it');
  });
});

test('a draft is kept with what the run was opened with, and with what was typed while it was opened', async () => {
  let answer = (): void => undefined;
  const reply = { status: 200, text: () => Promise.resolve('{"run":"run-2"}') };
  vi.stubGlobal('fetch', () => new Promise((resolve) => (answer = () => resolve(reply))));
  keepDraft({ text: TEXT, lanesText: '', from: 'a.txt', during: null });
  write('alone');
  fireEvent.click(screen.getByRole('button', { name: 'Run this session' }));
  writeText(`${TEXT}\n50 easy @ 2:00`);
  answer();
  await waitFor(() => expect(keptDraft()?.during).toBe('run-2'));
  expect(keptDraft()).toMatchObject({ text: `${TEXT}\n50 easy @ 2:00`, opened: { text: TEXT, lanesText: '' } });
});

describe('a file', () => {
  test('can be opened a second time, changed meanwhile', async () => {
    write('alone');
    const input = screen.getByLabelText<HTMLInputElement>('Open a session');
    const pick = (text: string): void => {
      const bytes = new TextEncoder().encode(text);
      const file = { name: 'a.txt', size: bytes.length, arrayBuffer: () => Promise.resolve(bytes.buffer) };
      fireEvent.change(input, { target: { files: [file] } });
    };
    pick('one');
    await waitFor(() => expect(writtenText()).toBe('one'));
    // A browser tells of no change where the same file is picked and the field still holds it.
    expect(input.value).toBe('');
    pick('two');
    await waitFor(() => expect(writtenText()).toBe('two'));
    await screen.findByRole('heading', { name: 'a', level: 1 });
  });
});

describe('warnings', () => {
  test('stand beside their line in a few words, and once in the list with their lanes', async () => {
    write('beside a run');
    await screen.findByText('lanes 1 and 2: cannot make it');
    screen.getByText(/^Lanes 1 and 2 cannot make their interval: 100 m on 1:00, expected to take about 1:20\.$/);
  });
});

test('the kit stands beside the text, in the order it is needed', async () => {
  keepDraft({ text: `${TEXT}\nkit: fins\n50 easy`, lanesText: '', from: null, during: null });
  write('alone');
  await screen.findByText('Kit, in the order it is needed: fins for Set.');
});
