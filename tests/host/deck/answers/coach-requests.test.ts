/* What may be asked of the host besides pages: each question with its replies, whoever carries it. */

import { describe, expect, test } from 'vitest';
import { QUESTIONS, type Reply } from '../../../../app/host/deck/answers/coach-requests.ts';
import { DeckHost } from '../../../../app/host/deck/deck-host.ts';
import { TEXT_LIMIT, WIRE_VERSION } from '../../../../app/wire/messages.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';
import { JournalInMemory } from '../../../support/host/folders/journal-in-memory.ts';

const TEXT = 'lane 1\nMain set\n8 x 50 @ 1:00\n';
const JSON_TYPE = 'application/json';

function deck(): DeckHost {
  const clock = new FakeClock();
  let ids = 0;
  return new DeckHost({ clock, timers: clock.timers, journal: new JournalInMemory(), newId: () => `run-${++ids}` });
}

/** A question that came in whole; a body that is no text goes as JSON. */
function ask(host: DeckHost, path: string, body: unknown, type = JSON_TYPE, query = ''): Promise<Reply> {
  const bytes = Buffer.isBuffer(body) ? body : Buffer.from(typeof body === 'string' ? body : JSON.stringify(body));
  return QUESTIONS.get(path)!.answer(host, { query, type, body: { ok: true, bytes } });
}

const brokenBody = (host: DeckHost, path: string, why: 'too large' | 'broken off', type = JSON_TYPE): Promise<Reply> =>
  QUESTIONS.get(path)!.answer(host, { query: '', type, body: { ok: false, why } });

const refused = (status: number, why: string): Reply => ({ status, value: { ok: false, why } });

const TOO_LARGE = 'A session can have 256 KiB of text at most: make it shorter.';

/** A host whose run has been given a start. */
async function going(): Promise<DeckHost> {
  const host = deck();
  await ask(host, '/session', TEXT, 'text/plain');
  await host.command('start', { do: 'start' });
  return host;
}

describe('[requests] bodies that are accepted', () => {
  test.each([
    ['/session', 'PUT', 'image/png', 'Send a session as text/plain, or as application/json with its lanes.'],
    ['/command', 'POST', 'text/plain', 'Send a command as application/json.'],
    ['/clock', 'POST', 'text/plain', 'Send a clock to match as application/json.'],
    ['/leave', 'POST', 'text/plain', 'Send the run to leave as application/json.'],
  ])('%s by %s, JSON and not %s', (path, method, type, why) => {
    const question = QUESTIONS.get(path)!;
    expect(question.method).toBe(method);
    expect(question.refusesType(JSON_TYPE)).toBeNull();
    expect(question.refusesType(type)).toEqual(refused(415, why));
    expect(question.limit(JSON_TYPE)).toBe(4 * TEXT_LIMIT);
  });

  test('a session may come as plain text up to its limit; the body of "told" is not read', () => {
    expect(QUESTIONS.get('/session')!.refusesType('text/plain')).toBeNull();
    expect(QUESTIONS.get('/session')!.limit('text/plain')).toBe(TEXT_LIMIT);
    const { method, refusesType, limit } = QUESTIONS.get('/told')!;
    expect([method, refusesType('image/png'), limit('')]).toEqual(['POST', null, 0]);
  });
});

describe('[requests] a session', () => {
  test('is opened from plain text or from JSON with its lanes', async () => {
    const host = deck();
    expect(await ask(host, '/session', TEXT, 'text/plain')).toEqual({ status: 200, value: { ok: true, run: 'run-1' } });
    expect(host.texts()).toMatchObject([{ text: TEXT, lanesText: null }]);
    const lanesText = 'lane 1 base 1:30\n';
    const asked = { text: 'Main set\n8 x 50 @ 1:00\n', lanesText, clockPhase: 15_000 };
    expect(await ask(host, '/session', asked)).toEqual({ status: 200, value: { ok: true, run: 'run-2' } });
    expect(host.texts()).toMatchObject([{ text: asked.text, lanesText }]);
    expect(host.current()!.clockPhase).toBe(15_000);
  });

  test('with faults is answered with all of them and the text they are in', async () => {
    const faults = async (body: unknown, type?: string) => (await ask(deck(), '/session', body, type)) as unknown;
    expect(await faults('Main set\n8 x\n', 'text/plain')).toMatchObject({
      status: 400,
      value: { in: 'session', errors: [{ line: 2 }] },
    });
    expect(await faults({ text: TEXT, lanesText: 'lane x\n' })).toMatchObject({
      status: 400,
      value: { in: 'lanes', errors: [{ line: 1 }] },
    });
    expect(await faults(Buffer.from([0x4d, 0xff]), 'text/plain')).toMatchObject({
      status: 400,
      value: { in: 'session', errors: [{ line: 1, column: 2 }] },
    });
  });

  test('does not replace a run that is going, unless that is asked for in the body or behind the path', async () => {
    const why = 'A run is going: finish it first, or open this session in its place.';
    const host = await going();
    expect(await ask(host, '/session', TEXT, 'text/plain')).toEqual(refused(409, why));
    expect(await ask(host, '/session', TEXT, 'text/plain', 'replace=yes')).toEqual(refused(409, why));
    expect(await ask(host, '/session', { text: TEXT, replace: false }, JSON_TYPE, 'replace=true')).toEqual(
      refused(409, why),
    );
    expect(await ask(host, '/session', TEXT, 'text/plain', 'replace=true')).toMatchObject({ status: 200 });
    expect(await ask(await going(), '/session', { text: TEXT, replace: true })).toMatchObject({ status: 200 });
    expect(await ask(await going(), '/session', { text: TEXT }, JSON_TYPE, 'replace=true')).toMatchObject({
      status: 200,
    });
  });

  test('that is not JSON, not a session or not UTF-8 is refused with an example of the right form', async () => {
    const why = 'Write a session in JSON as {"text": "…", "lanesText": "…" or null}.';
    for (const body of ['{"text"', '{}', '{"text":7}', Buffer.from([0x22, 0xff, 0x22])]) {
      expect(await ask(deck(), '/session', body)).toEqual(refused(400, why));
    }
  });

  test('of more than 256 KiB is refused, text or lanes, counted in bytes', async () => {
    const lines = (bytes: number): string => `${TEXT}${'#'.repeat(bytes - TEXT.length)}`;
    // A line of that length has a fault of its own.
    expect(await ask(deck(), '/session', { text: lines(TEXT_LIMIT) })).toMatchObject({ status: 400 });
    expect(await ask(deck(), '/session', { text: `${lines(TEXT_LIMIT - 1)}é` })).toEqual(refused(413, TOO_LARGE));
    expect(await ask(deck(), '/session', { text: TEXT, lanesText: '#'.repeat(TEXT_LIMIT + 1) })).toEqual(
      refused(413, TOO_LARGE),
    );
  });

  test('whose body is too large or breaks off is refused with that reason', async () => {
    for (const path of ['/session', '/command']) {
      expect(await brokenBody(deck(), path, 'too large')).toEqual(refused(413, TOO_LARGE));
      expect(await brokenBody(deck(), path, 'broken off')).toEqual(refused(400, TOO_LARGE));
    }
  });
});

