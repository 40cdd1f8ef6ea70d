/* The pool's clock matched before the first start: the run is opened anew, and what the coach had set up stands. */

import { describe, expect, test } from 'vitest';
import type { Command } from '../../../app/core/run/command/command.ts';
import { hasStarted, notUndone } from '../../../app/core/run/first-start.ts';
import { view } from '../../../app/core/run/view.ts';
import { SETTLED } from '../../../app/core/run/view/settled.ts';
import { readJournal } from '../../../app/host/journal/journal-text.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { FOLDER, JournalledDeck, restarted, SQUAD } from '../../support/host/deck/journalled-deck.ts';

const REWRITTEN = SQUAD.replace('8 x 50', '6 x 100');

/** Opened 7 s ago, by what has been commanded since, a second apart. */
async function told(...commands: readonly Command[]): Promise<JournalledDeck> {
  const { deck } = await JournalledDeck.start();
  await deck.open(SQUAD);
  await deck.pass(7000);
  for (const [index, command] of commands.entries()) {
    const answer = await deck.host.command(`c-${index}`, { ...command });
    if (!answer.ok) throw new Error(answer.why);
    await deck.pass(1000);
  }
  return deck;
}

/** Whatever a screen could show of the run now. */
function shown({ host, clock }: JournalledDeck): unknown {
  const { state, openedAt, openedAtTimeOfDay, away } = host.current()!;
  const t = Math.floor(clock.now() - openedAt);
  const seen = view(state, t);
  return {
    t,
    view: { ...seen, [SETTLED]: null, clock: { ...seen.clock, poolPhase: null } },
    openedAtTimeOfDay,
    away,
    text: state.plan.source,
    marks: state.marks,
  };
}

async function match(deck: JournalledDeck, phase: number | null): Promise<string> {
  const answer = await deck.host.matchClock(deck.host.current()!.id, phase);
  if (!answer.ok) throw new Error(answer.why);
  return answer.run;
}

/** What the pool's clock shows past the full minute. */
function poolClock(deck: JournalledDeck): number {
  return (deck.host.current()!.clockPhase + Math.floor(deck.now())) % 60_000;
}

const SET_UP: readonly (readonly [string, readonly Command[]])[] = [
  ['nothing', []],
  [
    'swimmers and gap',
    [
      { do: 'swimmers', lanes: [1], n: 5 },
      { do: 'gap', lanes: [2], seconds: 10 },
    ],
  ],
  ['a lane out', [{ do: 'lane-out', lanes: [2] }]],
  [
    'a lane out and in again',
    [
      { do: 'lane-out', lanes: [2] },
      { do: 'lane-in', lanes: [2] },
    ],
  ],
  ['a cut', [{ do: 'cut', line: 7, n: 3 }]],
  ['another text', [{ do: 'rewrite', text: REWRITTEN }]],
  [
    'another text, cut, and the first again',
    [
      { do: 'rewrite', text: REWRITTEN },
      { do: 'cut', line: 7, n: 1 },
      { do: 'rewrite', text: SQUAD },
    ],
  ],
  ['a place', [{ do: 'go-to', line: 7, rep: 4 }]],
  ['the next stretch', [{ do: 'move-on' }]],
  ['the next stretch and back', [{ do: 'move-on' }, { do: 'restart' }]],
  [
    'marks',
    [
      { do: 'mark', words: 'late' },
      { do: 'mark', lanes: [2] },
    ],
  ],
  [
    'a cut that was undone, past a mark',
    [{ do: 'swimmers', n: 2 }, { do: 'cut', line: 7, n: 3 }, { do: 'mark' }, { do: 'undo' }],
  ],
  [
    'a start that was undone',
    [{ do: 'swimmers', n: 2 }, { do: 'start' }, { do: 'undo' }, { do: 'lane-out', lanes: [1] }],
  ],
];

