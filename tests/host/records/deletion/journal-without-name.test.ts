/* A journal without a swimmer's name: every line whole again, and the same run. */

import { describe, expect, test } from 'vitest';
import { recordJson, type RecordJson } from '../../../../app/core/record/tables/record-json.ts';
import { recordOf } from '../../../../app/core/record/record.ts';
import { MOST_CHARACTERS } from '../../../../app/core/session/text/lines.ts';
import { namePattern } from '../../../../app/core/session/names/name-pattern.ts';
import { readJournal } from '../../../../app/host/journal/journal-text.ts';
import { journalWithoutName } from '../../../../app/host/records/deletion/journal-without-name.ts';
import { readKept } from '../../../../app/host/records/kept-journal.ts';
import { modelRehearsal } from '../../../model/run/run-model.ts';
import { textOf } from '../../../model/scenario.ts';
import { inventTrial } from '../../../model/trial.ts';
import { eveningScript, eveningText } from '../../../support/run/eventful-evening.ts';
import { DONE, journalLines, said, type Said, type WrittenRun } from '../../../support/host/folders/written-journal.ts';
import { runs } from '../../../support/run/runs.ts';

const LATER = 1000 * 60 * 60 * 1000;

const bytesOf = (lines: readonly string[]): Buffer => Buffer.from(lines.join(''));

const without = (bytes: Uint8Array, name: string): Uint8Array => {
  const result = journalWithoutName(bytes, namePattern(name)!);
  if (result.kind === 'same') return bytes;
  if (result.kind !== 'changed') throw new Error(result.kind);
  return result.bytes;
};

async function recordIn(bytes: Uint8Array): Promise<RecordJson> {
  const read = await readKept({ read: () => Promise.resolve(bytes) }, 'x.jsonl');
  if (read.kind !== 'run') throw new Error(read.kind);
  return recordJson(recordOf(read.kept));
}

/** Without whatever people wrote. */
function nameless({ lanes, commands, parts, ...run }: RecordJson): unknown {
  return {
    ...run,
    title: '',
    lanes: lanes.map(({ names, leaves, ...lane }) => {
      return { ...lane, named: names?.length, leaves: leaves.map((leave) => ({ ...leave, words: '', part: '' })) };
    }),
    commands: commands.map((command) => ({ ...command, words: 'words' in command, text: 'text' in command })),
    parts: parts.map((part) => ({ ...part, part: '' })),
  };
}

