/* Damaged journals on a fake disk: everything before the damage is used, the rest is kept, nothing else is touched. */

import { describe, expect, test } from 'vitest';
import { fold } from '../../../../app/core/run/fold.ts';
import { leavesOf } from '../../../../app/core/run/record.ts';
import { settle } from '../../../../app/core/run/settle.ts';
import { readCommand } from '../../../../app/core/run/command/read-command.ts';
import { lineOf, type JournalEntry } from '../../../../app/host/journal/journal-line.ts';
import { readJournal } from '../../../../app/host/journal/journal-text.ts';
import { planOf } from '../../../support/run/deck.ts';
import { FakeDisk } from '../../../support/host/folders/fake-disk.ts';
import { FOLDER, goingDeck, JournalledDeck, restarted, SQUAD } from '../../../support/host/deck/journalled-deck.ts';

describe('[recovery] damaged files', () => {
  test('wherever a file is cut, every whole line before the cut is used', async () => {
    const deck = await busy();
    const bytes = deck.disk.files.get(deck.path())!;
    const whole = readJournal(bytes);
    if (whole.kind !== 'journal') throw new Error('no journal');
    const ends = [...bytes.entries()].flatMap(([index, byte]) => (byte === 10 ? [index + 1] : []));
    expect(bytes.length).toBeGreaterThan(5000);
    for (let cut = 0; cut < bytes.length; cut++) {
      const read = readJournal(bytes.subarray(0, cut));
      const lines = ends.filter((end) => end <= cut).length;
      if (read.kind !== 'journal') expect([cut, lines]).toEqual([cut, 0]);
      else expect([cut, read.entries.length, read.length]).toEqual([cut, lines, ends[lines - 1]]);
      if (read.kind === 'journal') expect(read.entries[lines - 1]).toEqual(whole.entries[lines - 1]);
    }
  });

  test('whichever bit is flipped, every line before it is used and nothing after', async () => {
    const deck = await goingDeck();
    const bytes = deck.disk.files.get(deck.path())!;
    const ends = [...bytes.entries()].flatMap(([index, byte]) => (byte === 10 ? [index + 1] : []));
    for (let index = 0; index < bytes.length; index++) {
      const before = ends.filter((end) => end <= index).length;
      const bit = 1 << (index % 8);
      const read = readJournal(bytes.map((byte, at) => (at === index ? byte ^ bit : byte)));
      const kept = read.kind === 'journal' ? read.entries.length : 0;
      // In the first line the version itself may be hit, and then the journal is left alone.
      if (read.kind !== 'newer') expect([index, bit, kept]).toEqual([index, bit, before]);
      else expect(before).toBe(0);
    }
  });

  test('cut at the end or in the middle of any line, the run is what the commands before it make', async () => {
    const deck = await busy();
    const path = deck.path();
    const bytes = deck.disk.files.get(path)!;
    const given = deck.host.current()!.commands;
    const ends = [...bytes.entries()].flatMap(([index, byte]) => (byte === 10 ? [index + 1] : []));
    for (const end of ends) {
      for (const cut of [end, end + 40]) {
        if (cut > bytes.length) continue;
        const disk = new FakeDisk();
        disk.files.set(path, bytes.slice(0, cut));
        const { recovery } = await JournalledDeck.start(deck.clock, disk, 'boot-1', 'later');
        const { found, said } = recovery;
        const commands = given.slice(0, found!.commands.length);
        expect(found!.commands.map(({ at, fields }) => ({ at, command: fields }))).toEqual(commands);
        const timed = commands.map(({ at, command }) => ({ at, command: readCommand(command) }));
        const state = fold(
          planOf(SQUAD),
          0,
          timed.flatMap(({ at, command }) => (command.ok ? [{ at, command: command.value }] : [])),
        );
        expect(leavesOf(settle(found!.state, Infinity))).toEqual(leavesOf(settle(state, Infinity)));
        expect(said.some((text) => text.includes('damaged'))).toBe(cut !== end);
      }
    }
  });

  test.each([
    ['garbage at the end', (bytes: Uint8Array) => joined(bytes, new Uint8Array([0, 255, 10, 13, 65]))],
    ['zeros at the end, as a power cut leaves them', (bytes: Uint8Array) => joined(bytes, new Uint8Array(4096))],
    ['a flipped bit in the last line', (bytes: Uint8Array) => flipped(bytes, bytes.length - 30)],
    ['half a line', (bytes: Uint8Array) => bytes.subarray(0, bytes.length - 12)],
  ])('%s: the rest is kept beside it, the coach is told, and the next line is whole', async (_, damage) => {
    const deck = await goingDeck();
    const path = deck.path();
    deck.kill();
    const damaged = damage(deck.disk.files.get(path)!).slice();
    deck.disk.files.set(path, damaged);
    const other = `${FOLDER}/2020-01-01T00-00-00Z-other.jsonl`;
    deck.disk.files.set(other, CLOSED);
    const { deck: again } = await restarted(deck);
    expect(again.host.snapshot().notices.join(' ')).toMatch(/is damaged: Lanecall uses everything up to line \d+/);
    const kept = deck.disk.files.get(`${path}.torn`)!;
    expect([...deck.disk.files.keys()].filter((name) => name.endsWith('.torn'))).toHaveLength(1);
    const used = damaged.length - kept.length;
    expect(joined(damaged.subarray(0, used), kept)).toEqual(damaged);
    await again.host.command('n', { do: 'mark' });
    expect([...deck.disk.files.keys()].filter((name) => name.endsWith('.torn'))).toHaveLength(1);
    const read = readJournal(deck.disk.files.get(path)!);
    expect(read).toMatchObject({ kind: 'journal', length: deck.disk.files.get(path)!.length });
    expect(deck.disk.files.get(other)).toBe(CLOSED);
  });

  test.each([
    ['of no length', new Uint8Array()],
    ['of nothing but garbage', new Uint8Array(3000).fill(7)],
    ['whose first line is damaged', new TextEncoder().encode('{"say":"opened","journal":1}\n')],
  ])('a file %s is put aside whole and reported once; the run in another file comes back', async (_, bytes) => {
    const deck = await goingDeck();
    deck.kill();
    const bad = `${FOLDER}/2999-01-01T00-00-00Z-bad.jsonl`;
    deck.disk.files.set(bad, bytes);
    const { recovery } = await restarted(deck);
    expect(recovery.found?.run).toBe('run-1');
    expect(recovery.said.filter((text) => text.includes('bad'))).toHaveLength(1);
    expect(deck.disk.files.get(`${bad}.torn`)).toEqual(bytes);
    expect(deck.disk.files.has(bad)).toBe(false);
  });

  test.each(['EACCES', 'EIO', 'EISDIR'])('one that cannot be read (%s) is told of and left as it is', async (code) => {
    const deck = await goingDeck();
    deck.kill();
    const bad = `${FOLDER}/2999-01-01T00-00-00Z-bad.jsonl`;
    deck.disk.files.set(bad, new Uint8Array([1]));
    deck.disk.unreadable.set(bad, code);
    const { recovery } = await restarted(deck);
    expect(recovery.found?.run).toBe('run-1');
    expect(recovery.said[0]).toMatch(/bad\.jsonl cannot be read/);
    expect(deck.disk.files.get(bad)).toEqual(new Uint8Array([1]));
  });

  test('a folder that cannot be read is reported, and the host starts all the same', async () => {
    const deck = await goingDeck();
    deck.kill();
    deck.disk.list = () => Promise.reject(Object.assign(new Error('no folder'), { code: 'ENOTDIR' }));
    const { deck: again } = await restarted(deck);
    expect(again.host.snapshot().notices).toEqual([
      `The records in ${FOLDER} cannot be read (there is a file in place of a folder): a run that was going cannot come back. ` +
        'Repair the folder and start Lanecall again, or name another folder with --data.',
    ]);
    await again.open(SQUAD);
    expect(again.host.snapshot().run).not.toBeNull();
  });

  describe('whole lines that no host can have written', () => {
    type Field = readonly [field: string, value: unknown];
    const NONSENSE: readonly Field[] = [
      ...['wall', 'mono', 'uptime', 'at'].flatMap((field) => [
        [field, 8.65e15] as const,
        [field, -1] as const,
        [field, '1'] as const,
      ]),
      ['boot', 5],
    ];

    test.each<Field>([
      ...NONSENSE,
      ['clockPhase', 60_000],
      ['clockPhase', -1],
      ['clockPhase', 0.5],
      ['openedAtTimeOfDay', 86_400_000],
      ['openedAtTimeOfDay', -1],
      ['run', ''],
      ['run', 'x'.repeat(65)],
      ['journal', 0],
      ['journal', -1],
      ['journal', 1.5],
      ['journal', '2'],
      ['journal', null],
    ])(
      'a first line with %s %j: the file is put aside whole, and nobody reads "Invalid Date"',
      async (field, value) => {
        const deck = await goingDeck();
        const path = deck.path();
        deck.kill();
        const bytes = withField(deck.disk.files.get(path)!, 1, field, value);
        deck.disk.files.set(path, bytes);
        const { deck: again, recovery } = await restarted(deck, 'boot-2');
        expect(recovery.found).toBeNull();
        expect(deck.disk.files.get(`${path}.torn`)).toEqual(bytes);
        const { notices, startUp } = again.host.snapshot();
        expect(notices).toEqual([expect.stringContaining('is damaged and nothing in it can be used')]);
        expect(JSON.stringify(startUp)).not.toContain('Invalid');
      },
    );

    test.each([
      ...NONSENSE.map(([field, value]) => ['command', field, value] as const),
      ['command', 'id', ''],
      ['command', 'id', 'x'.repeat(65)],
      ['command', 'command', []],
      ['alive', 'leaves', [[21, 0]]],
      ['alive', 'leaves', [[1, -1]]],
      ['alive', 'leaves', [1]],
      ['back', 'by', 'sundial'],
    ] as const)('a later one, %s with %s %j: used up to the line before it', async (say, field, value) => {
      const deck = await busy();
      const path = deck.path();
      const lines = new TextDecoder().decode(deck.disk.files.get(path)!).split('\n');
      const line = lines.findIndex((text) => text.startsWith(`{"say":"${say}"`)) + 1;
      deck.disk.files.set(path, withField(deck.disk.files.get(path)!, line, field, value));
      const { recovery } = await restarted(deck);
      expect(recovery.found?.run).toBe('run-1');
      expect(recovery.said).toEqual([expect.stringContaining(`uses everything up to line ${line - 1} and`)]);
    });

    test.each([
      ['why', 'tired'],
      ['told', 'yes'],
    ])('a closing line with %s %j does not count: the run comes back', async (field, value) => {
      const deck = await goingDeck();
      const path = deck.path();
      await deck.journal.close({ run: 'run-1', at: 61_000, why: 'left', ...deck.clock.instant() });
      deck.kill();
      const bytes = deck.disk.files.get(path)!;
      const last = new TextDecoder().decode(bytes).trimEnd().split('\n').length;
      deck.disk.files.set(path, withField(bytes, last, field, value));
      expect((await restarted(deck)).recovery.found?.run).toBe('run-1');
    });
  });

  test('a command with a field named __proto__ is refused as any unknown field, and nothing behind it is used', async () => {
    const deck = await goingDeck();
    const path = deck.path();
    deck.kill();
    const command = JSON.parse('{"do":"skip","lanes":[2],"__proto__":{"n":1}}') as object;
    const bytes = deck.disk.files.get(path)!;
    const lines = new TextDecoder().decode(bytes).split('\n');
    const line = lines.findIndex((text) => text.includes('"do":"skip"')) + 1;
    deck.disk.files.set(path, withField(bytes, line, 'command', command));
    const { recovery } = await restarted(deck);
    expect(recovery.found?.commands.map(({ id }) => id)).toEqual(['a']);
    expect(recovery.said[0]).toContain('The command skip has no field "__proto__"');
  });

  test('a journal of a newer form is refused with a sentence and left untouched', async () => {
    const deck = await goingDeck();
    deck.kill();
    const newer = `${FOLDER}/2999-01-01T00-00-00Z-newer.jsonl`;
    const bytes = new TextEncoder().encode('{"say":"opened","journal":3,"new":true}\n{"say":"whatever"}\n');
    deck.disk.files.set(newer, bytes);
    const { recovery } = await restarted(deck);
    expect(recovery.said[0]).toMatch(/newer\.jsonl was written by a newer Lanecall/);
    expect(deck.disk.files.get(newer)).toBe(bytes);
    expect([...deck.disk.files.keys()].filter((path) => path.includes('newer'))).toEqual([newer]);
  });

  test('on a disk that has become read-only the run comes back all the same, and its torn end is mended later', async () => {
    const deck = await goingDeck();
    const path = deck.path();
    deck.kill();
    // Far more than what is written next, which must not leave the end of it behind.
    deck.disk.files.set(path, joined(deck.disk.files.get(path)!, new Uint8Array(3000).fill(65)));
    deck.disk.refuses = 'EROFS';
    const { deck: again, recovery } = await restarted(deck);
    expect(recovery.found?.run).toBe('run-1');
    expect(await again.host.command('n', { do: 'mark' })).toMatchObject({ ok: true });
    expect(again.host.snapshot().notices.join(' ')).toContain('would not survive a crash');
    deck.disk.refuses = null;
    await again.pass(2000);
    const now = again.host.snapshot().notices.join(' ');
    expect(now).not.toContain('would not survive a crash');
    // The tear was there before: nobody has written into the file since.
    expect(now).not.toContain('another program');
    expect(deck.disk.files.has(`${path}.torn`)).toBe(true);
    const read = readJournal(deck.disk.files.get(path)!);
    expect(read).toMatchObject({ kind: 'journal', length: deck.disk.files.get(path)!.length });
  });
});

