/* DeckHost over fake time: the order of commands, ids, what was seen, the journal, and what screens are told. */

import { describe, expect, test } from 'vitest';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import type { JournalLine, Writing } from '../../../app/host/journal/journal.ts';
import { JournalInMemory } from '../../support/host/folders/journal-in-memory.ts';
import type { ExpectedReps } from '../../../app/core/run/command/expected-reps.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

const TEXT = `Harbour squad
start on 5
lane 1 base 1:00, 2 swimmers
lane 2 base 1:00
lane 5 base 1:30

Main set
8 x 50 free @ 1:00
4 x 25 kick @ 0:45

Swim-down
100 easy @ 3:00
`;

const SOURCE = { text: TEXT, lanesText: null };

/** 19:30:02.345 by the machine's own clock. */
const TIME_OF_DAY = 19.5 * 3_600_000 + 2345;

function deck(journal = new JournalInMemory()) {
  const clock = new FakeClock({ now: 1_000_000.25, timeOfDay: TIME_OF_DAY });
  let ids = 0;
  const host = new DeckHost({ clock, timers: clock.timers, journal, newId: () => `run-${++ids}` });
  let gave = 0;
  const give = (fields: Record<string, unknown>, expected?: ExpectedReps) =>
    host.command(`auto-${++gave}`, fields, { expected });
  return { clock, host, journal, give };
}

async function going() {
  const all = deck();
  await all.host.open(SOURCE, { replace: false });
  await all.give({ do: 'start' });
  // T0 comes 10 s after, on a multiple of 5 s of the pool's clock, which showed 2.345 s at t = 0.
  return { ...all, t0: 12_655 };
}

const rep = (line: number, number: number) => ({ line, rounds: [], rep: number });

describe('[host] opening a session', () => {
  test('t = 0 is now; the clock’s phase is the time of day past the full minute', async () => {
    const { host, journal } = deck();
    expect(await host.open(SOURCE, { replace: false })).toEqual({ ok: true, run: 'run-1' });
    expect(host.snapshot().run).toMatchObject({
      id: 'run-1',
      openedAt: 1_000_000.25,
      clockPhase: 2345,
      openedAtTimeOfDay: TIME_OF_DAY,
      commands: [],
    });
    expect(journal.openings).toMatchObject([{ run: 'run-1', source: SOURCE, clockPhase: 2345 }]);
    expect(host.texts()).toEqual([{ say: 'text', hash: host.snapshot().run!.text, ...SOURCE }]);
  });

  test('a phase that the coach has matched to the wall is taken instead', async () => {
    const { host } = deck();
    await host.open(SOURCE, { replace: false, clockPhase: 59_999 });
    expect(host.snapshot().run!.clockPhase).toBe(59_999);
  });

  test('faults come back all at once, with the text they are in, and what was open stays', async () => {
    const { host } = deck();
    await host.open(SOURCE, { replace: false });
    const faulty = await host.open({ text: '4 x 50 @ 1.30\n3 x 50 @ 130\n', lanesText: null }, { replace: true });
    expect(faulty).toMatchObject({ ok: false, reason: 'faults', in: 'session', faults: [{ line: 1 }, { line: 2 }] });
    const lanes = await host.open({ text: TEXT, lanesText: '4 x 50' }, { replace: true });
    expect(lanes).toMatchObject({ ok: false, reason: 'faults', in: 'lanes' });
    expect(host.snapshot().run!.id).toBe('run-1');
  });

  test('a stray Open does not replace a run that is going; Open with the wish to replace it does', async () => {
    const { host } = await going();
    expect(await host.open(SOURCE, { replace: false })).toMatchObject({ ok: false, reason: 'going' });
    expect(host.snapshot().run).toMatchObject({ id: 'run-1', commands: [{}] });
    expect(await host.open(SOURCE, { replace: true })).toEqual({ ok: true, run: 'run-2' });
    expect(host.snapshot().run).toMatchObject({ id: 'run-2', commands: [] });
  });

  test('a run without a command, or one that is done, is replaced without asking', async () => {
    const { host, give } = deck();
    await host.open(SOURCE, { replace: false });
    expect(await host.open(SOURCE, { replace: false })).toMatchObject({ ok: true });
    await give({ do: 'finish' });
    expect(await host.open(SOURCE, { replace: false })).toMatchObject({ ok: true });
  });
});