describe('[names] the eventful evening', () => {
  const text = eveningText().replace('\n', '\n# Zorabel leads today\n');
  const script = eveningScript().map(({ atMs, fields }) => ({
    atMs,
    fields: fields['do'] === 'mark' ? { ...fields, words: 'Zorabel: cramp' } : fields,
  }));
  const before = bytesOf(journalLines({ run: 'evening', text }, [...said(script), DONE]));

  test('the name is in no byte, every line is whole and follows the one before, and the run is unchanged', async () => {
    const after = without(before, 'Zorabel');
    expect(Buffer.from(after).toString()).not.toMatch(/zorabel/i);
    const journal = readJournal(after);
    expect(journal).toMatchObject({ kind: 'journal', stop: null, length: after.length });
    expect(nameless(await recordIn(after))).toEqual(nameless(await recordIn(before)));
  });

  test('a journal without the name stays as it is, byte by byte', () => {
    expect(journalWithoutName(before, namePattern('Nobody')!)).toEqual({ kind: 'same' });
  });

  test('a journal of the first form, whose lines do not name the line before, stays one', () => {
    const written: WrittenRun = { run: 'old', text, journal: 1 };
    const after = without(bytesOf(journalLines(written, said(script))), 'Zorabel');
    expect(readJournal(after)).toMatchObject({ kind: 'journal', stop: null, opened: { journal: 1 } });
    expect(Buffer.from(after).toString()).not.toContain('"after"');
  });

  test.each([
    ['"x Zorabel"', ''],
    ['"x Anna"', '"x Anna"'],
  ])('a torn end goes if it has the name, and stays if not: %s', (torn, left) => {
    const after = without(Buffer.concat([before, Buffer.from(torn)]), 'Zorabel');
    expect(Buffer.from(after).toString()).toBe(Buffer.from(without(before, 'Zorabel')).toString() + left);
  });

  test('a name that the session is read by stays, and is reported as needed', () => {
    const kick = bytesOf(journalLines({ run: 'x', text: 'lane 1\nSet\n4 x 50 kick rest 15\n' }, [DONE]));
    expect(journalWithoutName(kick, namePattern('Kick')!).kind).toBe('needed');
  });

  test('so is one that only what has left was read by, in a text that was replaced since', () => {
    const text = 'lane 1\nSet\n4 x 50 kick rest 15\n';
    const lines = said([
      { atMs: 0, fields: { do: 'start' } },
      { atMs: 200_000, fields: { do: 'rewrite', text: text.replace('kick ', '') } },
    ]);
    expect(
      journalWithoutName(bytesOf(journalLines({ run: 'x', text }, [...lines, DONE])), namePattern('Kick')!),
    ).toEqual({
      kind: 'needed',
    });
  });

  test('a session that only the name kept from being read is left, and reported as needed', () => {
    const line = `4 x 50 @ 1:00 Zorabel ${'x'.repeat(MOST_CHARACTERS - 21)}`;
    expect(Array.from(line).length).toBe(MOST_CHARACTERS + 1);
    const written = bytesOf(journalLines({ run: 'x', text: `Squad\n${line}\n` }, [DONE]));
    expect(journalWithoutName(written, namePattern('Zorabel')!)).toEqual({ kind: 'needed' });
  });

  test('a name that only the lanes have is found and removed', () => {
    const written = { run: 'x', text: 'Squad\n4 x 50 @ 1:00\n', lanesText: 'lane 1 Zorabel\nlane 2 Ana\n' };
    const { opened } = readJournal(without(bytesOf(journalLines(written, [DONE])), 'Zorabel')) as { opened?: object };
    expect(opened).toMatchObject({ text: written.text, lanesText: 'lane 1 one\nlane 2 Ana\n' });
  });

  test('a device that was called by the name has another one; its role and its key’s name stay', () => {
    const from = (name: string) => ({ role: 'remote', name, device: 'd-1' }) as const;
    const lines = said([
      { atMs: 0, fields: { do: 'start' } },
      { atMs: 20_000, fields: { do: 'mark' } },
    ]).map(
      (line, index) => ({ ...line, by: 'remote', from: from(index === 0 ? 'Phone of Zorabel' : 'Pool phone') }) as Said,
    );
    const before = bytesOf(journalLines({ run: 'x', text: 'Squad\n4 x 50 @ 1:00\n' }, [...lines, DONE]));
    const after = without(before, 'Zorabel');
    expect(Buffer.from(after).toString()).not.toMatch(/zorabel/i);
    const journal = readJournal(after);
    if (journal.kind !== 'journal') throw new Error(journal.kind);
    const devices = journal.entries.flatMap((entry) => (entry.say === 'command' && entry.from ? [entry.from] : []));
    expect(devices).toEqual([from('Phone of somebody'), from('Pool phone')]);
  });

  test('lines without words stay: signs of life, a return and the close; command names stay too', () => {
    const lines = [
      ...said([
        { atMs: 0, fields: { do: 'start' } },
        { atMs: 20_000, fields: { do: 'mark', words: 'lane 1 css 1:20, Start' } },
      ]),
      { say: 'alive', at: 30_000, leaves: [[1, 10_000]] } as const,
      { say: 'back', at: 40_000, by: 'wall' } as const,
      DONE,
    ];
    const before = bytesOf(journalLines({ run: 'x', text: 'Squad\n4 x 50 @ 1:00\n' }, lines));
    const after = without(before, 'Start');
    const entries = (bytes: Uint8Array) => (readJournal(bytes) as { entries?: readonly object[] }).entries!;
    expect(entries(after)).toEqual(
      JSON.parse(JSON.stringify(entries(before)).replace('css 1:20, Start', 'css 1:20, somebody'), (field, value) =>
        field === 'after' ? expect.any(String) : (value as unknown),
      ),
    );
  });

  test('the name goes even if the session can no longer be read', () => {
    const after = without(
      bytesOf(journalLines({ run: 'x', text: 'Squad\nlane 1 Zorabel\n4 x 50 @\n' }, [])),
      'Zorabel',
    );
    expect(readJournal(after)).toMatchObject({ opened: { text: 'Squad\nlane 1 one\n4 x 50 @\n' } });
  });

  test('a rewrite that would be refused without the name keeps it, and it is reported as needed', () => {
    const text = 'Squad\nlane 1 base 1:30\n\nMain\n4 x 50 somebody leads @ 1:00\n';
    const commands = said([
      { atMs: 0, fields: { do: 'start' } },
      { atMs: 5000, fields: { do: 'rewrite', text: text.replace('somebody', 'Zorabel') } },
    ]);
    expect(journalWithoutName(bytesOf(journalLines({ run: 'x', text }, commands)), namePattern('Zorabel')!)).toEqual({
      kind: 'needed',
    });
  });

  test('a journal of a newer form, or an unreadable one, is reported if it has the name', () => {
    const newer = bytesOf(journalLines({ run: 'x', text, journal: 3 }, []));
    const torn = Buffer.from('{"text":"Squad\\nZorabel"');
    expect(journalWithoutName(newer, namePattern('Zorabel')!)).toEqual({ kind: 'newer' });
    expect(journalWithoutName(torn, namePattern('Zorabel')!)).toEqual({ kind: 'no journal' });
    for (const bytes of [newer, torn]) expect(journalWithoutName(bytes, namePattern('Bo')!)).toEqual({ kind: 'same' });
  });
});

