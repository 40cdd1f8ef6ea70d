/*
 * The coach's hand against a host that answers as the run itself would: what is sent, and what is said.
 */

import { describe, expect, test } from 'vitest';
import { createStore } from 'zustand/vanilla';
import type { Command, TimedCommand } from '../../../../../app/core/run/command/command.ts';
import { apply } from '../../../../../app/core/run/fold.ts';
import { givenIn } from '../../../../../app/core/run/view/given.ts';
import type { Link } from '../../../../../renderer/link/link.ts';
import { UNHEARD, type ExpectedReps } from '../../../../../renderer/link/outbox.ts';
import { createDeckStore, type DeckRun } from '../../../../../renderer/link/store.ts';
import { commandNamed } from '../../../../../renderer/ui/coach/commands/actions.ts';
import { createHand, type Hand } from '../../../../../renderer/ui/coach/commands/hand.ts';
import { runOf } from '../../../../support/coach/coach-run.ts';

const SET = 'lane 1\nlane 2\nSet\n4 x 50 fast @ 1:00/1:10';

interface Table {
  readonly hand: Hand;
  readonly sent: {
    readonly command: Command;
    readonly seen: ExpectedReps | undefined;
    readonly madeFrom?: string | undefined;
  }[];
  /** The run's t, and the page's own clock. */
  at(t: number): void;
  /** A command that another screen gives. */
  other(command: Command): void;
  said(): string | undefined;
}

function table({ refuse = null, lost = false }: { refuse?: string | null; lost?: boolean } = {}): Table {
  const store = createDeckStore();
  const sent: Table['sent'] = [];
  let now = 20_000;
  const started = runOf(SET, [0, { do: 'start' }]);
  const run: DeckRun = {
    id: 'run',
    plan: started.plan,
    state: started,
    given: givenIn(started),
    commands: [{ at: 0, command: { do: 'start' } }],
    lanesText: null,
    openedAt: 0,
    clockPhase: 0,
    openedAtTimeOfDay: 0,
    away: [],
  };
  const take = (command: Command): void => {
    const before = store.getState().run!;
    const answer = apply(before.state, command, now);
    if (!answer.ok) throw new Error(answer.why);
    const commands: TimedCommand[] = [...before.commands, { at: now, command }];
    store.setState({ run: { ...before, state: answer.state, given: givenIn(answer.state), commands } });
  };
  const link: Link = {
    store,
    now: () => now,
    exactNow: () => now,
    sound: () => undefined,
    lostFor: () => null,
    room: () => undefined,
    wish: () => Promise.resolve({ ok: false, at: null, why: null }),
    which: () => undefined,
    command(command, seen, madeFrom) {
      sent.push({ command, seen, madeFrom });
      if (refuse !== null) return Promise.resolve({ ok: false, at: null, why: refuse });
      take(command);
      return Promise.resolve({ ok: true, at: now, why: null });
    },
    close: () => undefined,
  };
  const hand = createHand(link, () => now, null);
  store.setState({ status: lost ? 'lost' : 'live', run });
  return {
    hand,
    sent,
    at: (t) => void (now = t),
    other: take,
    said: () => hand.store.getState().said?.text,
  };
}

