// @vitest-environment happy-dom
/*
 * Editing the session while the run goes on.
 */

import { act, cleanup, fireEvent, render, screen, waitFor } from '@testing-library/react';
import type { ReactElement } from 'react';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { RewriteScreen } from '../../../../renderer/desk/edit/rewrite-screen.tsx';
import { useMoment } from '../../../../renderer/ui/coach/use-deck.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { writeText, writtenText } from '../../../support/coach/write-window/written-text.ts';

/** Lines: 3 the main set's heading, 4 and 5 its sets, 6 the swim-down, 7 its set. */
const TEXT = `Harbour
lane 1 base 1:30, 4 swimmers
Main set
2 x 50 fast @ 1:00
4 x 75 free @ 1:20
Swim-down
4 x 50 easy @ 1:10
`;

let closed: number;
beforeEach(() => {
  closed = 0;
  localStorage.clear();
});
afterEach(cleanup);

function Shown({ coach }: { readonly coach: CoachWindow }): ReactElement {
  const moment = useMoment(coach.tools.frames) ?? coach.moment;
  return <RewriteScreen tools={coach.tools} moment={moment} byTouch={false} onClose={() => closed++} />;
}

/** T0 is 10 s: line 4 leaves at 10 and 70, line 5 from 130 on. */
function going(): CoachWindow {
  const coach = new CoachWindow(TEXT);
  coach.other({ do: 'start' });
  coach.at(20);
  render(<Shown coach={coach} />);
  return coach;
}

const area = (): HTMLElement => screen.getByRole('textbox', { name: 'Session' });
const button = (name: string | RegExp): HTMLElement => screen.getByRole('button', { name });
const offered = (name: string | RegExp): boolean => button(name).getAttribute('aria-disabled') !== 'true';

test('while the caret is in the text, the big button names no key that would be typed', () => {
  going();
  const hint = (): string | null => button('Stop all lanes').textContent;
  act(() => area().focus());
  expect(hint()).toBe('Stop all lanestap, or Esc then Space');
  act(() => area().blur());
  expect(hint()).toContain('Space, or the clicker');
});

describe('the whole text is there, and what has begun of it is locked', () => {
  test('lines that have begun stay as they are, with a sentence, and those to come are taken', () => {
    going();
    expect(writtenText()).toBe(TEXT);
    screen.getByText('Lines 1 to 4 have begun: locked. Change what comes below.');
    writeText(TEXT.replace('2 x 50 fast', '3 x 50 fast'));
    expect(writtenText()).toBe(TEXT);
    screen.getByText('Lines 1 to 4 have begun: they stay as they are.');
    writeText(TEXT.replace('4 x 75', '3 x 75'));
    expect(writtenText()).toBe(TEXT.replace('4 x 75', '3 x 75'));
  });

  test('a piece of the part that is going can be changed, and what it comes to is said by the head’s projection', async () => {
    const coach = going();
    writeText(TEXT.replace('4 x 75', '3 x 75'));
    await screen.findByText(/^With your text: ends 1:20 sooner, ≈/);
    fireEvent.click(button('Use from now on'));
    await waitFor(() => expect(closed).toBe(1));
    expect(coach.given).toEqual([
      { command: { do: 'rewrite', text: TEXT.replace('4 x 75', '3 x 75') }, madeFrom: TEXT },
    ]);
  });

  test('a fault is said beside the text, which then cannot be used', async () => {
    going();
    writeText(TEXT.replace('1:10', '1.10'));
    await screen.findByRole('heading', { name: 'One line cannot be read' });
    expect(offered('Use from now on')).toBe(false);
  });

  test('a line that begins is locked with a sentence', () => {
    const coach = going();
    coach.at(140);
    screen.getByText('Line 5 has just begun: locked now.');
  });

  test('a line that begins while it is being changed keeps what was typed, and goes on once it is put back', async () => {
    const coach = going();
    const typed = TEXT.replace('4 x 75', '3 x 75').replace('4 x 50 easy', '2 x 50 easy');
    writeText(typed);
    coach.at(140);
    expect(writtenText()).toBe(typed);
    expect(offered('Use from now on')).toBe(false);
    fireEvent.click(button('Put line 5 back as it is swum'));
    expect(writtenText()).toBe(TEXT.replace('4 x 50 easy', '2 x 50 easy'));
    await waitFor(() => expect(offered('Use from now on')).toBe(true));
  });

  test('leaving Edit loses nothing that was typed', () => {
    const coach = going();
    writeText(TEXT.replace('4 x 75', '3 x 75'));
    cleanup();
    render(<Shown coach={coach} />);
    expect(writtenText()).toBe(TEXT.replace('4 x 75', '3 x 75'));
    fireEvent.click(button('Drop my changes'));
    expect(writtenText()).toBe(TEXT);
    fireEvent.click(button('Bring my text back'));
    expect(writtenText()).toBe(TEXT.replace('4 x 75', '3 x 75'));
  });
});