/** A run with every kind of line in it. */
async function busy(): Promise<JournalledDeck> {
  const first = await goingDeck();
  first.kill();
  first.clock.stall(3000);
  const { deck } = await restarted(first);
  await deck.host.command('c', { do: 'shift', lanes: [1], seconds: 5 });
  await deck.pass(20_000);
  await deck.host.command('d', { do: 'stop' });
  await deck.pass(30_000);
  await deck.host.command('e', { do: 'resume' });
  await deck.host.command('f', { do: 'mark', words: 'Ångström, 千葉' });
  await deck.pass(100_000);
  await deck.host.command('g', { do: 'cut', line: 7, n: 1 });
  await deck.host.command('h', { do: 'undo' });
  await deck.pass(5000);
  deck.kill();
  return deck;
}

/** A journal with one field of a line (from 1) changed, every checksum and link of it being right. */
function withField(bytes: Uint8Array, line: number, field: string, value: unknown): Uint8Array {
  let before: string | null = null;
  const lines = new TextDecoder().decode(bytes).trimEnd().split('\n');
  const texts = lines.map((written, index) => {
    const entry = JSON.parse(written) as Record<string, unknown>;
    delete entry['sum'];
    delete entry['after'];
    if (index + 1 === line) entry[field] = value;
    const { text, sum } = lineOf(entry as unknown as JournalEntry, before);
    before = sum;
    return text;
  });
  return new TextEncoder().encode(texts.join(''));
}

/** A journal that is nothing but its end. */
const CLOSED = new TextEncoder().encode(
  lineOf({ say: 'closed', why: 'done', at: 1, mono: 1, uptime: 1, wall: 1, boot: 'b' }, '00000000').text,
);

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  return new Uint8Array(parts.flatMap((part) => [...part]));
}

function flipped(bytes: Uint8Array, at: number): Uint8Array {
  return bytes.map((byte, index) => (index === at ? byte ^ 4 : byte));
}
