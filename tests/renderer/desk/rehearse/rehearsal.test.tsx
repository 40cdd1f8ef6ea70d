// @vitest-environment happy-dom
/*
 * A rehearsal in the coach's window: what it is named, its keys and buttons, that nothing of it reaches the host, and
 * that Write is as it was afterwards.
 */

import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { createStore } from 'zustand/vanilla';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Command } from '../../../../app/core/run/command/command.ts';
import type { DeskTools } from '../../../../renderer/desk/desk-tools.ts';
import { Desk } from '../../../../renderer/desk/desk.tsx';
import { keepDraft } from '../../../../renderer/desk/write/draft.ts';
import type { Link } from '../../../../renderer/link/link.ts';
import { createDeckStore, type DeckRun } from '../../../../renderer/link/store.ts';
import type { Sound } from '../../../../renderer/sound/sound.ts';
import { createCoachActions } from '../../../../renderer/ui/coach/commands/coach-actions.ts';
import { createOffers } from '../../../../renderer/ui/coach/commands/offers.ts';
import { startFrames } from '../../../../renderer/ui/coach/frames.ts';
import { givenIn } from '../../../../app/core/run/view/given.ts';
import { runOf } from '../../../support/coach/coach-run.ts';
import { ownWriting, silentLibrary } from '../../../support/coach/write-window/own-writing.ts';
import { editorOf, writeText, writtenText } from '../../../support/coach/write-window/written-text.ts';

const SESSION = `Harbour squad, Thursday
start on 1
lane 1 base 1:30, 5 swimmers
lane 2 base 1:40, 6 swimmers

Warm-up
4 x 100 easy @ 2:00

Main set
3 rounds
  150 steady @ base
  4 x 50 fast @ 0:50/0:55
`;

/** The link that the rehearsal's sound goes by. */
const heard = vi.hoisted(() => ({ link: null as Link | null, turnedOff: 0 }));

vi.mock('../../../../renderer/sound/sound.ts', () => ({
  openSound: (link: Link) => {
    heard.link = link;
    return silent(link);
  },
}));

function silent(link: Link): Sound {
  const store = createStore(() => ({ status: 'off', yielded: false, volume: 1, choice: {}, pulsing: false }));
  return { link, id: 'here', store, turnOff: () => void heard.turnedOff++ } as unknown as Sound;
}

class Window {
  readonly deck = createDeckStore();
  readonly given: Command[] = [];
  private readonly tools: DeskTools;

  constructor() {
    this.deck.setState({ status: 'live', run: null });
    const answer = Promise.resolve({ ok: false, at: null, why: 'Only a test.' });
    const link: Link = {
      store: this.deck,
      now: () => 40_000,
      exactNow: () => 40_000,
      hostNow: () => 40_000,
      lostFor: () => null,
      command: (command) => {
        this.given.push(command);
        return answer;
      },
      sound: () => undefined,
      room: () => undefined,
      wish: () => answer,
      which: () => undefined,
      touch: () => Promise.resolve({ ok: false, at: null, why: null }),
      share: () => Promise.resolve({ ok: false, at: null, why: null }),
      close: () => undefined,
    };
    const frames = startFrames(link);
    const actions = createCoachActions(link, () => 40_000, null);
    const light = { choice: () => 'system', choose: () => undefined, subscribe: () => () => undefined };
    const written = { writing: ownWriting(), askLibrary: silentLibrary };
    const tools = {
      link,
      frames,
      actions,
      offers: createOffers(frames, actions),
      sound: silent(link),
      light,
      ...written,
    };
    this.tools = tools as unknown as DeskTools;
    render(<Desk tools={this.tools} />);
  }

  /** Another screen opens this session, and maybe starts it. */
  other(commands: readonly (readonly [number, Command])[]): void {
    const state = runOf(SESSION, ...commands);
    const given = commands.map(([at, command]) => ({ at, command }));
    const times = { openedAt: 0, openedAtTimeOfDay: 0, clockPhase: 0, away: [] };
    const run = {
      id: 'run',
      state,
      plan: state.plan,
      given: givenIn(state),
      commands: given,
      lanesText: null,
      ...times,
    };
    act(() => this.deck.setState({ run: run as unknown as DeckRun }));
  }
}

