/* A whole journal, read from its bytes: which lines are used, where they end, and why the next one is not. */

import { beforeEach, describe, expect, test } from 'vitest';
import { lineOf, type JournalEntry } from '../../../app/host/journal/journal-line.ts';
import { firstLines, lastEntryOf, lastLineOf, readJournal } from '../../../app/host/journal/journal-text.ts';
import { DONE, journalLines, said } from '../../support/host/folders/written-journal.ts';

/** Four of them; the second has the sign that stands for bytes that are no text. */
function lines(journal = 2): readonly Buffer[] {
  const commands = said([
    { atMs: 1000, fields: { do: 'mark', words: 'Zoë �' } },
    { atMs: 2000, fields: { do: 'start' } },
  ]);
  return journalLines({ run: 'r', text: 'Main\n4 x 50 @ 1:00\n', journal }, [...commands, DONE]).map((line) =>
    Buffer.from(line),
  );
}

/** What is read of these lines, one behind the other. */
function read(...each: readonly (Uint8Array | string)[]) {
  const journal = readJournal(Buffer.concat(each.map((bytes) => Buffer.from(bytes))));
  if (journal.kind !== 'journal') throw new Error(journal.kind);
  return { lines: journal.entries.length, length: journal.length, stop: journal.stop };
}

describe('[journal] the lines of a journal', () => {
  test('are all used where they are whole and in place, each with its end and its checksum', () => {
    const all = lines();
    const journal = readJournal(Buffer.concat(all));
    if (journal.kind !== 'journal') throw new Error(journal.kind);
    expect(journal.opened).toMatchObject({ say: 'opened', run: 'r' });
    expect(journal.entries.map(({ say }) => say)).toEqual(['opened', 'command', 'command', 'closed']);
    expect(journal.entries[0]).toBe(journal.opened);
    const ends = all.map((_, index) => Buffer.concat(all.slice(0, index + 1)).length);
    expect(journal.ends).toEqual(ends);
    expect(journal.length).toBe(ends.at(-1));
    expect(journal.sums.map((sum) => `,"sum":"${sum}"}\n`)).toEqual(all.map((line) => line.toString().slice(-19)));
    expect(journal.stop).toBeNull();
  });

  test('of the first version are used too, though they do not name the line before', () => {
    const all = lines(1);
    expect(read(...all)).toMatchObject({ lines: 4, stop: null });
  });

  test('of a newer version are not used, whatever else the first line says', () => {
    const newer = { kind: 'newer', version: 3 };
    expect(readJournal(Buffer.concat(lines(3)))).toEqual(newer);
    expect(readJournal(Buffer.from('{"journal":3,"what":"ever"}\n'))).toEqual(newer);
  });

  test('are not used if the first is not whole or does not open a run', () => {
    const [opened, command] = lines();
    for (const bytes of [Buffer.alloc(0), opened!.subarray(0, -1), Buffer.from('{"journal":3}'), Buffer.from('\n\n')]) {
      expect(readJournal(bytes)).toEqual({ kind: 'nothing' });
    }
    expect(readJournal(Buffer.concat([command!, opened!]))).toEqual({ kind: 'nothing' });
  });
});

describe('[journal] a journal with harm in it', () => {
  let opened: Buffer, first: Buffer, second: Buffer, end: Buffer;
  beforeEach(() => {
    [opened, first, second, end] = lines() as [Buffer, Buffer, Buffer, Buffer];
  });

  test.each([
    ['half a line', () => [second.subarray(0, 40)]],
    ['a whole line without its newline', () => [second.subarray(0, -1)]],
    ['a whole line with something in place of its newline', () => [second.subarray(0, -1), 'x']],
    ['an empty line', () => ['\n', second]],
    ['a line with something in front of it', () => ['\uFEFF', second]],
    ['a line of a newer version', () => ['{"journal":3}\n']],
  ])('%s is damaged: everything before it is used', (_, behind) => {
    const length = opened.length + first.length;
    expect(read(opened, first, ...behind())).toEqual({ lines: 2, length, stop: 'damaged' });
  });

  test.each([
    ['a line that is missing', () => [end]],
    ['a line that is there twice', () => [first, second]],
    ['another opening', () => [opened, second]],
    ['a line of the first version, which names none before', () => [lines(1)[2]!]],
  ])('%s is out of place: everything before it is used', (_, behind) => {
    const length = opened.length + first.length;
    expect(read(opened, first, ...behind())).toEqual({ lines: 2, length, stop: 'out of place' });
  });

  test('bytes that are not UTF-8 are damage, even if they decode to what stood there', () => {
    const at = first.indexOf('�');
    const bent = Buffer.concat([first.subarray(0, at), Buffer.from([0xff]), first.subarray(at + 3)]);
    expect(read(opened, bent, second)).toEqual({ lines: 1, length: opened.length, stop: 'damaged' });
  });

  test('a second opening line is out of place in the first version too', () => {
    const [before, command] = lines(1) as [Buffer, Buffer];
    expect(read(before, before, command)).toEqual({ lines: 1, length: before.length, stop: 'out of place' });
  });
});

describe('[journal] the last line alone', () => {
  let whole: readonly Buffer[], last: Buffer;
  beforeEach(() => {
    whole = lines();
    last = whole.at(-1)!;
  });

  test('is read from the end of the file, from wherever the bytes begin', () => {
    for (const bytes of [Buffer.concat(whole), Buffer.concat([whole[2]!.subarray(30), last]), last]) {
      expect(lastEntryOf(bytes)).toMatchObject({ say: 'closed', why: 'done' });
      expect(`,"sum":"${lastLineOf(bytes)!.sum}"}\n`).toBe(last.toString().slice(-19));
    }
  });

  test('is missing if it is incomplete, damaged, not text or not there', () => {
    const bent = lineOf({ say: 'closed' } as JournalEntry, null).text;
    const broken = Buffer.concat([last.subarray(0, -1), Buffer.from([0xff, 0x0a])]);
    const other = Buffer.concat([last.subarray(0, -1), Buffer.from('x')]);
    for (const bytes of [other, last.subarray(0, -1), last.subarray(20), Buffer.from(bent), broken, Buffer.alloc(0)]) {
      expect([lastEntryOf(bytes), lastLineOf(bytes)]).toEqual([null, null]);
    }
    expect(lastEntryOf(Buffer.concat([last, Buffer.from('\n')]))).toBeNull();
  });
});

test('[journal] a journal cut to its first lines reads as it did when only those were written', () => {
  const journal = readJournal(Buffer.concat(lines()));
  if (journal.kind !== 'journal') throw new Error(journal.kind);
  expect(firstLines(journal, 2)).toEqual(readJournal(Buffer.concat(lines().slice(0, 2))));
});