describe('[clock] matched before the first start', () => {
  test.each(SET_UP)('after %s: everything but the clock is shown as before', async (_, commands) => {
    const deck = await told(...commands);
    const before = shown(deck);
    const id = deck.host.current()!.id;
    expect(await match(deck, 17_000)).not.toBe(id);
    expect(poolClock(deck)).toBe(17_000);
    expect(shown(deck)).toEqual(before);
    // And again when the match is taken back.
    await match(deck, null);
    expect(poolClock(deck)).toBe((deck.host.current()!.openedAtTimeOfDay + Math.floor(deck.now())) % 60_000);
    expect(shown(deck)).toEqual(before);
  });

  test.each(SET_UP)('after %s: the run comes back as it was, whatever was restarted', async (_, commands) => {
    for (const boot of ['boot-1', 'boot-2']) {
      const deck = await told(...commands);
      const id = await match(deck, 17_000);
      deck.kill();
      deck.clock.advance(4000);
      const { deck: again, recovery } = await restarted(deck, boot);
      expect(recovery.found?.run).toBe(id);
      expect(recovery.said).toEqual([]);
      expect(poolClock(again)).toBe(21_000);
      expect({ ...(shown(again) as object), away: null }).toEqual({ ...(shown(deck) as object), away: null });
    }
  });

  test('the run before is closed as replaced, and its journal keeps its lines', async () => {
    const deck = await told({ do: 'cut', line: 7, n: 3 });
    const former = deck.path();
    await match(deck, 0);
    const read = readJournal(deck.disk.files.get(former)!);
    if (read.kind !== 'journal') throw new Error('no journal');
    expect(read.entries[read.entries.length - 1]).toMatchObject({ say: 'closed', why: 'replaced' });
    expect([...deck.disk.files.keys()].filter((path) => path.startsWith(FOLDER))).toHaveLength(2);
  });

  test('killed while the new journal is being written, one of the two runs comes back whole', async () => {
    const deck = await told({ do: 'cut', line: 7, n: 3 });
    const before = shown(deck);
    deck.disk.refuses = 'ENOSPC';
    void deck.host.matchClock(deck.host.current()!.id, 0);
    await deck.pass(1);
    deck.kill();
    deck.disk.refuses = null;
    const { deck: again, recovery } = await restarted(deck);
    expect(recovery.found?.commands.map(({ command }) => command.do)).toEqual(['cut']);
    expect((shown(again) as { view: object }).view).toMatchObject({
      phase: (before as { view: { phase: string } }).view.phase,
    });
  });

  test('a command can still be undone for what is left of its ten seconds', async () => {
    const deck = await told({ do: 'swimmers', n: 2 }, { do: 'cut', line: 7, n: 3 });
    await deck.pass(9000);
    await match(deck, 0);
    expect(await deck.host.command('u', { do: 'undo' })).toMatchObject({ ok: true });
    expect(deck.host.current()!.state.cuts.size).toBe(0);
    await deck.pass(1000);
    expect(await deck.host.command('v', { do: 'undo' })).toMatchObject({ ok: false });
  });

  test('once taken back, the clock shows the time of day to the second, whenever the session was opened', async () => {
    const { deck } = await JournalledDeck.start(new FakeClock({ timeOfDay: 19.5 * 3_600_000 + 12_345 }));
    await deck.open(SQUAD);
    await match(deck, 50_000);
    await match(deck, null);
    expect(deck.host.current()!.clockPhase).toBe(12_345);
  });

  test('a start goes by the matched clock', async () => {
    const { deck } = await JournalledDeck.start();
    await deck.open(SQUAD.replace('start on 1', 'start on 60'));
    await deck.host.command('a', { do: 'swimmers', n: 2 });
    await deck.pass(7000);
    await match(deck, 45_000);
    await deck.host.command('s', { do: 'start' });
    expect(deck.host.current()!.state.t0).toBe(7000 + 15_000);
  });

  test('is refused once the run has started, and for another run', async () => {
    const deck = await told({ do: 'start' });
    const { id } = deck.host.current()!;
    expect(await deck.host.matchClock(id, 0)).toEqual({
      ok: false,
      why: 'The run has started: its clock can no longer be changed.',
    });
    expect(await deck.host.matchClock('another', 0)).toMatchObject({ ok: false });
    expect(deck.host.current()!.id).toBe(id);
  });
});

describe('[clock] which commands before the first start count', () => {
  const left = (...names: Command['do'][]): readonly string[] =>
    notUndone(names.map((name) => ({ command: { do: name } }))).map(({ command }) => command.do);

  test('an undo takes back the last command that is not a mark, and a second undo the one before', () => {
    expect(left('cut', 'mark', 'undo')).toEqual(['mark']);
    expect(left('swimmers', 'cut', 'undo', 'undo', 'gap')).toEqual(['gap']);
    expect(left('start', 'undo')).toEqual([]);
  });

  test('a start that was not undone has started the run', () => {
    expect(hasStarted([{ command: { do: 'start' } }, { command: { do: 'undo' } }])).toBe(false);
    expect(hasStarted([{ command: { do: 'start' } }, { command: { do: 'restart' } }])).toBe(true);
  });
});
