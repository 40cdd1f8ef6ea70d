/* Coming back on a fake disk: the run at its right place, what is told, and which runs stay where they are. */

import { describe, expect, test } from 'vitest';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { goingDeck, JournalledDeck, restarted, settled, SQUAD } from '../../support/host/deck/journalled-deck.ts';

const MINUTE = 60_000;

const KEPT: unknown = expect.stringMatching(
  /^Harbour squad, opened on \d+ \w+ \d{4} at 19:30: 2 commands, the last leave at 19:30\.$/,
);
const NOTHING_TOLD = { away: null, said: [], unattended: { runs: [] } };

describe('[recovery] a host that was killed', () => {
  test('comes back by itself with the same run at the same place, on the same clock', async () => {
    const deck = await goingDeck();
    const before = deck.host.snapshot().run!;
    deck.kill();
    deck.clock.stall(12_345);
    const { deck: again } = await restarted(deck);
    expect(again.host.snapshot().run).toEqual({ ...before, away: [{ from: MINUTE, to: MINUTE + 12_345 }] });
    expect(again.host.current()!.state).toEqual(deck.host.current()!.state);
    expect(again.now()).toBe(MINUTE + 12_345);
  });

  test('every time that the program was away stays in the record, earlier kills too', async () => {
    let deck = await goingDeck();
    for (const gone of [10_000, 20_000]) {
      deck.kill();
      deck.clock.stall(gone);
      deck = (await restarted(deck)).deck;
      await deck.pass(3000);
      await deck.host.command(`after ${gone}`, { do: 'mark' });
    }
    expect(deck.host.snapshot().run!.away).toEqual([
      { from: MINUTE, to: MINUTE + 10_000 },
      { from: MINUTE + 13_000, to: MINUTE + 33_000 },
    ]);
  });

  test('however often it is killed, the clock loses and gains no fraction of a ms', async () => {
    let deck = await goingDeck();
    const { openedAt } = deck.host.snapshot().run!;
    for (let kill = 0; kill < 100; kill++) {
      deck.kill();
      deck.clock.stall(17.3);
      deck = (await restarted(deck)).deck;
      await deck.host.command(`kill-${kill}`, { do: 'mark' });
    }
    expect(Math.abs(deck.host.snapshot().run!.openedAt - openedAt)).toBeLessThan(0.01);
    expect(deck.host.snapshot().run!.commands).toHaveLength(102);
  });

  test('reports how long the program was away and which leaves were not called, until the coach has read it', async () => {
    const deck = await goingDeck();
    deck.kill();
    deck.clock.stall(75_000);
    const { deck: again } = await restarted(deck);
    const { notices, startUp } = again.host.snapshot();
    expect(notices).toEqual([
      'The run has come back: Lanecall was not running for 1:15. ' +
        'Not called in that time: lane 1: 50 free, reps 3 and 4; lane 2: 50 free, rep 4. ' +
        'A screen that stayed open kept going by itself and may have shown them.',
    ]);
    expect(startUp).toEqual({ run: 'run-1', unattended: [] });
    again.host.told();
    expect(again.host.snapshot()).toMatchObject({ notices: [], startUp: null });
  });

  test('says so if no leave was due meanwhile', async () => {
    const deck = await goingDeck();
    deck.kill();
    deck.clock.stall(3000);
    expect((await restarted(deck)).recovery.away).toBe(
      'The run has come back: Lanecall was not running for 3 s. No leave was due in that time.',
    );
  });

  test('[R2] names the lanes in which swimmers behind their lead were due meanwhile', async () => {
    const deck = await goingDeck();
    await deck.pass(32_000);
    deck.kill();
    deck.clock.stall(4000);
    expect((await restarted(deck)).recovery.away).toContain(
      'No lane was due to begin a rep in that time, but in lane 1 swimmers behind their lead were due to leave.',
    );
  });

  test('says which clock it went by after a restart of the machine', async () => {
    const deck = await goingDeck();
    deck.kill();
    const fresh = new FakeClock({ now: 777, timeOfDay: deck.clock.wall().epochMs + 3000 });
    expect((await JournalledDeck.start(fresh, deck.disk, 'boot-2')).recovery.away).toBe(
      'The run has come back: Lanecall was not running for 3 s. The machine was restarted, so this comes from ' +
        'its time of day: check it against the clock on the wall. No leave was due in that time.',
    );
  });

  test('loses no time if the machine slept meanwhile', async () => {
    const deck = await goingDeck();
    deck.kill();
    deck.clock.sleep(5 * MINUTE);
    const { deck: again } = await restarted(deck);
    expect(again.now()).toBe(6 * MINUTE);
    expect(again.host.snapshot().notices[0]).not.toContain('restarted');
  });

  test('goes by the wall clock after a restart of the machine, and the coach is told', async () => {
    const deck = await goingDeck();
    deck.kill();
    const wall = deck.clock.wall().epochMs + 42_000;
    const fresh = new FakeClock({ now: 777, timeOfDay: wall });
    const { deck: again } = await JournalledDeck.start(fresh, deck.disk, 'boot-2');
    expect(Math.abs(again.now() - (MINUTE + 42_000))).toBeLessThan(50);
    expect(again.host.snapshot().notices[0]).toContain('The machine was restarted');
    // From here on it is this machine's monotonic clock that counts.
    again.kill();
    fresh.stall(1000);
    fresh.setWall(0);
    const { deck: third } = await JournalledDeck.start(fresh, deck.disk, 'boot-2');
    expect(third.now() - again.now()).toBeLessThan(0.01);
    expect(third.host.snapshot().notices[0]).not.toContain('restarted');
  });

  test('does not trust a monotonic clock that has begun again, even on the same start of the machine', async () => {
    const deck = await goingDeck();
    deck.kill();
    const wall = deck.clock.wall().epochMs + 42_000;
    const { deck: again } = await JournalledDeck.start(new FakeClock({ now: 777, timeOfDay: wall }), deck.disk);
    expect(Math.abs(again.now() - (MINUTE + 42_000))).toBeLessThan(50);
  });

  test('never goes back in time, though the wall clock was set back across a restart of the machine', async () => {
    const deck = await goingDeck();
    deck.kill();
    const { deck: again } = await JournalledDeck.start(new FakeClock({ now: 5, timeOfDay: 0 }), deck.disk, 'boot-2');
    expect(again.now()).toBe(MINUTE);
  });

  test('then says that the time away is unknown, and what to do', async () => {
    const told = async (deck: JournalledDeck) => {
      deck.kill();
      const { deck: again } = await JournalledDeck.start(new FakeClock({ now: 5, timeOfDay: 0 }), deck.disk, 'boot-2');
      return again.host.snapshot().notices[0];
    };
    const unknown =
      "The run has come back, but the machine was restarted and its clock is now earlier than the run's last record. " +
      'Lanecall cannot tell how long it was not running, or which leaves were not called. ' +
      'The run goes on from that last record. ';
    expect(await told(await goingDeck())).toBe(
      `${unknown}Look at the clock on the wall, and shift the lanes until their leaves agree with it.`,
    );
    const { deck: waiting } = await JournalledDeck.start();
    await waiting.open(SQUAD);
    await waiting.host.command('s', { do: 'gap', seconds: 7 });
    expect(await told(waiting)).toBe(
      `${unknown}Look at the clock on the wall, and match the clock to it before the start.`,
    );
  });

  test('ignores a step of the wall clock on the same start of the machine', async () => {
    const deck = await goingDeck();
    deck.kill();
    deck.clock.stall(1000);
    deck.clock.setWall(3 * 3_600_000);
    expect((await restarted(deck)).deck.now()).toBe(MINUTE + 1000);
  });

  test('still knows the ids that it answered: the same id twice is one command', async () => {
    const deck = await goingDeck();
    deck.kill();
    deck.clock.stall(500);
    const { deck: again } = await restarted(deck);
    expect(await again.host.command('b', { do: 'skip', lanes: [2] })).toEqual({ ok: true, at: MINUTE, why: null });
    expect(again.host.snapshot().run!.commands).toHaveLength(2);
  });

  test('has the text of a rewrite again', async () => {
    const deck = await goingDeck();
    const text = SQUAD.replace('100 easy', '200 easy');
    expect(await deck.host.command('c', { do: 'rewrite', text })).toMatchObject({ ok: true });
    const before = deck.host.snapshot().run;
    deck.kill();
    const { deck: again } = await restarted(deck);
    expect(again.host.snapshot().run).toEqual(before);
    expect(again.host.texts()).toHaveLength(2);
    expect(again.host.current()!.state.plan.source.text).toBe(text);
  });

  test('can still undo the command before the kill', async () => {
    const deck = await goingDeck();
    deck.kill();
    deck.clock.stall(2000);
    const { deck: again } = await restarted(deck);
    expect(await again.host.command('u', { do: 'undo' })).toMatchObject({ ok: true });
  });
});

