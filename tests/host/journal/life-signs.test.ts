/* What the journal hears from the loop: every leave once, in order, when it has happened; and signs of life. */

import { describe, expect, test } from 'vitest';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import type { AliveSign } from '../../../app/host/journal/journal.ts';
import { JournalInMemory } from '../../support/host/folders/journal-in-memory.ts';
import { startLoop } from '../../../app/host/time/loop.ts';
import { lifeSigns, leavesWithin, nextEvent } from '../../../app/host/journal/life-signs.ts';
import { UNDO_FOR } from '../../../app/core/run/align.ts';
import { leavesOf } from '../../../app/core/run/record.ts';
import { settle, stretchEnd } from '../../../app/core/run/settle.ts';
import { settled } from '../../support/host/deck/journalled-deck.ts';
import { Deck } from '../../support/run/deck.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

const TEXT = `Squad
between auto 0:30
lane 1 base 1:00, 3 swimmers
lane 2 base 1:00

Main
6 x 50 @ 0:40/0:45
break 0:20

Swim-down
2 x 100 @ 2:00
`;

class SignedJournal extends JournalInMemory {
  readonly signs: AliveSign[] = [];

  override alive(sign: AliveSign): void {
    this.signs.push(sign);
  }
}

/** Every leave that was handed over, and how late; against what the run says happened. */
async function follow(drive: (clock: FakeClock, host: DeckHost) => Promise<void>) {
  const clock = new FakeClock({ now: 5000.4 });
  const journal = new SignedJournal();
  const host = new DeckHost({ clock, timers: clock.timers, journal, newId: () => 'run' });
  const loop = startLoop(clock, clock.timers, [lifeSigns(host, clock, journal)]);
  host.onChange(() => loop.wake());
  // Off the loop's own quarters of a second, which would hand over a round leave on time by chance.
  clock.advance(100);
  await host.open({ text: TEXT, lanesText: null }, { replace: false, clockPhase: 0 });
  await drive(clock, host);
  loop.stop();
  const run = host.current()!;
  const handed = journal.signs.flatMap(({ leaves, hostTime }) =>
    leaves.map(({ lane, at }) => ({ lane, at, late: hostTime - run.openedAt - at })),
  );
  const end = (journal.signs.at(-1)?.hostTime ?? 0) - run.openedAt;
  const happened = leavesOf(settle(run.state, Math.ceil(end) - 1)).filter(({ at }) => at < end);
  return { journal, handed, happened };
}

describe('[follower] leaves', () => {
  test('each is handed over once, in order, within 1 ms', async () => {
    const { handed, happened } = await follow(async (clock, host) => {
      await host.command('a', { do: 'start' });
      clock.advance(900_000);
    });
    expect(happened).toHaveLength(2 * 6 + 2 * 2);
    expect(handed.map(({ lane, at }) => [at, lane])).toEqual(happened.map(({ lane, at }) => [at, lane]));
    for (const { late } of handed) {
      expect(late).toBeGreaterThan(0);
      expect(late).toBeLessThanOrEqual(1.01);
    }
  });

  test('are neither lost nor doubled by stalls, stops and a sleeping machine', async () => {
    const { handed, happened } = await follow(async (clock, host) => {
      await host.command('a', { do: 'start' });
      clock.advance(9999);
      clock.stall(3000);
      clock.advance(30_000);
      await host.command('b', { do: 'stop', lanes: [2] });
      clock.sleep(60_000);
      clock.advance(20_000);
      await host.command('c', { do: 'resume' });
      clock.stall(100_000);
      clock.advance(900_000);
    });
    expect(handed.map(({ lane, at }) => [at, lane])).toEqual(happened.map(({ lane, at }) => [at, lane]));
    expect(happened).toHaveLength(2 * 6 + 2 * 2);
  });

  test('on their way when all is called off still happen, and are handed over at their time', async () => {
    const { handed } = await follow(async (clock, host) => {
      await host.command('a', { do: 'start' });
      clock.advance(9800);
      await host.command('b', { do: 'finish' });
      clock.advance(10_000);
    });
    expect(handed.map(({ lane, at }) => [at, lane])).toEqual([
      [10_000, 1],
      [10_000, 2],
    ]);
    for (const { late } of handed) expect(late > 0 && late <= 1.01).toBe(true);
  });
});