describe('[host] times of commands', () => {
  test('a command’s time is its moment of arrival in whole ms, however long its writing takes', async () => {
    const { clock, host, give } = deck(new SlowJournal());
    const opened = host.open(SOURCE, { replace: false });
    clock.advance(7.5);
    const first = give({ do: 'start' });
    clock.advance(20.25);
    const second = give({ do: 'mark', words: 'late' });
    await flush();
    for (let step = 0; step < 20; step++) {
      clock.advance(100);
      await flush();
    }
    expect(await opened).toMatchObject({ ok: true });
    expect(await first).toMatchObject({ ok: true, at: 7 });
    expect(await second).toMatchObject({ ok: true, at: 27 });
  });

  test('commands of one moment keep their order and share their time', async () => {
    const { host, give } = await going();
    const answers = await Promise.all(['a', 'b', 'c'].map((words) => give({ do: 'mark', words })));
    expect(answers.map(({ at }) => at)).toEqual([0, 0, 0]);
    expect(
      host
        .snapshot()
        .run!.commands.slice(1)
        .map(({ command }) => command['words']),
    ).toEqual(['a', 'b', 'c']);
  });

  test('without a session every command is refused', async () => {
    const { give, host } = deck();
    expect(await give({ do: 'start' })).toEqual({ ok: false, at: null, why: 'No session is open.' });
    expect(host.snapshot().run).toBeNull();
  });

  test('an unreadable command is refused with a sentence and not written to the journal', async () => {
    const { give, journal, host } = await going();
    const { n } = host.snapshot();
    expect(await give({ do: 'shift', seconds: 0 })).toMatchObject({ ok: false, why: expect.stringContaining('not 0') });
    expect(await give({ do: 'resume' })).toMatchObject({ ok: false });
    expect(journal.lines).toHaveLength(1);
    expect(host.snapshot().n).toBe(n);
  });

  test('a step of the wall clock changes nothing', async () => {
    const { clock, give, host } = await going();
    clock.advance(1000);
    clock.setWall(3 * 3_600_000);
    expect(await give({ do: 'mark' })).toMatchObject({ at: 1000 });
    expect(host.snapshot().run).toMatchObject({ clockPhase: 2345, openedAtTimeOfDay: TIME_OF_DAY });
  });

  test('time that the machine slept counts, and screens hear of a new epoch', async () => {
    const { clock, give, host } = await going();
    const { epoch, n } = host.snapshot();
    clock.sleep(60_000);
    expect(await give({ do: 'mark' })).toMatchObject({ at: 60_000 });
    expect(host.snapshot().epoch).not.toBe(epoch);
    expect(host.snapshot().n).toBeGreaterThan(n);
  });
});

describe('[host] ids', () => {
  test('the same id twice is one command, answered twice, also while the first is on its way', async () => {
    const { host, journal } = await going();
    const [first, second] = await Promise.all([
      host.command('same', { do: 'skip', lanes: [1] }),
      host.command('same', { do: 'skip', lanes: [1] }),
    ]);
    expect(first).toMatchObject({ ok: true });
    expect(second).toEqual(first);
    expect(await host.command('same', { do: 'skip', lanes: [1] })).toEqual(first);
    expect(journal.lines.filter(({ fields }) => fields['do'] === 'skip')).toHaveLength(1);
  });

  test('a refusal is repeated too', async () => {
    const { host, clock } = await going();
    const refused = await host.command('early', { do: 'resume' });
    clock.advance(20_000);
    await host.command('stop', { do: 'stop' });
    expect(await host.command('early', { do: 'resume' })).toEqual(refused);
  });
});

describe('[host] the run a command is meant for', () => {
  test('a command that arrives after another session was opened is not given to that one', async () => {
    const { host } = await going();
    await host.open(SOURCE, { replace: true });
    const late = await host.command('late', { do: 'start' }, { meantFor: 'run-1' });
    expect(late).toMatchObject({ ok: false, why: expect.stringMatching(/Another session/) as string });
    expect(await host.command('new', { do: 'start' }, { meantFor: 'run-2' })).toMatchObject({ ok: true });
  });
});