describe('[requests] a command', () => {
  test('is carried out and answered by its id', async () => {
    const host = deck();
    await ask(host, '/session', TEXT, 'text/plain');
    const message = { say: 'command', id: 'c-1', command: { do: 'start' }, run: 'run-1' };
    expect(await ask(host, '/command', message)).toEqual({
      status: 200,
      value: { say: 'answer', id: 'c-1', ok: true, at: 0, why: null },
    });
    expect(host.current()!.commands).toHaveLength(1);
  });

  test('keeps every letter of its words', async () => {
    const host = await going();
    await ask(host, '/command', { say: 'command', id: 'c-1', command: { do: 'mark', words: 'Zoë: Krämpfe' } });
    expect(host.current()!.commands.at(-1)?.command).toEqual({ do: 'mark', words: 'Zoë: Krämpfe' });
  });

  test('for another run, or for a rep that is no longer next, is refused as it would be over a socket', async () => {
    const host = await going();
    const meant = { say: 'command', id: 'c-1', command: { do: 'stop' }, run: 'run-9' };
    expect(await ask(host, '/command', meant)).toMatchObject({ status: 200, value: { ok: false } });
    const expected = { 1: { line: 3, rounds: [], rep: 5 } };
    const skip = { say: 'command', id: 'c-2', command: { do: 'skip', lanes: [1] }, expected };
    expect(await ask(host, '/command', skip)).toMatchObject({ status: 200, value: { ok: false } });
  });

  test.each([
    ['of another version', { say: 'hello', version: WIRE_VERSION + 1, screen: 'desk' }, true],
    ['with a field that is not known here', { say: 'command', id: 'c', command: {}, squad: 1 }, true],
    ['of another kind', { say: 'ping', n: 0, t1: 0 }, false],
    ['that is no message', 'no JSON', false],
  ])('a message %s is refused', async (_, message, isNewer) => {
    const why = isNewer
      ? 'This command is not of this version of Lanecall: reload the page.'
      : 'That was not a command.';
    expect(await ask(deck(), '/command', message)).toEqual(refused(400, why));
  });
});

describe("[requests] the pool's clock", () => {
  const READS = 'Write a clock to match as {"run": "…", "clockPhase": 0 to 59999 or null}.';

  test('to match the clock opens the run anew', async () => {
    const host = deck();
    await ask(host, '/session', TEXT, 'text/plain');
    expect(await ask(host, '/clock', { run: 'run-1', clockPhase: 30_000 })).toEqual({
      status: 200,
      value: { ok: true, run: 'run-2' },
    });
    expect(host.current()).toMatchObject({ id: 'run-2', clockPhase: 30_000 });
  });

  test('that cannot be read, or cannot be done, is refused with the right HTTP status', async () => {
    const host = await going();
    expect(await ask(host, '/clock', { run: 'run-1', clockPhase: 60_000 })).toEqual(refused(400, READS));
    expect(await brokenBody(host, '/clock', 'broken off')).toEqual(refused(400, READS));
    expect(await ask(host, '/clock', { run: 'run-9', clockPhase: 0 })).toEqual(
      refused(409, 'Another session has been opened in the meantime: check the screen, then try again.'),
    );
    expect(await ask(host, '/clock', { run: 'run-1', clockPhase: 0 })).toEqual(
      refused(409, 'The run has started: its clock can no longer be changed.'),
    );
    expect(await ask(deck(), '/clock', { run: 'run-1', clockPhase: 0 })).toMatchObject({ status: 409 });
  });
});

describe('[requests] a run that came back', () => {
  test('can be left only when one has just come back', async () => {
    const why = 'This run can no longer be left: use Finish instead.';
    expect(await ask(await going(), '/leave', { run: 'run-1' })).toEqual(refused(409, why));
    expect(await ask(deck(), '/leave', { run: 'run-1' })).toEqual(refused(409, why));
  });

  test('can be left only by its name', async () => {
    const why = 'Write the run to leave as {"run": "…"}.';
    expect(await ask(deck(), '/leave', {})).toEqual(refused(400, why));
    expect(await brokenBody(deck(), '/leave', 'too large')).toEqual(refused(400, why));
  });

  test('may be marked as read at any time', async () => {
    expect(await ask(deck(), '/told', '')).toEqual({ status: 200, value: { ok: true } });
  });
});