describe('[follower] at the edges', () => {
  test('a leave on its way when a command comes is handed over at its own time', async () => {
    const { handed } = await follow(async (clock, host) => {
      await host.command('a', { do: 'start' });
      clock.advance(9800);
      await host.command('b', { do: 'skip' });
      clock.advance(1000);
    });
    expect(handed.map(({ at }) => at)).toEqual([10_000, 10_000]);
    for (const { late } of handed) expect(late > 0 && late <= 1.01).toBe(true);
  });

  test('a span includes its beginning and excludes its end', () => {
    const { state } = new Deck(TEXT).at(0, { do: 'start' });
    const times = (from: number, to: number) => leavesWithin(state, from, to).map(({ at }) => at);
    expect(times(10_000, 50_000)).toEqual([10_000, 10_000]);
    expect(times(50_000, 50_001)).toEqual([50_000]);
    expect(times(49_999.5, 50_000)).toEqual([]);
    expect(times(49_999.5, 50_000.25)).toEqual([50_000]);
    expect(times(50_000.25, 55_000)).toEqual([]);
  });

  test('a leave on its way when a command came belongs to the span of its own time', () => {
    const { state } = new Deck(TEXT).at(0, { do: 'start' }).at(9.8, { do: 'skip' });
    const times = (from: number, to: number) => leavesWithin(state, from, to).map(({ at }) => at);
    expect([times(9800, 9900), times(9900, 10_000), times(10_000, 10_001)]).toEqual([[], [], [10_000, 10_000]]);
  });

  test('a sign of life is due five seconds after the last, and not before', async () => {
    const clock = new FakeClock();
    const journal = new SignedJournal();
    const host = new DeckHost({ clock, timers: clock.timers, journal, newId: () => 'run' });
    const signs = lifeSigns(host, clock, journal);
    expect(signs.due(0)).toBe(Infinity);
    await host.open({ text: TEXT, lanesText: null }, { replace: false });
    const begin = clock.now();
    const taken = (from: number, to: number): number => {
      signs.take({ from: begin + from, to: begin + to });
      return journal.signs.length;
    };
    expect(taken(0, 1)).toBe(1);
    expect(signs.due(begin + 1)).toBe(begin + 5001);
    expect([taken(1, 5000), taken(5000, 5001), taken(5001, 10_000)]).toEqual([1, 2, 2]);
  });

  test('the next thing due is a leave, or the end after the last of them', () => {
    const { state } = new Deck(TEXT).at(0, { do: 'start' });
    expect(nextEvent(state, 10_000)).toBe(10_000);
    expect(nextEvent(state, 10_001)).toBe(50_000);
    expect(nextEvent(new Deck(TEXT).state, 0)).toBe(Infinity);
  });

  test('a stopped lane has no next thing due', () => {
    const { state } = new Deck(TEXT).at(0, { do: 'start' }).at(20, { do: 'stop', lanes: [1] });
    expect(nextEvent(state, 20_000)).toBe(55_000);
  });

  test('at the very time of a leave on its way, or of the end, that is the next thing due', () => {
    const skipped = new Deck(TEXT).at(0, { do: 'start' }).at(9.8, { do: 'skip' }).state;
    expect(nextEvent(skipped, 10_000)).toBe(10_000);
    const { state } = new Deck(TEXT).at(0, { do: 'start' });
    const end = stretchEnd(settle(state, 240_000));
    expect([nextEvent(state, end), nextEvent(state, end - 1)]).toEqual([end, end]);
  });
});

describe('[follower] signs of life', () => {
  test('come at least every five seconds while a session is open, whatever happens', async () => {
    const { journal } = await follow((clock) => Promise.resolve(clock.advance(60_000)));
    const times = journal.signs.map(({ hostTime }) => hostTime);
    expect(times.length).toBeGreaterThanOrEqual(12);
    times.slice(1).forEach((time, index) => expect(time - times[index]!).toBeLessThanOrEqual(5002));
    expect(journal.signs.every(({ leaves }) => leaves.length === 0)).toBe(true);
  });

  test('end with the run: once nothing can be undone the run is closed', async () => {
    const { journal } = await follow(async (clock, host) => {
      await host.command('a', { do: 'start' });
      clock.advance(20_000);
      await host.command('b', { do: 'finish' });
      clock.advance(1_800_000);
      await settled();
    });
    const last = journal.signs.at(-1)!;
    expect(last.at).toBeGreaterThan(20_000 + UNDO_FOR);
    expect(last.at).toBeLessThanOrEqual(20_000 + UNDO_FOR + 5002);
    expect(journal.closings).toEqual([expect.objectContaining({ why: 'done' })]);
  });

  test('are not written without a session', () => {
    const clock = new FakeClock();
    const journal = new SignedJournal();
    const host = new DeckHost({ clock, timers: clock.timers, journal, newId: () => 'run' });
    const loop = startLoop(clock, clock.timers, [lifeSigns(host, clock, journal)]);
    clock.advance(30_000);
    loop.stop();
    expect(journal.signs).toEqual([]);
  });
});