describe('[host] the text a rewrite was made from', () => {
  const LATER = TEXT.replace('100 easy', '200 easy');
  const rewrite = (host: DeckHost, id: string, text: string, madeFrom?: string) =>
    host.command(id, { do: 'rewrite', text }, { madeFrom });

  test('while it is in force the rewrite is accepted, and the next one may name the new text', async () => {
    const { host } = await going();
    const { text } = host.snapshot().run!;
    expect(await rewrite(host, 'one', LATER, text)).toMatchObject({ ok: true });
    const { hash } = host.texts().find((each) => each.text === LATER)!;
    expect(await rewrite(host, 'two', TEXT, hash)).toMatchObject({ ok: true });
  });

  test('where another text is in force by then the rewrite is refused, naming the changed lines; the same id gets the same answer', async () => {
    const { host } = await going();
    const { text } = host.snapshot().run!;
    await rewrite(host, 'theirs', LATER, text);
    const mine = await rewrite(host, 'mine', TEXT.replace('100 easy', '50 easy'), text);
    expect(mine).toMatchObject({ ok: false, why: expect.stringContaining('line 12 is changed') as string });
    expect(await rewrite(host, 'mine', TEXT.replace('100 easy', '50 easy'), text)).toEqual(mine);
    expect(host.snapshot().run!.commands).toHaveLength(2);
  });

  test('an undo brings the earlier text back into force', async () => {
    const { host, give } = await going();
    const { text } = host.snapshot().run!;
    await rewrite(host, 'theirs', LATER, text);
    await give({ do: 'undo' });
    expect(await rewrite(host, 'mine', LATER, text)).toMatchObject({ ok: true });
  });

  test('a rewrite that names no text is not checked', async () => {
    const { host } = await going();
    expect(await rewrite(host, 'one', LATER)).toMatchObject({ ok: true });
  });
});

describe('[host] the rep that the screen showed', () => {
  test('two screens pressing Skip at once skip one rep', async () => {
    const { clock, give, host, t0 } = await going();
    clock.advance(t0 + 30_000);
    const seen = { '1': rep(8, 2), '2': rep(8, 2), '5': rep(8, 2) };
    const [one, two] = await Promise.all([give({ do: 'skip' }, seen), give({ do: 'skip' }, seen)]);
    expect(one).toMatchObject({ ok: true });
    expect(two).toMatchObject({
      ok: false,
      why: expect.stringContaining('lane 1 has moved on to rep 3 of 8 of line 8'),
    });
    expect(host.snapshot().run!.commands).toHaveLength(2);
  });

  test('a rep that leaves while the finger is on its way does not cost the rep after it', async () => {
    const { clock, give, t0 } = await going();
    clock.advance(t0 + 60_000 - 250);
    const seen = { '2': rep(8, 2) };
    expect(await give({ do: 'skip', lanes: [2] }, seen)).toMatchObject({ ok: false });
    expect(await give({ do: 'skip', lanes: [2] }, { '2': rep(8, 3) })).toMatchObject({ ok: true });
  });

  test('251 ms before a leave the rep shown is still the next one', async () => {
    const { clock, give, t0 } = await going();
    clock.advance(t0 + 60_000 - 251);
    expect(await give({ do: 'sit-out', lanes: [2] }, { '2': rep(8, 2) })).toMatchObject({ ok: true });
  });

  test('+5 s on lane 2 does not spoil a Stop, or a Skip, on lane 5', async () => {
    const { clock, give, t0 } = await going();
    clock.advance(t0 + 20_000);
    const seen = { '1': rep(8, 2), '2': rep(8, 2), '5': rep(8, 2) };
    const answers = await Promise.all([
      give({ do: 'skip', lanes: [2] }, seen),
      give({ do: 'shift', lanes: [1], seconds: 5 }, seen),
      give({ do: 'stop', lanes: [5] }, seen),
      give({ do: 'skip', lanes: [5] }, seen),
    ]);
    expect(answers.map(({ ok }) => ok)).toEqual([true, true, true, true]);
  });

  test('commands that name no rep are not checked', async () => {
    const { give } = await going();
    expect(await give({ do: 'skip' })).toMatchObject({ ok: true });
    expect(await give({ do: 'skip' })).toMatchObject({ ok: true });
  });
});

