/* What may be asked of the library, and what is sent away: messages from outside, of any shape and size. */

import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { systemClock } from '../../../app/host/time/clock.ts';
import { systemTimers } from '../../../app/host/time/timers.ts';
import { DeckServerUnderTest } from '../../support/host/deck/deck-server.ts';

const JSON_TYPE = { 'Content-Type': 'application/json' };
const LIST = { do: 'list', find: '', most: 10 };

let server: DeckServerUnderTest;
beforeEach(async () => (server = await DeckServerUnderTest.start()));
afterEach(() => server.close());

const ask = (body: unknown, headers: Record<string, string | undefined> = {}) =>
  server.ask('POST', '/library', { ...JSON_TYPE, ...headers }, typeof body === 'string' ? body : JSON.stringify(body));

async function names(): Promise<readonly string[]> {
  const { body } = await ask(LIST);
  return (JSON.parse(body) as { sessions: { name: string }[] }).sessions.map(({ name }) => name);
}

test('[library] only our own pages are answered; not pages from elsewhere, other programs, screens’ sockets or a GET', async () => {
  expect(await ask({ do: 'create', kind: 'session', name: 'Mine', text: 'x' })).toMatchObject({ status: 200 });
  const other = { do: 'discard', kind: 'session', name: 'Mine' };
  expect((await ask(other, { Origin: 'http://pool.example' })).status).toBe(403);
  expect((await ask(other, { Origin: undefined })).status).toBe(403);
  expect((await server.ask('GET', '/library')).status).toBe(405);
  const screen = await server.screen();
  screen.socket.send(JSON.stringify({ say: 'library', ...other }));
  expect(await screen.closed()).toBe(1008);
  expect(await names()).toEqual(['Mine']);
});

describe('[library] a message', () => {
  const text = { kind: 'session', name: 'x', text: 'y' };
  test.each<[string, unknown]>([
    ['no JSON', 'list'],
    ['nothing', {}],
    ['a wish that nobody knows', { do: 'format' }],
    ['a field too many', { ...LIST, folder: '/' }],
    ['a shelf that is none', { do: 'read', kind: '../', name: 'x' }],
    ['no name', { do: 'read', kind: 'session', name: '' }],
    ['a name longer than any file has', { do: 'read', kind: 'session', name: 'x'.repeat(256) }],
    ['a list without end', { ...LIST, most: 1001 }],
    ['a search without end', { ...LIST, find: 'x'.repeat(201) }],
    ['a version that is none', { do: 'save', ...text, version: '../../x' }],
    ['an id that is none', { do: 'put-back', id: '' }],
  ])('that is %s is refused with 400', async (_, body) => {
    const { status, body: answer } = await ask(body);
    expect([status, JSON.parse(answer)]).toMatchObject([400, { ok: false }]);
  });

  test('with a text too long in letters or bytes, or longer than any message, is refused', async () => {
    const create = (long: string): unknown => ({ do: 'create', kind: 'session', name: 'x', text: long });
    expect((await ask(create('x'.repeat(256 * 1024 + 1)))).status).toBe(400);
    expect((await ask(create('é'.repeat(200 * 1024)))).status).toBe(413);
    expect((await ask(create('x'.repeat(1100 * 1024)))).status).toBe(413);
    expect((await ask(create('x'.repeat(256 * 1024)))).status).toBe(200);
  });

  test.each(['../host', '..\\host', '/etc/passwd', 'x:stream', '.hidden', 'a\u0000'])(
    'for a file called %j is refused, and no file outside is touched',
    async (name) => {
      for (const asked of [
        { do: 'read', kind: 'session', name },
        { do: 'discard', kind: 'session', name },
        { do: 'save', kind: 'session', name, text: 'x', version: '0'.repeat(32), over: true },
        { do: 'rename', kind: 'session', name, to: 'x' },
      ]) {
        const { status, body } = await ask(asked);
        expect([status, JSON.parse(body)], asked.do).toMatchObject([200, { ok: false }]);
      }
      const created = await ask({ do: 'create', kind: 'session', name, text: 'x' });
      const { name: given } = JSON.parse(created.body) as { name: string };
      expect(given).not.toMatch(/[\\/:\0]|^\./);
      expect(await names()).toEqual([given]);
    },
  );

  test('with any fields is answered with 200, 400 or 429, never with an error of the program', async () => {
    const field = fc.oneof(fc.string(), fc.integer(), fc.constant(null), fc.constantFrom('session', 'piece', true));
    const wish = fc.constantFrom('list', 'read', 'look', 'create', 'save', 'rename', 'discard', 'bin', 'put-back');
    const message = fc.record(
      {
        do: wish,
        kind: field,
        name: field,
        text: field,
        to: field,
        id: field,
        find: field,
        most: field,
        version: field,
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

  test('too many at once are refused, and no command waits for them', async () => {
    await server.close();
    const clock = systemClock();
    const still = { ...clock, now: () => 0 };
    server = await DeckServerUnderTest.start(undefined, { clock: still, timers: systemTimers });
    const statuses = await Promise.all(Array.from({ length: 45 }, () => ask(LIST).then(({ status }) => status)));
    expect(statuses.filter((status) => status === 429)).toHaveLength(5);
    expect((await server.ask('POST', '/told', JSON_TYPE, '{}')).status).toBe(200);
  });
});
