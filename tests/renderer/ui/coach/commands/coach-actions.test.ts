/*
 * The coach's actions with a host that answers as the run would: which commands are sent, and what the coach reads.
 */

import { describe, expect, test } from 'vitest';
import { createStore } from 'zustand/vanilla';
import type { Command } from '../../../../../app/core/run/command/command.ts';
import { apply } from '../../../../../app/core/run/fold.ts';
import { givenIn } from '../../../../../app/core/run/view/given.ts';
import type { Link } from '../../../../../renderer/link/link.ts';
import { UNHEARD } from '../../../../../renderer/link/outbox.ts';
import type { Seen } from '../../../../../renderer/link/seen.ts';
import { createDeckStore, type DeckRun } from '../../../../../renderer/link/store.ts';
import { commandNamed } from '../../../../../renderer/ui/coach/commands/action-list.ts';
import { createCoachActions, type CoachActions } from '../../../../../renderer/ui/coach/commands/coach-actions.ts';
import type { OwnStorage } from '../../../../../renderer/ui/coach/own-storage.ts';
import { runOf } from '../../../../support/coach/coach-run.ts';

const SET = 'lane 1\nlane 2\nSet\n4 x 50 fast @ 1:00/1:10';

interface Table {
  readonly actions: CoachActions;
  readonly sent: {
    readonly command: Command;
    readonly seen: Seen | undefined;
    readonly madeFrom?: string | undefined;
  }[];
  /** The run's t, and the page's own clock. */
  at(t: number): void;
  /** A command that another screen gives, `by` its name. */
  other(command: Command, by?: string): void;
  /** One that this screen hears of so much later, in ms. */
  late(command: Command, by: number): void;
  /** Several of them that come with one snapshot. */
  others(commands: readonly Command[], by: string): void;
  said(): string | undefined;
}

