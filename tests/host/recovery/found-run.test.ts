/* A journal folded to its run: what its texts weigh, when it was opened, and what cannot be folded. */

import { describe, expect, test } from 'vitest';
import { weightOf } from '../../../app/host/deck/run-texts.ts';
import { lineOf } from '../../../app/host/journal/journal-line.ts';
import { readJournal, type JournalLines } from '../../../app/host/journal/journal-text.ts';
import { foldJournal, foundRun } from '../../../app/host/recovery/found-run.ts';
import { recover } from '../../../app/host/recovery/recovery.ts';
import { planOf } from '../../support/run/deck.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { FOLDER, goingDeck, restarted } from '../../support/host/deck/journalled-deck.ts';
import { journalLines, said, THURSDAY } from '../../support/host/folders/written-journal.ts';

const TEXT = 'Squad\nlane 1\n\nMain set\n4 x 50 @ 1:00\n';
const OTHER = TEXT.replace('4 x', '40 x');
const MOMENT = new FakeClock({ now: 10_000, timeOfDay: THURSDAY }).instant();

function read(lines: readonly string[]): JournalLines {
  const journal = readJournal(Buffer.from(lines.join('')));
  if (journal.kind !== 'journal') throw new Error(journal.kind);
  return journal;
}

const folded = (commands: readonly { readonly atMs: number; readonly fields: object }[]) =>
  foldJournal(read(journalLines({ run: 'r', text: TEXT }, said(commands))))!;

describe('[recovery] the weight of a run’s texts', () => {
  const own = weightOf(planOf(TEXT));

  test('counts its own text and each that came into force later', () => {
    expect(folded([{ atMs: 0, fields: { do: 'start' } }]).weight).toBe(own);
    const rewrite = { atMs: 500, fields: { do: 'rewrite', text: OTHER } };
    expect(folded([rewrite]).weight).toBe(own + weightOf(planOf(OTHER)));
    const back = { atMs: 900, fields: { do: 'rewrite', text: TEXT } };
    expect(folded([rewrite, back]).weight).toBe(2 * own + weightOf(planOf(OTHER)));
  });
});

describe('[recovery] a command in a journal', () => {
  const start = { atMs: 60_000, fields: { do: 'start' } };

  test.each([
    ['with a time before the last one’s', 59_999, { do: 'mark' }, 'Its time is before that of the command before.'],
    ['at a fraction of a millisecond', 60_000.5, { do: 'mark' }, 'Its time is before that of the command before.'],
    ['that this program does not know', 60_000, { do: 'sing' }, expect.stringContaining('sing')],
    ['that is refused', 60_000, { do: 'start' }, expect.any(String)],
  ])('%s ends the part of the journal that is used', (_, atMs, fields, refused) => {
    const {
      commands,
      journal,
      refused: why,
    } = folded([start, { atMs, fields }, { atMs: 70_000, fields: { do: 'mark' } }]);
    expect([commands.length, journal.entries.length, why]).toEqual([1, 2, refused]);
  });

  test('may have the same time as the command before', () => {
    expect(folded([start, { atMs: 60_000, fields: { do: 'mark' } }])).toMatchObject({
      commands: [{ id: 'c-0' }, { id: 'c-1', at: 60_000, fields: { do: 'mark' }, command: { do: 'mark' } }],
      refused: null,
    });
  });
});

test('[recovery] a run whose clock was matched keeps the time of its first opening, not that of its file', () => {
  const journal = read(journalLines({ run: 'r', text: TEXT }, []));
  const opened = { ...journal.opened, at: 90_000, wall: THURSDAY };
  const run = foundRun(
    { ...foldJournal(journal)!, journal: { ...journal, opened } },
    { path: 'a', bytes: new Uint8Array(), sum: '', torn: null },
    MOMENT,
    'boot-1',
  );
  expect(run.openedAtWall).toBe(THURSDAY - 90_000);
});

describe('[recovery] a journal whose session this program cannot read', () => {
  const path = `${FOLDER}/2999-01-01T00-00-00Z-odd.jsonl`;
  const bytes = Buffer.from(journalLines({ run: 'odd', text: 'Main\n4 x 50 @ 1.00\n' }, []).join(''));

  test('gives no run', () => {
    expect(foldJournal(read([bytes.toString()]))).toBeNull();
  });

  test('is reported and left as it is, and the run in another journal comes back', async () => {
    const deck = await goingDeck();
    deck.kill();
    deck.disk.put(path, bytes);
    const { recovery } = await restarted(deck);
    expect(recovery.found?.run).toBe('run-1');
    expect(recovery.said).toEqual([
      'The session in the record 2999-01-01T00-00-00Z-odd.jsonl cannot be read by this Lanecall: it is left unchanged. ' +
        'Open it with the version that wrote it, or move it out of the folder.',
    ]);
    expect(deck.disk.files.get(path)).toBe(bytes);
  });
});

