/*
 * Touches of a run that may still be going: put beside its journal with what else was added, each once, and told to all
 * screens of coaches.
 */

import { describe, expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import type { SentTouch } from '../../../app/host/records/records.ts';
import { TouchBook, type TouchKeeper } from '../../../app/host/records/touch-book.ts';
import { AFTERWARDS_VERSION, TOUCHES_KNOWN } from '../../../app/wire/records/afterwards.ts';
import { TIMES_TOLD } from '../../../app/wire/messages.ts';
import { given, recordsOn } from '../../support/host/folders/records-folder.ts';
import { SwumRuns } from '../../support/host/folders/swum-runs.ts';

let made = 0;

const touch = (watch: number | null, at = 10_000, id = `t${++made}`): SentTouch => ({ id, lane: 1, at, watch });

const FILE = '/data/runs/one.after.json';

function swumRuns() {
  const runs = new SwumRuns();
  runs.write('one');
  return { runs, records: runs.records };
}

describe('[touches] kept', () => {
  test('of several screens they come together, and notes that were added stay', async () => {
    const { records } = swumRuns();
    const before = { ...NOTHING_ADDED, notes: ['fins'] };
    await given<'keep'>(records, { do: 'keep', run: 'one', version: null, added: before });
    await records.touch('one', touch(38_000));
    await records.touch('one', touch(41_000, 70_000));
    const kept = await records.touch('one', touch(38_200));
    const times = [
      { lane: 1, at: 70_000, watches: [41_000] },
      { lane: 1, at: 10_000, watches: [38_000, 38_200] },
    ];
    expect(kept).toEqual({ ok: true, times });
    const { added, record } = await given<'review'>(records, { do: 'review', run: 'one' });
    expect(added).toEqual({ ...before, times });
    expect(record.lanes[0]?.leaves[0]?.timeMs).toBe(38_100);
    expect(record.lanes[1]?.leaves[0]?.timeMs).toBeNull();
  });

  test('one that comes again counts once, also after a restart, and after another screen has taken it back', async () => {
    const { runs, records } = swumRuns();
    const first = touch(38_000);
    await records.touch('one', first);
    await records.touch('one', touch(null));
    expect(await records.touch('one', first)).toEqual({ ok: true, times: [] });
    const back = touch(null, 70_000);
    await records.touch('one', back);
    await records.touch('one', touch(41_000, 70_000));
    expect(await new SwumRuns(runs.disk).records.touch('one', back)).toMatchObject({ times: [{ watches: [41_000] }] });
  });

  test('what the coach adds in the review keeps the touches known', async () => {
    const { records } = swumRuns();
    const first = touch(38_000);
    await records.touch('one', first);
    const { added, version } = await given<'review'>(records, { do: 'review', run: 'one' });
    await given<'keep'>(records, { do: 'keep', run: 'one', version, added: { ...added, times: [] } });
    expect(await records.touch('one', first)).toEqual({ ok: true, times: [] });
  });

  test('a file of the first version is added to, and nothing in it is lost', async () => {
    const { runs, records } = swumRuns();
    const old = { version: 1, run: 'one', ...NOTHING_ADDED, notes: ['fins'], effort: 6 };
    runs.disk.put(FILE, Buffer.from(JSON.stringify(old)));
    await records.touch('one', touch(38_000, 10_000, 'a'));
    const times = [{ lane: 1, at: 10_000, watches: [38_000] }];
    expect(JSON.parse(runs.text(FILE)!)).toEqual({ ...old, version: AFTERWARDS_VERSION, times, touches: ['a'] });
  });

  test('only the latest ids are kept', async () => {
    const { runs, records } = swumRuns();
    const touches = Array.from({ length: TOUCHES_KNOWN }, (_, index) => `old-${index}`);
    const file = { version: AFTERWARDS_VERSION, run: 'one', ...NOTHING_ADDED, touches };
    runs.disk.put(FILE, Buffer.from(JSON.stringify(file)));
    await records.touch('one', touch(38_000, 10_000, 'new'));
    expect((JSON.parse(runs.text(FILE)!) as typeof file).touches).toEqual([...touches.slice(1), 'new']);
  });

  test('of a run that goes on they do not read its journal to the end', async () => {
    const { records, runs } = swumRuns();
    const stem = '/data/runs/2026-11-26T19-30-00Z-two';
    runs.disk.put(`${stem}.jsonl`, Buffer.from('whatever stands there'));
    const times = [{ lane: 1, at: 10_000, watches: [38_000] }];
    expect(await records.touch('two', touch(38_000))).toEqual({ ok: true, times });
    expect(runs.text(`${stem}.after.json`)).toContain('38000');
  });

  test('of a run that was deleted they are gone with it, and bring no file back', async () => {
    const { records, runs } = swumRuns();
    await given<'delete-run'>(records, { do: 'delete-run', run: 'one' });
    expect(await records.touch('one', touch(38_000))).toEqual({ ok: true, times: [] });
    expect(runs.text(FILE)).toBeNull();
  });

  test('of the run that is open, whose journal was moved away, they are refused, so that they come again', async () => {
    const runs = new SwumRuns();
    const opened = { id: () => 'one', letGo: () => Promise.resolve(false) };
    const why = 'Times are kept beside the run’s record, and that is not there: it is tried again.';
    expect(await recordsOn(runs.disk, { opened }).touch('one', touch(38_000))).toEqual({ ok: false, why });
  });

  test('a look changes nothing', async () => {
    const { records, runs } = swumRuns();
    expect(await records.touch('one', null)).toEqual({ ok: true, times: [] });
    expect(runs.text(FILE)).toBeNull();
  });

  test('that another program’s additions came before go on top of those', async () => {
    const { records, runs } = swumRuns();
    await records.touch('one', touch(38_000));
    const { replace } = runs.disk;
    runs.disk.replace = (path, bytes, check) => {
      if (path !== FILE) return replace.call(runs.disk, path, bytes, check);
      runs.disk.replace = replace;
      const theirs = { version: AFTERWARDS_VERSION, run: 'one', ...NOTHING_ADDED, notes: ['fins'], touches: [] };
      runs.disk.put(FILE, Buffer.from(JSON.stringify(theirs)));
      return replace.call(runs.disk, path, bytes, check);
    };
    const times = [{ lane: 1, at: 10_000, watches: [39_000] }];
    expect(await records.touch('one', touch(39_000))).toEqual({ ok: true, times });
    expect(JSON.parse(runs.text(FILE)!)).toMatchObject({ notes: ['fins'], times });
  });

  test('that the disk does not take are refused with the reason', async () => {
    const { records, runs } = swumRuns();
    runs.disk.refuses = 'ENOSPC';
    expect(await records.touch('one', touch(38_000))).toEqual({
      ok: false,
      why: 'What you added to the run cannot be kept (the disk is full): free the disk and save it again.',
    });
  });

  test('beside additions of a newer program they are refused, and those are left as they are', async () => {
    const { records, runs } = swumRuns();
    runs.disk.put(FILE, Buffer.from('{"version":99}'));
    const why = expect.stringContaining('is of a newer Lanecall') as string;
    expect(await records.touch('one', touch(38_000))).toEqual({ ok: false, why });
    expect(runs.text(FILE)).toBe('{"version":99}');
  });
});

describe('[touches] told', () => {
  const said = (run: string, watch: number | null) => ({ say: 'touch', run, ...touch(watch) }) as const;

  /** The disk in memory has answered all that was asked. */
  async function settled(): Promise<void> {
    for (let turn = 0; turn < 20; turn++) await new Promise((resolve) => setImmediate(resolve));
  }

  test('once looked for, and after each of the run that is open; of another run they are kept and not told', async () => {
    const { runs, records } = swumRuns();
    runs.write('two');
    let open: string | null = null;
    const book = new TouchBook(() => open);
    book.keepIn(records);
    let news = 0;
    const stop = book.onNews(() => news++);
    expect(book.latest()).toBeNull();
    open = 'one';
    expect(book.latest()).toBeNull();
    await settled();
    expect([news, book.latest()]).toEqual([1, { say: 'times', run: 'one', times: [] }]);
    expect(await book.take(said('one', 38_000))).toBeNull();
    expect(news).toBe(2);
    expect(book.latest()?.times).toEqual([{ lane: 1, at: 10_000, watches: [38_000] }]);
    expect(await book.take(said('two', 39_000))).toBeNull();
    expect([news, book.latest()?.times[0]?.watches]).toEqual([2, [38_000]]);
    open = 'two';
    expect(book.latest()).toBeNull();
    await settled();
    expect(book.latest()?.times).toEqual([{ lane: 1, at: 10_000, watches: [39_000] }]);
    stop();
    await book.take(said('two', null));
    expect(news).toBe(3);
  });

  test('only the reps that left last', async () => {
    const times = Array.from({ length: TIMES_TOLD + 5 }, (_, at) => ({ lane: 1, at: (at * 7) % 65, watches: [1] }));
    const keeper: TouchKeeper = { touch: () => Promise.resolve({ ok: true, times }) };
    const book = new TouchBook(() => 'one');
    book.keepIn(keeper);
    await book.take(said('one', 1));
    expect(book.latest()?.times.map(({ at }) => at)).toEqual(Array.from({ length: TIMES_TOLD }, (_, at) => at + 5));
  });

  test('before there is a folder to keep them in they are refused with a sentence', async () => {
    expect(await new TouchBook(() => 'one').take(said('one', 1))).toBe('Times are not kept yet: try again.');
  });
});
