/* Journals that cannot be followed to their end: they are used as far as they go, the coach is told, and nothing is lost. */

import { describe, expect, test } from 'vitest';
import { lineOf, type JournalEntry } from '../../../../app/host/journal/journal-line.ts';
import { readJournal } from '../../../../app/host/journal/journal-text.ts';
import { goingDeck, JournalledDeck, restarted } from '../../../support/host/deck/journalled-deck.ts';

type Line = { readonly say: string; readonly id?: string } & Record<string, unknown>;

/** A run of five commands, a to e, whose journal a test has changed before the host is started again. */
async function changed(change: (lines: readonly string[], entries: readonly Line[]) => readonly string[]) {
  const deck = await goingDeck();
  await deck.host.command('c', { do: 'shift', lanes: [1], seconds: 5 });
  await deck.pass(3000);
  await deck.host.command('d', { do: 'stop', lanes: [1] });
  await deck.host.command('e', { do: 'mark', words: 'after all' });
  const path = deck.path();
  deck.kill();
  const lines = deck.disk.text(path).split(/(?<=\n)/);
  const entries = lines.map((line) => JSON.parse(line) as Line);
  const text = change(lines, entries).join('');
  deck.disk.put(path, Buffer.from(text));
  const before = text.split(/(?<=\n)/);
  const { deck: again, recovery } = await restarted(deck);
  const kept = deck.disk.files.has(`${path}.torn`) ? deck.disk.text(`${path}.torn`) : null;
  const given = recovery.found!.commands.map(({ id }) => id);
  return { again, recovery, path, before, kept, given, entries };
}

/** The same entries, some of them changed, as a program would have written them. */
function writtenAgain(entries: readonly Line[], change: (entry: Line) => Line): readonly string[] {
  let after: string | null = null;
  return entries.map(change).map((entry) => {
    const fields = Object.fromEntries(Object.entries(entry).filter(([name]) => name !== 'after' && name !== 'sum'));
    const line = lineOf(fields as unknown as JournalEntry, after);
    after = line.sum;
    return line.text;
  });
}

describe('[recovery] a command that cannot be carried out', () => {
  test.each([
    ['that this program does not know', { command: { do: 'sing' } }],
    ['that is refused now', { command: { do: 'resume', lanes: [2] } }],
    ['with a field that is out of range', { command: { do: 'shift', lanes: [1], seconds: 6000 } }],
    ['whose time is before that of the one before', { at: 5 }],
    ['whose time is not a whole number', { at: 61_000.5 }],
  ])('%s: the run is as it was before it, and that line and all after it are kept aside', async (_, fields) => {
    const { again, recovery, path, before, kept, given, entries } = await changed((_lines, all) =>
      writtenAgain(all, (entry) => (entry.id === 'c' ? { ...entry, ...fields } : entry)),
    );
    const line = entries.findIndex(({ id }) => id === 'c') + 1;
    expect(given).toEqual(['a', 'b']);
    expect(recovery.said).toEqual([
      expect.stringMatching(
        new RegExp(
          `^Line ${line} of the record .+ has a command that this Lanecall cannot carry out \\(.+\\): the run`,
        ),
      ),
    ]);
    expect(again.host.snapshot().notices).toContain(recovery.said[0]);
    // Screens fold what the host has folded, and nothing else.
    expect(again.host.snapshot().run!.commands).toHaveLength(2);
    expect(again.host.current()!.state).toEqual(recovery.found!.state);
    expect(kept).toBe(before.slice(line - 1).join(''));
    expect(again.disk.text(path).startsWith(before.slice(0, line - 1).join(''))).toBe(true);
    // It goes on from there, and is read to its end the next time.
    await again.host.command('f', { do: 'mark' });
    again.kill();
    const third = await restarted(again);
    expect(third.recovery).toMatchObject({ said: [] });
    expect(third.recovery.found!.commands.map(({ id }) => id)).toEqual(['a', 'b', 'f']);
  });
});

const LATER_FIELDS = ['after', 'sum', 'by', 'from'];

describe('[recovery] whole lines in the wrong place', () => {
  const where = (entries: readonly Line[], id: string) => entries.findIndex((entry) => entry.id === id);

  test.each([
    ['one is missing', 'c', (lines: readonly string[], at: number) => lines.filter((_, index) => index !== at)],
    [
      'one is doubled',
      'd',
      (lines: readonly string[], at: number) => lines.flatMap((line, i) => (i === at ? [line, line] : [line])),
    ],
    [
      'two have changed places',
      'c',
      (lines: readonly string[], at: number) =>
        lines.map((line, index) => (index === at ? lines[at + 1]! : index === at + 1 ? lines[at]! : line)),
    ],
    [
      'one is of another run',
      'c',
      (lines: readonly string[], at: number) =>
        lines.map((line, index) =>
          index === at ? lineOf({ ...(JSON.parse(line) as JournalEntry), mono: 7 }, '12345678').text : line,
        ),
    ],
  ])(
    '%s: everything before is used, the rest is kept aside, and the coach is told from which line',
    async (_, id, change) => {
      let at = 0;
      const { recovery, before, kept, given } = await changed((lines, entries) =>
        change(lines, (at = where(entries, id))),
      );
      const used = id === 'd' ? at + 1 : at;
      expect(given).toEqual(id === 'd' ? ['a', 'b', 'c', 'd'] : ['a', 'b']);
      expect(recovery.said[0]).toContain(`line ${used + 1} is not the one that was written after line ${used}`);
      expect(recovery.said[0]).toContain('keeps the rest in a file beside it');
      expect(kept).toBe(before.slice(used).join(''));
    },
  );

  test('a journal of the first form, whose lines name neither the line before nor who commanded, is read to its end and continued', async () => {
    const { again, recovery, path, given } = await changed((_, entries) =>
      entries.map((entry) => {
        const fields = Object.fromEntries(Object.entries(entry).filter(([name]) => !LATER_FIELDS.includes(name)));
        const first = entry.say === 'opened' ? { ...fields, journal: 1 } : fields;
        // That a remote gave it, and not which, stood in some.
        const told = entry.id === 'd' ? { ...first, by: 'remote' } : first;
        return lineOf(told as unknown as JournalEntry, null).text;
      }),
    );
    expect(recovery.said).toEqual([]);
    expect(given).toEqual(['a', 'b', 'c', 'd', 'e']);
    // There were none but those of this machine.
    const givers = again.host.snapshot().run!.commands.flatMap(({ by }) => by ?? []);
    expect(givers).toEqual(['The remote on this machine']);
    await again.host.command('f', { do: 'mark' });
    const bytes = again.disk.files.get(path)!;
    expect(readJournal(bytes)).toMatchObject({ kind: 'journal', length: bytes.length, stop: null });
    again.kill();
    expect((await restarted(again)).recovery.found!.commands).toHaveLength(6);
  });

  test('a finished run with a torn end stays finished, and the torn bytes are kept aside', async () => {
    const deck = await goingDeck();
    await deck.host.command('c', { do: 'finish' });
    await deck.pass(15_000);
    const path = deck.path();
    deck.kill();
    const whole = deck.disk.text(path);
    deck.disk.put(path, Buffer.from(`${whole}{"say":"comm`));
    expect((await restarted(deck)).recovery).toMatchObject({
      found: null,
      said: [expect.stringContaining('is damaged')],
    });
    expect(deck.disk.text(path)).toBe(whole);
    expect(deck.disk.text(`${path}.torn`)).toBe('{"say":"comm');
    expect((await JournalledDeck.start(deck.clock, deck.disk)).recovery).toMatchObject({ found: null, said: [] });
  });
});