test(`[names] random runs, seeds 1 to ${runs(60)}: the fold is the same, and the name is gone`, async () => {
  let changed = 0;
  for (let seed = 1; seed <= runs(60); seed++) {
    const { written, phaseMs, commands, texts } = inventTrial(seed);
    const model = modelRehearsal(written, phaseMs, commands, texts);
    const given = commands.filter((_, index) => model.answers[index]!.ok);
    const run = { run: `seed-${seed}`, text: textOf(written), lanesText: written.lanesText, clockPhase: phaseMs };
    const lines = said(given.map(({ atMs, ...fields }) => ({ atMs, fields })));
    const before = bytesOf(journalLines(run, [...lines, { say: 'closed', at: LATER, why: 'replaced' }]));
    const names = (await recordIn(before)).lanes.flatMap((lane) => lane.names ?? []);
    for (const name of [...names.slice(0, 2), 'cramp']) {
      const result = journalWithoutName(before, namePattern(name)!);
      expect(['same', 'changed'], `${seed} ${name}`).toContain(result.kind);
      if (result.kind !== 'changed') continue;
      changed++;
      const { entries } = readJournal(result.bytes) as Extract<ReturnType<typeof readJournal>, { kind: 'journal' }>;
      expect(
        entries.some((entry) => namePattern(name)!.isIn(wordsIn(entry))),
        `${seed} ${name}`,
      ).toBe(false);
      expect(nameless(await recordIn(result.bytes)), `${seed} ${name}`).toEqual(nameless(await recordIn(before)));
    }
  }
  expect(changed).toBeGreaterThan(runs(60) / 4);
}, 60_000);

/** All texts in an entry, one after the other. */
function wordsIn(value: unknown): string {
  if (typeof value === 'string') return `${value}\n`;
  return typeof value === 'object' && value !== null ? Object.values(value).map(wordsIn).join('') : '';
}