describe('a cut that another screen makes while one types', () => {
  test('[rewrite] is named as forgotten before the text is used, with what to do; not where its line stays', async () => {
    const coach = going();
    writeText(TEXT.replace('4 x 75', '3 x 75'));
    coach.other({ do: 'cut', line: 5, n: 2 });
    coach.other({ do: 'interval', seconds: 5 });
    await screen.findByText(
      'Use from now on forgets the cut of "4 x 75 free @ 1:20": write it into the text if it is to stay.',
    );
    writeText(TEXT.replace('4 x 50 easy', '3 x 50 easy'));
    await waitFor(() => expect(screen.queryByText(/^Use from now on forgets/)).toBeNull());
  });
});

describe('a text that another screen has changed meanwhile', () => {
  test('is followed where nothing was typed', () => {
    const coach = going();
    coach.other({ do: 'rewrite', text: TEXT.replace('4 x 75', '3 x 75') });
    expect(writtenText()).toBe(TEXT.replace('4 x 75', '3 x 75'));
  });

  test('is said with its lines, what was typed is kept, and both can be put together', async () => {
    const coach = going();
    writeText(TEXT.replace('4 x 50 easy', '2 x 50 easy'));
    coach.other({ do: 'rewrite', text: TEXT.replace('4 x 75', '3 x 75') });
    expect(writtenText()).toBe(TEXT.replace('4 x 50 easy', '2 x 50 easy'));
    screen.getByText(/line 5 is changed\. What you typed is kept/);
    expect(offered('Use from now on')).toBe(false);
    fireEvent.click(button('Both changes together'));
    const both = TEXT.replace('4 x 75', '3 x 75').replace('4 x 50 easy', '2 x 50 easy');
    expect(writtenText()).toBe(both);
    await waitFor(() => expect(offered('Use from now on')).toBe(true));
    fireEvent.click(button('Use from now on'));
    await waitFor(() => expect(closed).toBe(1));
    expect(coach.given[0]).toEqual({
      command: { do: 'rewrite', text: both },
      madeFrom: TEXT.replace('4 x 75', '3 x 75'),
    });
  });

  test('where the host refuses, its reason stands there and what was typed stays', async () => {
    const coach = going();
    writeText(TEXT.replace('4 x 75', '3 x 75'));
    coach.refusal = 'The session was changed while you were writing: line 7 is changed. Look at it again.';
    await waitFor(() => expect(offered('Use from now on')).toBe(true));
    fireEvent.click(button('Use from now on'));
    await screen.findByText(coach.refusal);
    expect(writtenText()).toBe(TEXT.replace('4 x 75', '3 x 75'));
    expect(closed).toBe(0);
  });
});