beforeEach(() => {
  vi.useFakeTimers();
  localStorage.clear();
  heard.turnedOff = 0;
  keepDraft({ text: SESSION, lanesText: '', from: 'harbour.txt', during: null, file: null });
  // This small DOM loads no frames, and complains of each at length.
  const page: { createElement(name: string): Element } = document;
  const make = page.createElement.bind(page);
  vi.spyOn(page, 'createElement').mockImplementation((name) => make(name === 'iframe' ? 'figure' : name));
});

afterEach(() => {
  cleanup();
  vi.useRealTimers();
  vi.restoreAllMocks();
});

const button = (name: string | RegExp): HTMLElement => screen.getByRole('button', { name });
const tap = (name: string | RegExp): Promise<void> => passing(0, () => void fireEvent.click(button(name)));
const press = (key: string, code = key): Promise<void> =>
  passing(0, () => void fireEvent.keyDown(document.activeElement ?? document.body, { key, code }));
const rehearsal = (): HTMLElement | null => screen.queryByRole('main', { name: /^Rehearsal/ });
const said = (): string =>
  screen
    .getAllByRole('status')
    .map(({ textContent }) => textContent)
    .join(' ');

/** What happens, and then time; the frames that fall due are drawn. */
async function passing(ms: number, happens?: () => void): Promise<void> {
  await act(async () => {
    happens?.();
    await vi.advanceTimersByTimeAsync(ms + 40);
  });
}

async function rehearsed(): Promise<Window> {
  const desk = new Window();
  await passing(500);
  await tap('Rehearse');
  return desk;
}

describe('[rehearsal] in the coach’s window', () => {
  test('says what it is by name and in words, and waits for Start', async () => {
    await rehearsed();
    expect(rehearsal()).not.toBeNull();
    expect(document.activeElement?.textContent).toBe('Rehearsal');
    screen.getByText('Rehearsal, at its own speed: no screen at the pool shows this');
    expect(screen.queryByRole('textbox', { name: 'Session' })).toBeNull();
    await passing(2000);
    expect(button('Start')).toBeTruthy();
  });

  test('takes the keys of a run: Start, Stop, Resume, Skip rep, Sit out, Repeat, Undo', async () => {
    await rehearsed();
    await press('Enter');
    expect(said()).toContain('Started');
    await passing(12_000);
    for (const [key, code, sentence] of [
      [' ', 'Space', 'Stopped all lanes.'],
      [' ', 'Space', 'Resumed all lanes'],
      ['s', 'KeyS', 'Skipped'],
      ['u', 'KeyU', 'Undid'],
      ['o', 'KeyO', 'Sat out'],
      ['r', 'KeyR', 'Repeat'],
    ] as const) {
      await press(key, code);
      expect(said()).toContain(sentence);
      await passing(1000);
    }
  });

  test('reaches no host, and leaves nothing in the browser', async () => {
    const asked = vi.fn();
    vi.stubGlobal('fetch', asked);
    const before = JSON.stringify(localStorage);
    const desk = await rehearsed();
    await tap('Start');
    await passing(2000);
    await tap('Stop all lanes');
    await tap('Mark');
    await press('Escape');
    await tap('Leave the rehearsal');
    expect(rehearsal()).toBeNull();
    expect(desk.given).toEqual([]);
    expect(asked).not.toHaveBeenCalled();
    expect(JSON.stringify(localStorage)).toBe(before);
    vi.unstubAllGlobals();
  });

  test('begins from any part or line, and again from there', async () => {
    await rehearsed();
    const from = screen.getByRole('combobox', { name: 'From' }) as HTMLSelectElement;
    const choice = [...from.options].find(({ text }) => text === 'Main set: 4 x 50 fast')!;
    await passing(0, () => void fireEvent.change(from, { target: { value: choice.value } }));
    await tap('Start');
    expect(said()).toContain('Main set');
    await tap('Begin again');
    expect(button('Start')).toBeTruthy();
  });

  test('goes on at the speed that is chosen; what the coach does but Start brings it back to its own', async () => {
    await rehearsed();
    await tap('60 times the speed');
    await tap('Start');
    await passing(3000);
    expect(button('60 times the speed').getAttribute('aria-pressed')).toBe('true');
    screen.getByText(/^Rehearsal, 60 times the speed, silent/);
    screen.getByText(/^[3-4]:\d\d since it began/);
    await tap('Skip rep');
    expect(button('1 times the speed').getAttribute('aria-pressed')).toBe('true');
    await passing(5000);
    await tap('Undo');
    expect(said()).toContain('Undid');
  });

  test('sounds at its own speed alone, not while it is paused, and not any more once it is left', async () => {
    await rehearsed();
    const hears = (): boolean => heard.link!.exactNow() !== null;
    expect(hears()).toBe(true);
    await tap('Pause');
    expect(hears()).toBe(false);
    await tap('Go on');
    expect(hears()).toBe(true);
    await tap('5 times the speed');
    expect(hears()).toBe(false);
    await tap('1 times the speed');
    expect(heard.turnedOff).toBe(0);
    await press('Escape');
    expect([hears(), heard.turnedOff]).toEqual([false, 1]);
  });

  test('does not open what is for the run alone, and says so', async () => {
    await rehearsed();
    await press('e', 'KeyE');
    expect(said()).toContain('Leave the rehearsal to change the text.');
    await press('w', 'KeyW');
    expect(said()).toContain('Leave the rehearsal to change a screen.');
  });

  test('ends with what there is to say of the session, and can be begun again', async () => {
    await rehearsed();
    fireEvent.keyDown(document.body, { key: 'F', code: 'KeyF', shiftKey: true });
    await passing(100);
    screen.getByText(/^The session is over/);
    await tap('Begin again');
    expect(button('Start')).toBeTruthy();
  });
});