function table({
  refuse = null as string | null,
  lost = false,
  memory = null as OwnStorage | null,
  run: id = 'run',
} = {}): Table {
  const store = createDeckStore();
  const sent: Table['sent'] = [];
  let now = 20_000;
  const started = runOf(SET, [0, { do: 'start' }]);
  const run: DeckRun = {
    id,
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
  const after = (before: DeckRun, command: Command, by?: string): DeckRun => {
    const answer = apply(before.state, command, now);
    if (!answer.ok) throw new Error(answer.why);
    const commands = [...before.commands, { at: now, command, ...(by === undefined ? {} : { by }) }];
    return { ...before, state: answer.state, given: givenIn(answer.state), commands };
  };
  const take = (command: Command, by?: string): void =>
    store.setState({ run: after(store.getState().run!, command, by) });
  const link: Link = {
    store,
    now: () => now,
    exactNow: () => now,
    hostNow: () => now,
    sound: () => undefined,
    lostFor: () => null,
    room: () => undefined,
    wish: () => Promise.resolve({ ok: false, at: null, why: null }),
    which: () => undefined,
    touch: () => Promise.resolve({ ok: false, at: null, why: null }),
    share: () => Promise.resolve({ ok: false, at: null, why: null }),
    command(command, seen, madeFrom) {
      sent.push({ command, seen, madeFrom });
      if (refuse !== null) return Promise.resolve({ ok: false, at: null, why: refuse });
      take(command);
      return Promise.resolve({ ok: true, at: now, why: null });
    },
    close: () => undefined,
  };
  const actions = createCoachActions(link, () => now, memory);
  store.setState({ status: lost ? 'lost' : 'live', run });
  return {
    actions,
    sent,
    at: (t) => void (now = t),
    other: take,
    late(command, by) {
      now -= by;
      const run = after(store.getState().run!, command);
      now += by;
      store.setState({ run });
    },
    others: (commands, by) =>
      store.setState({ run: commands.reduce((run, command) => after(run, command, by), store.getState().run!) }),
    said: () => actions.store.getState().feedback?.text,
  };
}

describe('giving a command', () => {
  test('sends along what the screen showed as next, for the lanes it is for', async () => {
    const { actions, sent } = table();
    await actions.act('skip', [2]);
    expect(sent).toEqual([
      { command: { do: 'skip', lanes: [2] }, seen: { expected: { 2: { line: 4, rounds: [], rep: 2 } } } },
    ]);
    await actions.act('sit-out');
    expect(Object.keys(sent[1]?.seen?.expected ?? {})).toEqual(['1', '2']);
  });

  test('a cut sends along what each lane had next on the screen', async () => {
    const { actions, sent } = table();
    await actions.give({ do: 'cut', line: 4, n: 1 });
    const next = { line: 4, rounds: [], rep: 2 };
    expect(sent).toEqual([
      { command: { do: 'cut', line: 4, n: 1 }, seen: { expected: { 1: next, 2: next } }, madeFrom: undefined },
    ]);
  });

  test('is remembered as given here when the page is loaded again, for its run and as far back as can be undone', async () => {
    const kept = new Map<string, string>();
    const memory: OwnStorage = {
      getItem: (key) => kept.get(key) ?? null,
      setItem: (key, value) => void kept.set(key, value),
    };
    const before = table({ memory });
    for (let n = 0; n < 9; n++) {
      before.at(20_000 + n);
      await before.actions.give({ do: 'mark', words: `${n}` });
    }
    before.at(30_000);
    before.other({ do: 'mark' });
    const again = table({ memory }).actions;
    expect([20_001, 20_008, 20_000, 30_000].map(again.gave)).toEqual([true, true, false, false]);
    expect(table({ memory, run: 'another' }).actions.gave(20_008)).toBe(false);
    expect(table().actions.gave(20_008)).toBe(false);
  });

  test('a rewrite names the text that it was made from', async () => {
    const { actions, sent } = table();
    await actions.give({ do: 'rewrite', text: `${SET}\nSwim-down\n50 easy` }, SET);
    expect(sent.map(({ madeFrom }) => madeFrom)).toEqual([SET]);
  });

  test('sends nothing of the kind along if no rep is dropped, moved or repeated', async () => {
    const { actions, sent } = table();
    await actions.act('stop');
    expect(sent).toEqual([{ command: { do: 'stop' }, seen: {} }]);
  });

  test('is not sent if the run would refuse it, and the coach reads why', async () => {
    const { actions, sent, said } = table();
    expect(await actions.act('resume')).toBe(false);
    expect(sent).toEqual([]);
    expect(said()).toBe('No lane is stopped.');
  });

  test('the coach reads why the host refused it, in its words', async () => {
    const t = table({ refuse: 'Lane 2 has left meanwhile.' });
    expect(await t.actions.act('skip', [2])).toBe(false);
    expect(t.said()).toBe('Lane 2 has left meanwhile.');
    expect(t.actions.store.getState().feedback?.kind).toBe('refused');
  });

  test('while the host is lost the coach reads so at once, and which command had no answer', async () => {
    const t = table({ refuse: UNHEARD, lost: true });
    const given = t.actions.act('stop');
    expect(t.said()).toBe(
      'Stop all lanes has not reached the program: call out to the swimmers. It counts if the program is back within 5 s.',
    );
    expect(await given).toBe(false);
    expect(t.said()).toBe(
      'Stop all lanes was not answered: check whether it was carried out before you give it again.',
    );
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
    const { actions, sent } = table();
    actions.toggle(2);
    await actions.act('skip');
    await actions.act('skip');
    expect(sent.map(({ command }) => command)).toEqual([{ do: 'skip', lanes: [2] }, { do: 'skip' }]);
  });

  test('Stop and Resume are for all lanes, whatever is chosen; a lane stops where it is named', async () => {
    const t = table();
    t.actions.toggle(2);
    await t.actions.act('stop');
    t.at(21_500);
    t.actions.toggle(1);
    await t.actions.act('resume');
    await t.actions.act('stop', [2]);
    expect(t.sent.map(({ command }) => command)).toEqual([
      { do: 'stop' },
      { do: 'resume' },
      { do: 'stop', lanes: [2] },
    ]);
  });

  test('what may be done is judged by the run at the press', () => {
    const t = table();
    expect(t.actions.refusal({ do: 'resume' })).toBe('No lane is stopped.');
    t.other({ do: 'stop' });
    t.at(21_500);
    expect(t.actions.refusal({ do: 'resume' })).toBeNull();
  });

  test('a second press within 300 ms is the same press', async () => {
    const t = table();
    await Promise.all([t.actions.act('skip'), t.actions.act('skip')]);
    t.at(20_300);
    await t.actions.act('skip');
    expect(t.sent).toHaveLength(2);
  });
});

describe('the sentence after a command', () => {
  test('comes once for a command of this screen, not again as another screen’s', async () => {
    const t = table();
    await t.actions.act('stop');
    expect(t.said()).toBe('Stopped all lanes.');
    expect(t.actions.store.getState().feedback?.n).toBe(1);
  });

  test('says so if the command came from another screen', () => {
    const t = table();
    t.other({ do: 'skip', lanes: [1] });
    expect(t.said()).toBe('Coach’s window: Skipped 50 fast in lane 1: next leave 1:00.');
  });

  test('names the screen, where it has a name', () => {
    const t = table();
    t.other({ do: 'skip', lanes: [1] }, 'Remote 1');
    expect(t.said()).toBe('Remote 1: Skipped 50 fast in lane 1: next leave 1:00.');
  });

  test('tells all that came at once, an Undo and the mark behind it', () => {
    const t = table();
    t.other({ do: 'stop', lanes: [2] }, 'Remote 1');
    t.at(22_000);
    t.others([{ do: 'undo' }, { do: 'mark', words: 'cramp' }], 'Remote 1');
    expect(t.said()).toBe('Remote 1: Undid Stop, lane 2. Marked: cramp.');
  });

  test.each([
    [{ do: 'stop', lanes: [2] }, 'Stop, lane 2'],
    [{ do: 'skip', lanes: [1] }, 'Skip rep, lane 1'],
    [{ do: 'sit-out', lanes: [2] }, 'Sit out, lane 2'],
    [{ do: 'shift', seconds: 5 }, '+5 s'],
  ] as const)('says so of an Undo from another screen too: %j', (command, undone) => {
    const t = table();
    t.other(command);
    t.at(22_000);
    t.other({ do: 'undo' });
    expect(t.said()).toBe(`Coach’s window: Undid ${undone}.`);
  });

  test('of an Undo from another screen says what this screen had given', async () => {
    const t = table();
    await t.actions.act('stop', [2]);
    t.at(22_000);
    t.other({ do: 'undo' });
    expect(t.said()).toBe('Coach’s window: Undid Stop, lane 2.');
  });

  test('does not come for what another screen did while the link was lost: its times are over', () => {
    const t = table();
    t.late({ do: 'skip', lanes: [1] }, 3001);
    expect(t.said()).toBeUndefined();
    t.other({ do: 'sit-out', lanes: [2] });
    expect(t.said()).toMatch(/^Coach’s window: Sat out 50 fast in lane 2/);
    t.at(30_000);
    t.late({ do: 'skip', lanes: [1] }, 2999);
    expect(t.said()).toMatch(/^Coach’s window: Skipped/);
  });

  test('does not come for what happened before the page was opened', () => {
    expect(table().said()).toBeUndefined();
  });

  test('is shown for 20 s', async () => {
    const t = table();
    await t.actions.act('stop');
    t.at(39_999);
    expect(t.actions.feedback()?.text).toBe('Stopped all lanes.');
    t.at(40_000);
    expect(t.actions.feedback()).toBeNull();
  });
});

test('the clock chosen for this screen is remembered', () => {
  const kept = new Map<string, string>();
  const memory = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
  const link = { store: createStore(() => createDeckStore().getState()) } as unknown as Link;
  createCoachActions(link, () => 0, memory).setClock('pool');
  expect(createCoachActions(link, () => 0, memory).store.getState().clock).toBe('pool');
});
