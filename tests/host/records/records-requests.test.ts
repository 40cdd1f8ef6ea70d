/* What may be asked about the runs that are kept, and what is sent away: messages from outside, of any shape and size. */

import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import { DeckServerUnderTest } from '../../support/host/deck/deck-server.ts';
import { DONE, journalLines, said } from '../../support/host/folders/written-journal.ts';

const JSON_TYPE = { 'Content-Type': 'application/json' };
const LIST = { do: 'list', find: '', from: null, to: null, most: 10 };
const TEXT = 'Squad\nlane 1 Ana, Bram\n\nMain set\n2 x 50 fast @ 1:00 hold 0:40\n400 @ 8:00\n200 @ 5:00\n';
const REWRITTEN = TEXT.replace('200 @ 5:00', '200 @ 4:00');

let server: DeckServerUnderTest;

beforeEach(async () => {
  server = await DeckServerUnderTest.start();
  const lines = said([
    { atMs: 0, fields: { do: 'start' } },
    { atMs: 20_000, fields: { do: 'mark', words: 'cramp' } },
    { atMs: 30_000, fields: { do: 'rewrite', text: REWRITTEN } },
  ]);
  const back = { say: 'back', at: 75_000.5, by: 'monotonic' } as const;
  const [start, mark, rewrite] = lines;
  const sign = { say: 'alive', at: 60_000, leaves: [] } as const;
  const last = { ...sign, at: DONE.at - 1000 };
  const all = [start!, mark!, rewrite!, sign, back, last, DONE];
  server.disk.put('/data/runs/one.jsonl', Buffer.from(journalLines({ run: 'one', text: TEXT }, all).join('')));
});
afterEach(() => server.close());

const ask = (body: unknown, headers: Record<string, string | undefined> = {}) =>
  server.ask('POST', '/records', { ...JSON_TYPE, ...headers }, typeof body === 'string' ? body : JSON.stringify(body));

async function answerTo(body: object): Promise<Record<string, unknown>> {
  const { status, body: answer } = await ask(body);
  expect(status).toBe(200);
  return JSON.parse(answer) as Record<string, unknown>;
}

test('[records] only our own pages are answered; not pages from elsewhere, other programs, screens’ sockets or a GET', async () => {
  expect(await answerTo(LIST)).toMatchObject({ ok: true, runs: [{ run: 'one' }], more: 0, toCome: 0, said: [] });
  const other = { do: 'delete-everything' };
  expect((await ask(other, { Origin: 'http://pool.example' })).status).toBe(403);
  expect((await ask(other, { Origin: undefined })).status).toBe(403);
  expect((await server.ask('GET', '/records')).status).toBe(405);
  const screen = await server.screen();
  screen.socket.send(JSON.stringify({ say: 'records', ...other }));
  expect(await screen.closed()).toBe(1008);
  expect(server.disk.files.has('/data/runs/one.jsonl')).toBe(true);
});

describe('[records] a run', () => {
  const added = {
    ...NOTHING_ADDED,
    marks: [{ command: 1, words: 'left calf' }],
    effort: 6,
    times: [
      { lane: 1, at: 10_000, watches: [39_500] },
      { lane: 1, at: 70_000, watches: [41_250] },
      { lane: 1, at: 130_000, watches: [360_000] },
      { lane: 1, at: 610_000, watches: [170_000] },
    ],
  };

  test('has a review: record, hand times with paces and fade, tests, leaves not called, and additions', async () => {
    const { version } = (await answerTo({ do: 'keep', run: 'one', version: null, added })) as { version: string };
    const review = await answerTo({ do: 'review', run: 'one' });
    expect(review).toMatchObject({
      ok: true,
      unit: 'm',
      record: { run: 'one', effort: 6, load: 86, commands: [{}, { words: 'cramp', added: 'left calf' }, {}] },
      css: [{ lane: 1, cssMs: 95_000, caution: null, why: null }],
      notCalled: [{ fromMs: 60_000, toMs: 75_000, leaves: 'lane 1: 50 fast, rep 2' }],
      added,
      version,
      said: [],
    });
    expect((review['sets'] as unknown[])[0]).toEqual({
      lane: 1,
      part: 'Main set',
      line: 5,
      words: '50 fast',
      reps: [
        { rep: 1, of: 2, atMs: 10_000, timeMs: 39_500, paceMs: 79_000, overMs: -500 },
        { rep: 2, of: 2, atMs: 70_000, timeMs: 41_200, paceMs: 82_400, overMs: 1200 },
      ],
      fadeMs: 3400,
    });
  });

  test('keeps what another window has saved since; the answer has it', async () => {
    const { version } = await answerTo({ do: 'keep', run: 'one', version: null, added });
    const other = { ...added, effort: 2 };
    expect(await answerTo({ do: 'keep', run: 'one', version: null, added: other })).toEqual({
      ok: false,
      why: 'Another window has added to this run since: look at what it wrote, and save again.',
      changed: { added, version },
    });
    expect(await answerTo({ do: 'keep', run: 'one', version, added: other })).toMatchObject({ ok: true });
    expect(await answerTo({ do: 'review', run: 'one' })).toMatchObject({ added: other });
  });

  test('has a table, and its session can be opened again with the text in force at the end', async () => {
    const { csv } = (await answerTo({ do: 'table', run: 'one' })) as { csv: string };
    expect(csv.split('\r\n')[0]).toMatch(/^what,time of day,/);
    expect(await answerTo({ do: 'session', run: 'one' })).toEqual({
      ok: true,
      title: 'Squad',
      text: REWRITTEN,
      lanesText: null,
    });
  });

  test.each(['review', 'table', 'session', 'delete-run'])('%s: one that is not there is refused', async (wish) => {
    expect(await answerTo({ do: wish, run: 'nowhere' })).toEqual({
      ok: false,
      why: 'This run is not there any more: it was deleted or moved elsewhere.',
    });
  });
});