describe('[rehearsal] afterwards', () => {
  test('text, cursor and undo are in Write as they were', async () => {
    new Window();
    await passing(500);
    const before = editorOf();
    act(() => {
      before.dispatch({ changes: { from: 0, insert: 'Our ' }, selection: { anchor: 7 }, userEvent: 'input.type' });
    });
    await passing(500);
    await tap('Rehearse');
    await tap('Start');
    await passing(5000);
    await press('Escape');
    expect(writtenText()).toBe(`Our ${SESSION}`);
    const after = editorOf();
    expect(after.state.selection.main.head).toBe(7);
    act(() => void fireEvent.keyDown(after.contentDOM, { key: 'z', code: 'KeyZ', ctrlKey: true }));
    expect(writtenText()).toBe(SESSION);
  });

  test('the button that it was begun by has the keyboard again, where it had it', async () => {
    new Window();
    await passing(500);
    act(() => button('Rehearse').focus());
    await tap('Rehearse');
    await press('Escape');
    expect(document.activeElement).toBe(button('Rehearse'));
  });

  test.each([
    ['a lane that is chosen', () => tap('Lane 1'), () => button('Lane 1').getAttribute('aria-pressed') === 'false'],
    ['an open panel', () => tap('Mark'), () => screen.queryByRole('textbox') === null],
  ])('Escape takes back %s first, and leaves with the next press', async (_, open, isClosed) => {
    await rehearsed();
    await open();
    expect(isClosed()).toBe(false);
    await press('Escape');
    expect([isClosed(), rehearsal() !== null]).toEqual([true, true]);
    await passing(1000);
    await press('Escape');
    expect(rehearsal()).toBeNull();
  });

  test('a choice in the list of places keeps Escape to itself', async () => {
    await rehearsed();
    act(() => screen.getByRole('combobox', { name: 'From' }).focus());
    await press('Escape');
    expect(rehearsal()).not.toBeNull();
  });
});

describe('[rehearsal] beside a run', () => {
  test('it is refused while a run is going', async () => {
    const desk = new Window();
    desk.other([]);
    await passing(500);
    await tap('Edit');
    desk.other([[0, { do: 'start' }]]);
    await tap('Rehearse');
    expect(rehearsal()).toBeNull();
    expect(said()).toContain('A run is going: finish it first, then rehearse.');
  });

  test('a text that has just got a fault, and was not read again yet, is not rehearsed', async () => {
    new Window();
    await passing(500);
    writeText(SESSION.replace('@ 2:00', '@ 2.00'));
    await tap('Rehearse');
    expect(rehearsal()).toBeNull();
    expect(said()).toContain('The text has faults: mend them first.');
  });

  test('it ends by itself once another screen has started a run, says so, and the run is there', async () => {
    const desk = await rehearsed();
    await tap('Start');
    desk.other([[0, { do: 'start' }]]);
    await passing(100);
    expect(rehearsal()).toBeNull();
    const notice = screen.getByRole('status', { name: 'The rehearsal' });
    within(notice).getByText('The rehearsal has ended: a run is going.');
    fireEvent.click(button('Stop all lanes'));
    expect(desk.given).toEqual([{ do: 'stop' }]);
    fireEvent.click(within(notice).getByRole('button', { name: 'I have read it' }));
    expect(screen.queryByRole('status', { name: 'The rehearsal' })).toBeNull();
  });
});
