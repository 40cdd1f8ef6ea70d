/* DeckHost: what a run's replacing, coming back, ending and being left make of its journal and of the screens' news. */

import { describe, expect, test } from 'vitest';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import type { FoundRun } from '../../../app/host/recovery/found-run.ts';
import type { Recovery } from '../../../app/host/recovery/recovery.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { THIS_MACHINE } from '../../../app/host/sharing/doors/guest.ts';
import { JournalInMemory } from '../../support/host/folders/journal-in-memory.ts';
import { runOf } from '../../support/coach/coach-run.ts';

const TEXT = 'lane 1\nlane 2\nMain set\n4 x 50 @ 1:00\n';
const SOURCE = { text: TEXT, lanesText: null };
const START: FoundRun['commands'][number] = {
  at: 0,
  id: 'start',
  by: { ...THIS_MACHINE, kind: 'desk' },
  fields: { do: 'start' },
  command: { do: 'start' },
};

class ToldJournal extends JournalInMemory {
  readonly backs: object[] = [];
  private caughtUp: () => void = () => undefined;

  override back(line?: object): Promise<void> {
    if (line) this.backs.push(line);
    return Promise.resolve();
  }

  override onCaughtUp(call?: () => void): void {
    if (call) this.caughtUp = call;
  }

  catchUp(): void {
    this.caughtUp();
  }
}

function deck() {
  const clock = new FakeClock({ now: 1_000_000 });
  const journal = new ToldJournal();
  let ids = 0;
  const host = new DeckHost({ clock, timers: clock.timers, journal, newId: () => `run-${++ids}` });
  return { clock, journal, host };
}

/** A run that was started 90 s before its host came back. */
function found(changes: Partial<FoundRun> = {}): Recovery {
  const run: FoundRun = {
    run: 'found',
    source: SOURCE,
    clockPhase: 0,
    openedAtTimeOfDay: 0,
    openedAtWall: 0,
    commands: [START],
    away: [{ from: 30_000, to: 90_000 }],
    state: runOf(TEXT, [0, { do: 'start' }]),
    position: { at: 90_000, seenAt: 30_000, by: 'monotonic', isKnown: true },
    weight: 0,
    file: { path: 'nowhere', bytes: new Uint8Array(), sum: '', torn: null },
    ...changes,
  };
  return { found: run, away: 'It is back.', said: [], unattended: { runs: [], told: () => Promise.resolve() } };
}

async function back(changes: Partial<FoundRun> = {}) {
  const all = deck();
  await all.host.comeBack(found(changes), all.clock.instant());
  return all;
}

describe('[host] opening a session in place of another', () => {
  test('closes the journal of the run before as replaced, at that time; the first session closes none', async () => {
    const { host, journal, clock } = deck();
    await host.open(SOURCE, { replace: false });
    expect(journal.closings).toEqual([]);
    clock.advance(5000);
    await host.open(SOURCE, { replace: false });
    expect(journal.closings).toMatchObject([{ run: 'run-1', why: 'replaced', at: 5000 }]);
  });

  test('is refused while a run is going, also one that started while the request waited its turn', async () => {
    const { host } = deck();
    await host.open(SOURCE, { replace: false });
    const start = host.command('a', { do: 'start' });
    const refused = { ok: false, reason: 'going', why: expect.stringMatching(/A run is going/) as string };
    expect(await host.open(SOURCE, { replace: false })).toEqual(refused);
    await start;
    expect(await host.open(SOURCE, { replace: false })).toEqual(refused);
    expect(host.current()!.id).toBe('run-1');
  });

  test('is not refused once the run is over', async () => {
    const { host, clock } = deck();
    await host.open(SOURCE, { replace: false });
    await host.command('a', { do: 'start' });
    clock.advance(600_000);
    expect(await host.open(SOURCE, { replace: false })).toEqual({ ok: true, run: 'run-2' });
  });
});