describe('[records] the host’s own run', () => {
  const open = async (): Promise<string> => {
    const opened = await server.host.open({ text: TEXT, lanesText: null }, { replace: false });
    if (!opened.ok) throw new Error(opened.reason);
    return opened.run;
  };

  test('is not deleted while it goes; a session that was never started is closed first', async () => {
    await open();
    expect(await answerTo({ do: 'delete-everything' })).toMatchObject({ ok: true });
    expect(server.host.current()).toBeNull();
    await open();
    await server.host.command('c-1', { do: 'start' });
    for (const wish of [{ do: 'delete-everything' }, { do: 'delete-name', name: 'Ana' }]) {
      expect(await answerTo(wish)).toMatchObject({ ok: false, why: expect.stringMatching(/still going/) });
    }
    expect(server.host.current()).not.toBeNull();
    // It can still be undone.
    await server.host.command('c-2', { do: 'finish' });
    expect(await answerTo({ do: 'delete-everything' })).toMatchObject({ ok: false });
  });
});

describe('[records] a message', () => {
  test.each<[string, unknown]>([
    ['no JSON', 'list'],
    ['nothing', {}],
    ['a wish that nobody knows', { do: 'format' }],
    ['a field too many', { ...LIST, folder: '/' }],
    ['a list without end', { ...LIST, most: 10_001 }],
    ['a search without end', { ...LIST, find: 'x'.repeat(201) }],
    ['a day that is none', { ...LIST, from: '26 November' }],
    ['no run', { do: 'review', run: '' }],
    ['a run longer than any', { do: 'review', run: 'x'.repeat(65) }],
    ['a version that is none', { do: 'keep', run: 'one', version: '../../x', added: NOTHING_ADDED }],
    ['an effort beyond 10', { do: 'keep', run: 'one', version: null, added: { ...NOTHING_ADDED, effort: 11 } }],
    [
      'a time by no watch',
      { do: 'keep', run: 'one', version: null, added: { ...NOTHING_ADDED, times: [{ lane: 1, at: 0, watches: [] }] } },
    ],
    [
      'notes without end',
      { do: 'keep', run: 'one', version: null, added: { ...NOTHING_ADDED, notes: ['x'.repeat(2001)] } },
    ],
    ['no name', { do: 'delete-name', name: '' }],
    ['a name longer than any', { do: 'delete-name', name: 'x'.repeat(101) }],
    ['a run to delete with everything', { do: 'delete-everything', run: 'one' }],
  ])('that is %s is refused with 400', async (_, body) => {
    const { status, body: answer } = await ask(body);
    expect([status, JSON.parse(answer)]).toMatchObject([400, { ok: false }]);
    expect(server.disk.files.has('/data/runs/one.jsonl')).toBe(true);
  });

  test('longer than any is refused', async () => {
    expect((await ask('x'.repeat(1100 * 1024))).status).toBe(413);
  });

  test('with any fields is answered with 200, 400 or 429, never with an error of the program', async () => {
    const field = fc.oneof(
      fc.string(),
      fc.integer(),
      fc.constant(null),
      fc.constantFrom('one', '2026-11-26', true, {}),
    );
    const wish = fc.constantFrom('list', 'review', 'table', 'session', 'keep', 'delete-run', 'delete-name');
    const message = fc.record(
      {
        do: wish,
        run: field,
        find: field,
        from: field,
        to: field,
        most: field,
        version: field,
        added: field,
        name: field,
      },
      { requiredKeys: ['do'] },
    );
    await fc.assert(
      fc.asyncProperty(message, async (body) => {
        expect([200, 400, 429]).toContain((await ask(body)).status);
      }),
      { numRuns: 60 },
    );
  });
});