describe('giving a command', () => {
  test('what was on the screen goes with it, for the lanes it is for', async () => {
    const { hand, sent } = table();
    await hand.act('skip', [2]);
    expect(sent).toEqual([{ command: { do: 'skip', lanes: [2] }, seen: { 2: { line: 4, rounds: [], rep: 2 } } }]);
    await hand.act('sit-out');
    expect(Object.keys(sent[1]?.seen ?? {})).toEqual(['1', '2']);
  });

  test('a cut names what each lane was seen to have next', async () => {
    const { hand, sent } = table();
    await hand.give({ do: 'cut', line: 4, n: 1 });
    const next = { line: 4, rounds: [], rep: 2 };
    expect(sent).toEqual([{ command: { do: 'cut', line: 4, n: 1 }, seen: { 1: next, 2: next }, madeFrom: undefined }]);
  });

  test('a rewrite names the text that it was made from', async () => {
    const { hand, sent } = table();
    await hand.give({ do: 'rewrite', text: `${SET}\nSwim-down\n50 easy` }, SET);
    expect(sent.map(({ madeFrom }) => madeFrom)).toEqual([SET]);
  });

  test('nothing is named as seen where nothing is dropped, moved or repeated', async () => {
    const { hand, sent } = table();
    await hand.act('stop');
    expect(sent).toEqual([{ command: { do: 'stop' }, seen: undefined }]);
  });

  test('what the run would refuse is not sent, and its reason is said', async () => {
    const { hand, sent, said } = table();
    expect(await hand.act('resume')).toBe(false);
    expect(sent).toEqual([]);
    expect(said()).toBe('No lane is stopped.');
  });

  test('what the host refuses is said in its words', async () => {
    const t = table({ refuse: 'Lane 2 has left meanwhile.' });
    expect(await t.hand.act('skip', [2])).toBe(false);
    expect(t.said()).toBe('Lane 2 has left meanwhile.');
    expect(t.hand.store.getState().said?.kind).toBe('refused');
  });

  test('while the program is lost it is said at once, and an unanswered one is named', async () => {
    const t = table({ refuse: UNHEARD, lost: true });
    const given = t.hand.act('stop');
    expect(t.said()).toBe(
      'Stop all lanes has not reached the program: call out to the swimmers. It counts if the program is back within 5 s.',
    );
    expect(await given).toBe(false);
    expect(t.said()).toBe('Stop all lanes was not answered: look whether it was done before you give it again.');
  });

  test.each<[Command, string]>([
    [{ do: 'shift', lanes: [1], seconds: 5 }, '+5 s lane 1'],
    [{ do: 'lane-out', lanes: [2] }, 'Lane 2 out'],
    [{ do: 'move-on' }, 'Move on'],
    [{ do: 'undo' }, 'Undo'],
  ])('%j is named by what it does and to whom', (command, name) => {
    expect(commandNamed(command)).toBe(name);
  });

  test('a choice of lanes is for one command', async () => {
    const { hand, sent } = table();
    hand.toggle(2);
    await hand.act('skip');
    await hand.act('skip');
    expect(sent.map(({ command }) => command)).toEqual([{ do: 'skip', lanes: [2] }, { do: 'skip' }]);
  });

  test('Stop and Resume are for all lanes, whatever is chosen; a lane stops where it is named', async () => {
    const t = table();
    t.hand.toggle(2);
    await t.hand.act('stop');
    t.at(21_500);
    t.hand.toggle(1);
    await t.hand.act('resume');
    await t.hand.act('stop', [2]);
    expect(t.sent.map(({ command }) => command)).toEqual([
      { do: 'stop' },
      { do: 'resume' },
      { do: 'stop', lanes: [2] },
    ]);
  });

  test('what may be done is judged by the run at the press', () => {
    const t = table();
    expect(t.hand.refusal({ do: 'resume' })).toBe('No lane is stopped.');
    t.other({ do: 'stop' });
    t.at(21_500);
    expect(t.hand.refusal({ do: 'resume' })).toBeNull();
  });

  test('a second press within 300 ms is the same press', async () => {
    const t = table();
    await Promise.all([t.hand.act('skip'), t.hand.act('skip')]);
    t.at(20_300);
    await t.hand.act('skip');
    expect(t.sent).toHaveLength(2);
  });
});

describe('what is said', () => {
  test('a command of one’s own once, not again as another screen’s', async () => {
    const t = table();
    await t.hand.act('stop');
    expect(t.said()).toBe('Stopped all lanes.');
    expect(t.hand.store.getState().said?.n).toBe(1);
  });

  test('a command of another screen, as such', () => {
    const t = table();
    t.other({ do: 'skip', lanes: [1] });
    expect(t.said()).toBe('From another screen: Skipped 50 fast in lane 1: next leave 1:00.');
  });

  test('nothing about what happened before the page was opened', () => {
    expect(table().said()).toBeUndefined();
  });

  test('for 20 s, then it is old', async () => {
    const t = table();
    await t.hand.act('stop');
    t.at(39_999);
    expect(t.hand.said()?.text).toBe('Stopped all lanes.');
    t.at(40_000);
    expect(t.hand.said()).toBeNull();
  });
});

test('the clock chosen for this screen is remembered', () => {
  const kept = new Map<string, string>();
  const memory = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
  const link = { store: createStore(() => createDeckStore().getState()) } as unknown as Link;
  createHand(link, () => 0, memory).setClock('pool');
  expect(createHand(link, () => 0, memory).store.getState().clock).toBe('pool');
});