describe('what is typed while a text is on its way to the host', () => {
  /** The host answers from the call of what this returns on. */
  function slow(coach: CoachWindow): () => void {
    const { link } = coach.tools;
    const { command } = link;
    const waiting: (() => void)[] = [];
    link.command = async (...given) => {
      await new Promise<void>((resolve) => waiting.push(resolve));
      return command(...given);
    };
    return () => waiting.splice(0).forEach((answer) => answer());
  }

  const USED = TEXT.replace('4 x 75', '3 x 75');

  test('is kept, Edit stays open, and it is made from the text that is in force by then', async () => {
    const coach = going();
    const answer = slow(coach);
    writeText(USED);
    await waitFor(() => expect(offered('Use from now on')).toBe(true));
    fireEvent.click(button('Use from now on'));
    const more = USED.replace('4 x 50 easy', '2 x 50 easy');
    writeText(more);
    answer();
    await waitFor(() => expect(coach.run.state.plan.source.text).toBe(USED));
    await waitFor(() => expect(offered('Use from now on')).toBe(true));
    expect(writtenText()).toBe(more);
    expect(closed).toBe(0);
    fireEvent.click(button('Use from now on'));
    answer();
    await waitFor(() => expect(closed).toBe(1));
    expect(coach.given[1]).toEqual({ command: { do: 'rewrite', text: more }, madeFrom: USED });
  });

  test('two presses within 300 ms are one command', async () => {
    const coach = going();
    const answer = slow(coach);
    writeText(USED);
    await waitFor(() => expect(offered('Use from now on')).toBe(true));
    fireEvent.click(button('Use from now on'));
    fireEvent.click(button('Use from now on'));
    answer();
    await waitFor(() => expect(closed).toBe(1));
    expect(coach.given).toHaveLength(1);
  });
});

test('where the text typed came into force by itself, typing goes on from it and can be used', async () => {
  const coach = going();
  const typed = TEXT.replace('4 x 75', '3 x 75');
  writeText(typed);
  coach.other({ do: 'rewrite', text: typed });
  writeText(typed.replace('4 x 50 easy', '2 x 50 easy'));
  expect(screen.queryByText(/has been changed since you began/)).toBeNull();
  await waitFor(() => expect(offered('Use from now on')).toBe(true));
});

test('a text of which a line was put back can be brought back whole', () => {
  const coach = going();
  const typed = TEXT.replace('4 x 75', '3 x 75').replace('4 x 50 easy', '2 x 50 easy');
  writeText(typed);
  coach.at(140);
  fireEvent.click(button('Put line 5 back as it is swum'));
  fireEvent.click(button('Bring my text back'));
  expect(writtenText()).toBe(typed);
});

describe('what must stay in sight', () => {
  test('the leaves of all lanes, what a command did, the one action and Undo', async () => {
    going();
    expect(screen.getByRole('region', { name: 'Next leaves' }).textContent).toMatch(/1:00.*in 50 s/);
    fireEvent.click(button('Stop all lanes'));
    await screen.findByText('Stopped lane 1.');
    await waitFor(() => expect(offered('Undo')).toBe(true));
  });

  test('lanes and swimmers are those of the run, and what has passed has no times', () => {
    const coach = going();
    coach.other({ do: 'swimmers', lanes: [1], n: 7 });
    const table = screen.getByRole('table');
    expect(table.textContent).toContain('Swimmers7');
    expect(table.textContent).not.toContain('In all');
  });

  test('reps, distances and intervals are those that will be swum, after what was cut and changed in the run', () => {
    const coach = new CoachWindow(TEXT.replace('Swim-down\n', '3 rounds\n  2 x 25 kick @ 0:40\nSwim-down\n'));
    coach.other({ do: 'start' });
    coach.at(20);
    coach.other({ do: 'cut', line: 5, n: 1 });
    coach.other({ do: 'cut', line: 6, n: 2 });
    coach.other({ do: 'interval', seconds: 5 });
    render(<Shown coach={coach} />);
    const rows = screen.getAllByRole('row').map((row) => row.textContent);
    for (const row of ['2 x 50 fast1:05', '3 x 75 free1:20', '1 round', '2 x 25 kick0:40', '4 x 50 easy1:10'])
      expect(rows).toContain(row);
    // 2 x 50, 3 x 75 and one round of 2 x 25.
    expect(screen.getByRole('table').textContent).toContain('375');
  });
});
