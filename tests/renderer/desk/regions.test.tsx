// @vitest-environment happy-dom
/* A throw while something of the coach's window is drawn takes that away, and nothing else. */

import { act, cleanup, fireEvent, render, screen, waitFor } from '@testing-library/react';
import type { ReactElement } from 'react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Command } from '../../../app/core/run/command/command.ts';
import type { DeskTools } from '../../../renderer/desk/desk-tools.ts';
import { Desk } from '../../../renderer/desk/desk.tsx';
import type { Link } from '../../../renderer/link/link.ts';
import { createDeckStore, type DeckRun } from '../../../renderer/link/store.ts';
import { startFrames, type Frames } from '../../../renderer/ui/coach/frames.ts';
import { createCoachActions } from '../../../renderer/ui/coach/commands/coach-actions.ts';
import { pageTouches } from '../../support/coach/page-touches.ts';
import { ownWriting, silentLibrary, silentRecords } from '../../support/coach/write-window/own-writing.ts';
import { createOffers } from '../../../renderer/ui/coach/commands/offers.ts';
import { Remote } from '../../../renderer/remote/remote.tsx';
import { openSound } from '../../../renderer/sound/sound.ts';
import { HARBOUR, runOf } from '../../support/coach/coach-run.ts';
import { writeText, writtenText } from '../../support/coach/write-window/written-text.ts';

/** Which parts of the window throw, by the module they are in; how often they were asked. */
const broken = vi.hoisted(() => new Set<string>());

/** The module with every component of it throwing while its name is among the broken. */
const breakable = vi.hoisted(() => async (name: string, original: () => Promise<unknown>) => {
  const module = (await original()) as Record<string, unknown>;
  const wrapped = Object.entries(module).map(([key, value]) => {
    if (typeof value !== 'function' || !/^[A-Z]/.test(key)) return [key, value] as const;
    const draw = value as (props: unknown) => unknown;
    const component = (props: unknown): unknown => {
      if (broken.has(name)) throw new Error(`broken: ${name}`);
      return draw(props);
    };
    return [key, component] as const;
  });
  return Object.fromEntries(wrapped);
});

vi.mock('../../../renderer/desk/run/run-head.tsx', (original) => breakable('run-head', original));
vi.mock('../../../renderer/desk/lanes/lane-row.tsx', (original) => breakable('lane-row', original));
vi.mock('../../../renderer/desk/lanes/lane-panel.tsx', (original) => breakable('lane-panel', original));
vi.mock('../../../renderer/desk/actions/mark-panel.tsx', (original) => breakable('mark-panel', original));
vi.mock('../../../renderer/desk/outline/outline.tsx', (original) => breakable('outline', original));
vi.mock('../../../renderer/desk/run/run-late.tsx', (original) => breakable('run-late', original));
vi.mock('../../../renderer/desk/actions/feedback-bar.tsx', (original) => breakable('feedback-bar', original));
vi.mock('../../../renderer/desk/actions/action-bar.tsx', (original) => breakable('action-bar', original));
vi.mock('../../../renderer/desk/notices.tsx', (original) => breakable('notices', original));
vi.mock('../../../renderer/desk/edit/rewrite-screen.tsx', (original) => breakable('rewrite-screen', original));
vi.mock('../../../renderer/desk/write/write-screen.tsx', (original) => breakable('write-screen', original));
vi.mock('../../../renderer/desk/timetable/timetable-view.tsx', (original) => breakable('timetable-view', original));
vi.mock('../../../renderer/desk/afterwards/afterwards.tsx', (original) => breakable('afterwards', original));
vi.mock('../../../renderer/ui/coach/clock.tsx', (original) => breakable('clock', original));

const GOING: readonly [number, Command][] = [
  [0, { do: 'move-on' }],
  [5000, { do: 'start' }],
];

class Window {
  readonly deck = createDeckStore();
  readonly given: Command[] = [];
  readonly frames: Frames;
  readonly tools: DeskTools;