describe('[host] a run that comes back', () => {
  test('goes on at the right time, with its commands, their answers and the times when the host was away', async () => {
    const { host, journal, clock } = await back();
    expect(host.snapshot().run).toMatchObject({
      id: 'found',
      openedAt: clock.now() - 90_000,
      commands: [{ at: 0, command: { do: 'start' } }],
      away: [{ from: 30_000, to: 90_000 }],
    });
    expect(journal.backs).toMatchObject([{ run: 'found', at: 90_000, by: 'monotonic' }]);
    // The same id twice is one command, across the restart too.
    expect(await host.command('start', { do: 'start' })).toEqual({ ok: true, at: 0, why: null });
    expect(host.current()!.commands).toHaveLength(1);
  });

  test('stamps no command earlier than its last one, even if its clock came back earlier', async () => {
    const stop = { do: 'stop' } as const;
    const commands = [
      START,
      { at: 95_000, id: 'stop', by: { ...THIS_MACHINE, kind: 'remote' }, fields: stop, command: stop } as const,
    ];
    const state = runOf(TEXT, [0, { do: 'start' }], [95_000, { do: 'stop' }]);
    const { host } = await back({ commands, state });
    expect(await host.command('mark', { do: 'mark' })).toMatchObject({ ok: true, at: 95_000 });
  });

  test('is closed and gone once the coach leaves it', async () => {
    const { host, journal } = await back();
    const told: number[] = [];
    host.onChange(() => told.push(host.snapshot().n));
    expect(await host.leave('other')).toMatchObject({ ok: false });
    expect(told).toEqual([]);
    expect(await host.leave('found')).toEqual({ ok: true, why: null });
    expect(journal.closings).toMatchObject([{ run: 'found', why: 'left', at: 90_000 }]);
    expect(host.snapshot()).toMatchObject({ run: null, startUp: null });
    expect(host.texts()).toEqual([]);
    expect(told.length).toBeGreaterThan(0);
  });

  test('can no longer be left after it was opened anew, and not without a run', async () => {
    const { host } = await back();
    await host.open(SOURCE, { replace: true });
    expect(await host.leave('run-1')).toMatchObject({ ok: false });
    expect(await host.leave('found')).toMatchObject({ ok: false });
    expect(await deck().host.leave('found')).toMatchObject({ ok: false });
  });

  test('is reported once: screens hear when the coach has read the report', async () => {
    const { host } = await back();
    expect(host.snapshot().notices).toEqual(['It is back.']);
    const before = host.snapshot().n;
    host.told();
    for (let turn = 0; turn < 10; turn++) await Promise.resolve();
    expect(host.snapshot().n).toBeGreaterThan(before);
    expect(host.snapshot().notices).toEqual([]);
    expect(() => deck().host.told()).not.toThrow();
  });
});

describe('[host] the end', () => {
  test('of a run closes its journal once its end can no longer be undone, and not before', async () => {
    const { host, journal, clock } = deck();
    expect(await host.closeDone()).toBe(false);
    await host.open(SOURCE, { replace: false });
    await host.command('a', { do: 'start' });
    clock.advance(100_000);
    await host.command('b', { do: 'finish' });
    clock.advance(10_000);
    expect([await host.closeDone(), journal.closings]).toEqual([false, []]);
    clock.advance(1);
    expect(await host.closeDone()).toBe(true);
    expect(journal.closings).toMatchObject([{ run: 'run-1', why: 'done', at: 110_001 }]);
  });

  test('of the program closes a session that was never started, and no other', async () => {
    const unbegun = deck();
    await unbegun.host.open(SOURCE, { replace: false });
    await unbegun.host.endUnbegun();
    expect(unbegun.journal.closings).toMatchObject([{ run: 'run-1', why: 'not begun' }]);
    const begun = await back();
    await begun.host.endUnbegun();
    expect(begun.journal.closings).toEqual([]);
    await expect(deck().host.endUnbegun()).resolves.toBeUndefined();
  });
});

describe('[host] what the screens are told', () => {
  test('that the machine slept, and that the disk has caught up', async () => {
    const { host, clock, journal } = await back();
    const n = host.snapshot().n;
    clock.sleep(60_000);
    clock.check();
    expect(host.snapshot().n).toBe(n + 1);
    journal.append = () => ({ inFile: Promise.resolve(), safe: Promise.reject(new Error('full')) });
    await host.command('m', { do: 'mark' });
    const warned = host.snapshot().notices.length;
    journal.catchUp();
    expect(host.snapshot().notices.length).toBe(warned - 1);
  });

  test('nothing more once a screen has stopped listening', async () => {
    const { host } = await back();
    let heard = 0;
    const stop = host.onChange(() => heard++);
    stop();
    await host.command('m', { do: 'mark' });
    expect(heard).toBe(0);
  });

  test('that the record is lost, in place of any earlier sentence about it', () => {
    const { host } = deck();
    host.tell('record', 'The disk is slow.');
    host.recordLost('Another host keeps it now.');
    expect(host.snapshot().notices).toEqual(['Another host keeps it now.']);
    host.tell('lock', null);
    expect(host.snapshot().notices).toEqual([]);
  });

  test('that a rewrite was made from a text that is no longer known', async () => {
    const { host } = await back();
    const answer = await host.command('r', { do: 'rewrite', text: TEXT }, { madeFrom: 'f'.repeat(32) });
    expect(answer.why).toBe('The session was changed while you were writing. Look at it again.');
  });
});

test('[host] the clock can be matched only for the run that is open', async () => {
  const why = 'Another session has been opened in the meantime: check the screen, then try again.';
  expect(await deck().host.matchClock('run-1', 0)).toEqual({ ok: false, why });
  const { host } = deck();
  await host.open(SOURCE, { replace: false });
  expect(await host.matchClock('run-9', 0)).toEqual({ ok: false, why });
  // Where nothing has come back there is no report that another run was opened.
  expect(await host.matchClock('run-1', 0)).toEqual({ ok: true, run: 'run-2' });
  await expect(deck().host.forgetUndone()).resolves.toBeUndefined();
});