describe('[host] screens', () => {
  test('every change gives one new snapshot, with the next number', async () => {
    const { host, give } = await going();
    const heard: number[] = [];
    host.onChange(() => heard.push(host.snapshot().n));
    host.tell('a test', 'something new');
    await give({ do: 'stop' });
    host.tell('a test', null);
    expect(heard).toHaveLength(3);
    expect([...heard].sort((a, b) => a - b)).toEqual(heard);
    expect(new Set(heard).size).toBe(3);
  });

  test('a rewrite goes to screens by the hash of its text', async () => {
    const { host, give } = await going();
    const text = TEXT.replace('100 easy', '200 easy');
    expect(await give({ do: 'rewrite', text })).toMatchObject({ ok: true });
    const { command } = host.snapshot().run!.commands[1]!;
    expect(Object.keys(command).sort()).toEqual(['do', 'textHash']);
    expect(host.texts().find(({ hash }) => hash === command['textHash'])).toMatchObject({ text, lanesText: null });
    expect(host.current()!.state.plan.source.text).toBe(text);
  });
});

describe('[host] the journal', () => {
  test('a command is written before it is answered, with both clocks beside its time', async () => {
    const { clock, give, journal } = await going();
    clock.advance(500);
    await give({ do: 'stop', lanes: [1] });
    expect(journal.lines[1]).toEqual({
      run: 'run-1',
      id: 'auto-2',
      by: { role: 'coach', name: 'this machine', device: null, kind: 'desk' },
      at: 500,
      fields: { do: 'stop', lanes: [1] },
      hostTime: 1_000_500.25,
      wallMs: TIME_OF_DAY + 500,
      monotonic: 1_000_500.25,
      uptime: 1_000_500.25,
    });
  });

  test('a line that takes longer than 100 ms is not waited for; the coach is told until it is written', async () => {
    const journal = new SlowJournal();
    const { clock, host, give } = deck(journal);
    const opened = host.open(SOURCE, { replace: false });
    await flush();
    clock.advance(100);
    expect(await opened).toMatchObject({ ok: true });
    const command = give({ do: 'start' });
    await flush();
    clock.advance(99);
    await flush();
    expect(host.snapshot().run!.commands).toEqual([]);
    clock.advance(1);
    expect(await command).toMatchObject({ ok: true, at: 100 });
    expect(host.snapshot().notices).toEqual([expect.stringContaining('not on the disk')]);
    journal.release();
    await flush();
    expect(host.snapshot().notices).toEqual([]);
  });

  test('a command whose line the disk refuses is accepted all the same; the coach is told until a later line is written', async () => {
    const journal = new BrokenJournal();
    const { host, give } = deck(journal);
    await host.open(SOURCE, { replace: false });
    journal.reason = 'no space left';
    expect(await give({ do: 'start' })).toMatchObject({ ok: true });
    expect(host.snapshot().notices).toEqual([expect.stringContaining('no space left')]);
    journal.reason = null;
    expect(await give({ do: 'mark' })).toMatchObject({ ok: true });
    expect(host.snapshot().notices).toEqual([]);
  });
});

describe('[host] a fault of the program', () => {
  test('in one command refuses that command, and the next is carried out', async () => {
    const { host, give, clock } = await going();
    clock.advance(1000);
    // No message from a screen can hold this; it stands for whatever was not foreseen.
    const poisoned = Object.defineProperty({ do: 'mark' }, 'words', {
      enumerable: true,
      get: () => {
        throw new Error('not foreseen');
      },
    });
    expect(await give(poisoned)).toMatchObject({ ok: false, why: expect.stringContaining('not foreseen') });
    expect(await give({ do: 'mark' })).toMatchObject({ ok: true });
    expect(host.snapshot().run!.commands).toHaveLength(2);
  });
});

/** Writes nothing until it is released. */
class SlowJournal extends JournalInMemory {
  release: () => void = () => undefined;
  private readonly released = new Promise<void>((resolve) => (this.release = resolve));

  override open(): Promise<void> {
    return this.released;
  }

  override append(): Writing {
    return { inFile: Promise.resolve(), safe: this.released };
  }
}

/** Refuses while it has a reason to. */
class BrokenJournal extends JournalInMemory {
  reason: string | null = null;

  override append(line: JournalLine): Writing {
    if (this.reason === null) return super.append(line);
    return { inFile: new Promise(() => undefined), safe: Promise.reject(new Error(this.reason)) };
  }
}

/** Lets everything happen that waits for nothing but its turn. */
async function flush(): Promise<void> {
  for (let turn = 0; turn < 20; turn++) await Promise.resolve();
}