  constructor(commands: readonly (readonly [number, Command])[] = GOING, text = HARBOUR, t = 40_000) {
    const state = runOf(text, ...commands);
    const given = commands.map(([at, command]) => ({ at, command }));
    const run = { id: 'run', state, commands: given, openedAtTimeOfDay: 70_200_000, away: [] } as unknown as DeckRun;
    this.deck.setState({ status: 'live', run });
    const link: Link = {
      store: this.deck,
      now: () => t,
      exactNow: () => t,
      hostNow: () => t,
      lostFor: () => null,
      command: (command) => {
        this.given.push(command);
        return Promise.resolve({ ok: false, at: null, why: 'Only a test.' });
      },
      sound: () => undefined,
      room: () => undefined,
      wish: () => Promise.resolve({ ok: false, at: null, why: null }),
      which: () => undefined,
      touch: () => Promise.resolve({ ok: false, at: null, why: null }),
      share: () => Promise.resolve({ ok: false, at: null, why: null }),
      close: () => undefined,
    };
    this.frames = startFrames(link);
    const actions = createCoachActions(link, () => t, null);
    const idle = (): void => undefined;
    const sound = openSound(link, null, {
      now: () => t,
      every: idle,
      isHidden: () => false,
      onHidden: idle,
      openOutput: () => {
        throw new Error('no sound is wanted');
      },
    });
    const light = { choice: () => 'system', choose: idle, subscribe: () => idle } as unknown as DeskTools['light'];
    const offers = createOffers(this.frames, actions);
    const writing = ownWriting();
    this.tools = {
      link,
      frames: this.frames,
      actions,
      offers,
      touches: pageTouches(link),
      sound,
      light,
      writing,
      askLibrary: silentLibrary,
      askRecords: silentRecords,
    };
  }

  show(page: (tools: DeskTools) => ReactElement = (tools) => <Desk tools={tools} />): void {
    render(page(this.tools), { onCaughtError: () => undefined });
  }

  /** What the host says next: the same run. */
  snapshot(): void {
    act(() => this.deck.setState(({ run }) => ({ run: run && { ...run } })));
  }
}

let told: ReturnType<typeof vi.spyOn>;
let open: Window[] = [];

function opened(...args: ConstructorParameters<typeof Window>): Window {
  const window = new Window(...args);
  open.push(window);
  return window;
}

beforeEach(() => {
  told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
});

afterEach(() => {
  cleanup();
  open.forEach(({ frames }) => frames.stop());
  open = [];
  broken.clear();
  vi.restoreAllMocks();
});

const alerts = (): readonly string[] => screen.queryAllByRole('alert').map(({ textContent }) => textContent ?? '');
const button = (name: string | RegExp): HTMLElement => screen.getByRole('button', { name });
const press = (key: string, code = key): void => void fireEvent.keyDown(window, { key, code });

describe.each([
  ['run-head', 'The head'],
  ['lane-row', 'Lane 1'],
  ['outline', 'The session'],
  ['run-late', 'The time in hand'],
  ['feedback-bar', 'The line above the actions'],
  ['notices', 'The notices'],
  ['action-bar', 'The row of actions'],
  ['clock', 'The head'],
])('[faults] a throw while %s is drawn', (module, name) => {
  test('is said in its place, and Stop is there to be pressed', () => {
    broken.add(module);
    const desk = opened();
    desk.show();
    expect(alerts().join()).toContain(`${name} cannot be drawn.`);
    fireEvent.click(button('Stop all lanes'));
    expect(desk.given).toEqual([{ do: 'stop' }]);
  });

  test('leaves the keys alone', () => {
    broken.add(module);
    const desk = opened();
    desk.show();
    press(' ', 'Space');
    expect(desk.given).toEqual([{ do: 'stop' }]);
  });

  test('is drawn again when the host says something new, and on demand', () => {
    broken.add(module);
    const desk = opened();
    desk.show();
    const said = alerts().length;
    desk.snapshot();
    expect(alerts()).toHaveLength(said);
    broken.clear();
    fireEvent.click(button(`Draw it again: ${name}`));
    expect(alerts()).toHaveLength(said - 1);
    desk.snapshot();
    expect(alerts()).toEqual([]);
  });
});