describe('[recovery] runs that do not come back', () => {
  test('a run that the coach leaves is closed, and can be left only while that is offered', async () => {
    const deck = await goingDeck();
    expect(await deck.host.leave('run-1')).toMatchObject({ ok: false });
    deck.kill();
    const { deck: again } = await restarted(deck);
    expect(await again.host.leave('another')).toMatchObject({ ok: false });
    expect(await again.host.leave('run-1')).toEqual({ ok: true, why: null });
    expect(again.host.snapshot()).toMatchObject({ run: null, notices: [] });
    again.kill();
    expect((await restarted(deck)).recovery).toMatchObject({ found: null, ...NOTHING_TOLD });
  });

  test('a run more than 30 minutes past its projected end is closed and reported; a minute earlier it is not', async () => {
    const deck = await goingDeck();
    deck.kill();
    // Projected at the last sign of life: 8 x 45 s less one, the swim-down and what lies between.
    const end = 10_000 + 7 * 45_000 + 5000 + 60_000 + 3 * MINUTE + 10_000;
    const copy = new FakeDisk();
    deck.disk.files.forEach((bytes, path) => copy.files.set(path, bytes));
    const { clock } = deck;
    clock.stall(end + 29 * MINUTE - MINUTE);
    const early = await JournalledDeck.start(clock, copy);
    expect(early.recovery.found).not.toBeNull();
    early.deck.kill();
    clock.stall(2 * MINUTE);
    const { recovery, deck: again } = await restarted(deck);
    expect(recovery.found).toBeNull();
    // Lane 1 left at 10 and 50 s, lane 2 at 10 and 55 s; what would have come later was not called, and is not counted.
    expect(again.host.snapshot()).toMatchObject({ run: null, notices: [], startUp: { run: null, unattended: [KEPT] } });
  });

  test('an unattended run is listed at every start until the coach has read of it', async () => {
    const deck = await goingDeck();
    deck.kill();
    deck.clock.stall(24 * 60 * MINUTE);
    for (let start = 0; start < 3; start++) {
      const { recovery, deck: again } = await restarted(deck);
      expect(recovery).toMatchObject({ found: null, said: [], unattended: { runs: [KEPT] } });
      again.kill();
      deck.clock.stall(MINUTE);
    }
    const { deck: last } = await restarted(deck);
    // Opening the next session is no sign that it was read.
    await last.open(SQUAD);
    expect(last.host.snapshot().startUp).toEqual({ run: null, unattended: [KEPT] });
    last.host.told();
    await settled();
    expect(last.host.snapshot().startUp).toBeNull();
    await last.host.endUnbegun();
    last.kill();
    expect((await restarted(last)).recovery).toMatchObject({ found: null, ...NOTHING_TOLD });
    const first = [...deck.disk.files.keys()].sort()[0]!;
    expect(deck.disk.text(first)).toMatch(/"why":"unattended","told":true,[^\n]+\n$/);
  });

  test('a disk that is full at that moment leaves the record whole, and the next start reports it again', async () => {
    const deck = await goingDeck();
    deck.kill();
    deck.clock.stall(24 * 60 * MINUTE);
    const { deck: again } = await restarted(deck);
    const before = deck.disk.text(deck.path());
    deck.disk.room = 20;
    again.host.told();
    await settled();
    expect(deck.disk.text(deck.path())).toBe(before);
    deck.disk.room = Infinity;
    expect((await restarted(deck)).recovery).toMatchObject({ said: [], unattended: { runs: [KEPT] } });
  });

  test('a run that was over before the host ended only lacked its last line, and is not listed', async () => {
    const deck = await goingDeck();
    await deck.host.command('z', { do: 'finish' });
    deck.kill();
    deck.clock.stall(60 * MINUTE);
    expect((await restarted(deck)).recovery).toMatchObject({ found: null, ...NOTHING_TOLD });
    expect(deck.disk.text(deck.path())).toMatch(/"why":"done",[^\n]+\n$/);
    expect((await restarted(deck)).recovery).toMatchObject({ found: null, ...NOTHING_TOLD });
  });

  test('a run that waits for the coach for ever becomes unattended too', async () => {
    const { deck } = await JournalledDeck.start();
    await deck.open(SQUAD);
    await deck.pass(5000);
    deck.kill();
    deck.clock.stall(24 * 60 * MINUTE);
    expect((await restarted(deck)).recovery.unattended.runs).toEqual([
      expect.stringMatching(/^Harbour squad, opened on .+ at 19:30: no command, no leave\.$/),
    ]);
  });

  test('a session that was never started comes back after a kill, but not after a proper end', async () => {
    const { deck } = await JournalledDeck.start();
    await deck.open(SQUAD);
    deck.kill();
    const { deck: again, recovery } = await restarted(deck);
    expect(recovery.found?.run).toBe('run-1');
    await again.host.endUnbegun();
    expect((await restarted(deck)).recovery.found).toBeNull();
  });

  test('of finished runs only the ends are read, however many there are', async () => {
    const deck = await goingDeck();
    for (let run = 0; run < 50; run++) {
      await deck.open(SQUAD);
      for (let mark = 0; mark < 20; mark++)
        await deck.host.command(`${run} ${mark}`, { do: 'mark', words: 'x'.repeat(100) });
      await deck.pass(1000);
    }
    await deck.host.command('z', { do: 'finish' });
    await deck.pass(20_000);
    deck.kill();
    const before = deck.disk.bytesRead;
    expect((await restarted(deck)).recovery.found).toBeNull();
    expect(deck.disk.bytesRead - before).toBeLessThanOrEqual(51 * 1024);
  });
});