describe('[recovery] in a folder of several journals', () => {
  const recovered = async (disk: FakeDisk) => recover({ disk, folder: FOLDER, boot: 'boot-1', moment: MOMENT });
  const going = (run: string, openedAt: number) =>
    Buffer.from(journalLines({ run, text: TEXT, openedAt }, []).join(''));
  const lines = (disk: FakeDisk, name: string) => disk.text(`${FOLDER}/${name}.jsonl`).split('\n').length - 1;
  const openedLine = (run: string, boot: string, times: { readonly mono: number; readonly wall: number }) => {
    const { opened } = read(journalLines({ run, text: TEXT }, []));
    return lineOf({ ...opened, ...times, boot }, null).text;
  };

  test('only files named as journals are read', async () => {
    const disk = new FakeDisk();
    disk.put(`${FOLDER}/a.jsonl.torn`, Buffer.from('torn'));
    disk.put(`${FOLDER}/notes.txt`, Buffer.from('not ours'));
    expect(await recovered(disk)).toMatchObject({ found: null, away: null, said: [] });
    expect(disk.bytesRead).toBe(0);
  });

  test('of two copies of one journal the longer one is used', async () => {
    for (const names of [
      ['a', 'b'],
      ['b', 'a'],
    ]) {
      const disk = new FakeDisk();
      const whole = journalLines({ run: 'r', text: TEXT }, said([{ atMs: 0, fields: { do: 'start' } }]));
      disk.put(`${FOLDER}/${names[0]}.jsonl`, Buffer.from(whole[0]!));
      disk.put(`${FOLDER}/${names[1]}.jsonl`, Buffer.from(whole.join('')));
      const { found } = await recovered(disk);
      expect([found?.file.path, found?.commands.length]).toEqual([`${FOLDER}/${names[1]}.jsonl`, 1]);
    }
  });

  test('among earlier starts of the machine the newest run is the one opened last by the wall clock, whatever its file name', async () => {
    const disk = new FakeDisk();
    disk.put(`${FOLDER}/2026-b.jsonl`, going('older', THURSDAY - 60_000));
    disk.put(`${FOLDER}/2026-a.jsonl`, going('newer', THURSDAY - 1000));
    const { found } = await recover({ disk, folder: FOLDER, boot: 'boot-2', moment: MOMENT });
    expect(found?.run).toBe('newer');
    // And the other one is closed, once.
    expect([lines(disk, '2026-a'), lines(disk, '2026-b')]).toEqual([1, 2]);
  });

  test('a run of this start of the machine is newer than any of an earlier start, and is read once', async () => {
    const disk = new FakeDisk();
    disk.put(`${FOLDER}/a.jsonl`, Buffer.from(openedLine('now', 'boot-1', { mono: 4000, wall: THURSDAY - 7_000_000 })));
    disk.put(`${FOLDER}/b.jsonl`, Buffer.from(openedLine('before', 'boot-0', { mono: 9000, wall: THURSDAY })));
    disk.put(`${FOLDER}/c.jsonl`, Buffer.from(openedLine('long ago', 'boot-0', { mono: 9500, wall: THURSDAY - 1000 })));
    const { found } = await recovered(disk);
    expect(found?.run).toBe('now');
    expect(['a', 'b', 'c'].map((name) => lines(disk, name))).toEqual([1, 2, 2]);
  });

  test('of two runs of this start the newer is the one opened later by the monotonic clock', async () => {
    const disk = new FakeDisk();
    disk.put(`${FOLDER}/a.jsonl`, Buffer.from(openedLine('later', 'boot-1', { mono: 9000, wall: THURSDAY - 1000 })));
    disk.put(`${FOLDER}/b.jsonl`, Buffer.from(openedLine('first', 'boot-1', { mono: 8000, wall: THURSDAY })));
    expect((await recovered(disk)).found?.run).toBe('later');
  });

  test('up to seven sentences are listed; of eight or more, six and the number of the others', async () => {
    for (const count of [7, 8]) {
      const disk = new FakeDisk();
      for (let index = 0; index < count; index++) disk.put(`${FOLDER}/${index}.jsonl`, Buffer.from('x'));
      const { said: told } = await recovered(disk);
      expect(told).toHaveLength(7);
      expect(told[0]).toContain(`${count - 1}.jsonl`);
      expect(told[6]?.startsWith('2 more records')).toBe(count === 8);
    }
  });

  test('twenty unfinished runs are read at each start', async () => {
    for (const [count, left] of [
      [20, 0],
      [21, 1],
    ] as const) {
      const disk = new FakeDisk();
      for (let index = 0; index < count; index++) {
        disk.put(`${FOLDER}/${index}.jsonl`, going(`r${index}`, THURSDAY - 1000 * index));
      }
      const { said: told } = await recovered(disk);
      expect(told.length).toBe(left);
    }
  });
});