describe('[faults] what is opened over the run', () => {
  test.each([
    ['lane-panel', 'Lane 1…', "Lane 1's panel"],
    ['mark-panel', 'Mark', 'Mark'],
  ])('a throw in %s can be closed, and takes nothing else away', (module, opens, name) => {
    const desk = opened();
    desk.show();
    broken.add(module);
    fireEvent.click(button(opens));
    expect(alerts()).toHaveLength(1);
    fireEvent.click(button('Stop all lanes'));
    fireEvent.click(button(`Close: ${name}`));
    expect(alerts()).toEqual([]);
    expect(desk.given).toEqual([{ do: 'stop' }]);
  });

  test('a throw while editing leaves Stop, the keys, and a way back to the run', () => {
    const desk = opened();
    desk.show();
    broken.add('rewrite-screen');
    fireEvent.click(button('Edit'));
    fireEvent.click(button('Stop all lanes'));
    fireEvent.click(button('Close: Edit'));
    expect(alerts()).toEqual([]);
    expect(desk.given).toEqual([{ do: 'stop' }]);
    expect(screen.getByRole('region', { name: 'Lane 1' })).toBeTruthy();
  });

  test('a throw in its timetable leaves what is typed', async () => {
    const desk = opened();
    desk.show();
    broken.add('timetable-view');
    fireEvent.click(button('Edit'));
    const written = writtenText();
    writeText(`${written}\n8 x 25 easy @ 0:45`);
    await waitFor(() => expect(alerts()).toHaveLength(1));
    expect(writtenText()).toBe(`${written}\n8 x 25 easy @ 0:45`);
    broken.clear();
    writeText(`${written}\n8 x 25 easy @ 0:50`);
    await waitFor(() => expect(alerts()).toEqual([]));
  });
});

describe('[faults] the other states of the window', () => {
  test('writing and afterwards say so as well', () => {
    broken.add('write-screen').add('afterwards');
    const writing = opened();
    writing.deck.setState({ run: null });
    writing.show();
    expect(alerts().join()).toContain('The write page cannot be drawn.');
    cleanup();
    opened([...GOING, [20_000, { do: 'finish' }]]).show();
    expect(alerts().join()).toContain('What was swum cannot be drawn.');
  });

  test('the remote keeps Stop whatever throws', () => {
    broken.add('clock');
    const remote = opened();
    remote.show((tools) => <Remote tools={tools} />);
    expect(alerts()).toHaveLength(1);
    fireEvent.click(button('Stop'));
    expect(remote.given).toEqual([{ do: 'stop' }]);
  });
});

describe('[faults] the loop of frames', () => {
  test('one who draws and throws is reported once, and the others are drawn on every frame', async () => {
    const desk = opened();
    let drawn = 0;
    desk.frames.draw(() => {
      throw new Error('cannot draw');
    });
    desk.frames.draw(() => drawn++);
    await vi.waitFor(() => expect(drawn).toBeGreaterThan(3));
    expect(told.mock.calls.filter(([words]: readonly unknown[]) => String(words).includes('cannot draw'))).toHaveLength(
      1,
    );
  });

  test('a run that cannot be worked out leaves the buttons, and no digits that may be wrong', async () => {
    const desk = opened();
    desk.show();
    await vi.waitFor(() => expect(screen.getByRole('timer', { name: 'Clock' }).textContent).toMatch(/\d/));
    const moments: unknown[] = [];
    desk.frames.draw((moment) => moments.push(moment));
    act(() =>
      desk.deck.setState(({ run }) => ({ run: run && { ...run, state: { ...run.state, lanes: null as never } } })),
    );
    await vi.waitFor(() => expect(moments[moments.length - 1]).toBeNull());
    expect(screen.getByRole('timer', { name: 'Clock' }).textContent).toBe('–:––');
    expect(button('Stop all lanes')).toBeTruthy();
    expect(desk.frames.shown()).not.toBeNull();
  });
});
