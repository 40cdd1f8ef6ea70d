/* What may be asked of the squads, and what is sent away: messages from outside, of any shape and size. */

import { afterEach, beforeEach, expect, test } from 'vitest';
import { squadsQuestion } from '../../../app/host/squads/squads-requests.ts';
import { DeckServerUnderTest } from '../../support/host/deck/deck-server.ts';

const JSON_TYPE = { 'Content-Type': 'application/json' };
const SQUAD = { name: 'Harbour', lanes: ['lane 1 Ana, Bram'] };
const LIST = { do: 'list' };

let server: DeckServerUnderTest;
beforeEach(async () => (server = await DeckServerUnderTest.start()));
afterEach(() => server.close());

const ask = (body: unknown, headers: Record<string, string | undefined> = {}) =>
  server.ask('POST', '/squads', { ...JSON_TYPE, ...headers }, typeof body === 'string' ? body : JSON.stringify(body));

test('[squads] only our own pages are answered; not pages from elsewhere, other programs, screens’ sockets or a GET', async () => {
  expect(await ask({ do: 'keep', squad: SQUAD, over: false })).toMatchObject({ status: 200 });
  for (const Origin of ['http://pool.example', undefined]) expect((await ask(LIST, { Origin })).status).toBe(403);
  expect((await server.ask('GET', '/squads')).status).toBe(405);
  const screen = await server.screen();
  screen.socket.send(JSON.stringify({ say: 'squads', ...LIST }));
  expect(await screen.closed()).toBe(1008);
  // The names of swimmers are in nothing that screens are told.
  expect(JSON.stringify(screen.heard)).not.toContain('Bram');
  expect(JSON.parse((await ask(LIST)).body)).toEqual({ ok: true, squads: [SQUAD], said: null });
});

test.each<[string, unknown]>([
  ['no JSON', 'list'],
  ['nothing', {}],
  ['null', null],
  ['a wish that nobody knows', { do: 'format' }],
  ['a field too many', { ...LIST, folder: '/' }],
  ['a squad without lanes', { do: 'keep', squad: { name: 'x', lanes: [] }, over: false }],
  ['a squad of a set', { do: 'keep', squad: { name: 'x', lanes: ['4 x 50'] }, over: false }],
  ['a squad with more than its lanes', { do: 'keep', squad: { ...SQUAD, path: '../x' }, over: false }],
  ['a squad that may be or not be put over another', { do: 'keep', squad: SQUAD }],
  ['a name of nothing', { do: 'delete', name: '' }],
  ['a name without end', { do: 'rename', name: 'Harbour', to: 'x'.repeat(41) }],
  ['a name with a line in it', { do: 'rename', name: 'Harbour', to: 'a\nb' }],
])('[squads] a message that is %s is refused with 400', async (_, body) => {
  const { status, body: answer } = await ask(body);
  const why = 'That is nothing that can be asked of the squads.';
  expect([status, JSON.parse(answer)]).toEqual([400, { ok: false, why }]);
});

test('[squads] a message longer than any is refused', async () => {
  const { status, body } = await ask('x'.repeat(1100 * 1024));
  expect([status, JSON.parse(body)]).toEqual([413, { ok: false, why: 'A squad has 20 lanes at most.' }]);
});

test('[squads] a message that broke off is refused', async () => {
  const { answer } = squadsQuestion(server.squads);
  const body = { ok: false, why: 'broken off' } as const;
  expect(await answer(server.host, { query: '', type: 'application/json', body })).toMatchObject({ status: 400 });
});

test('[squads] a message of another type is told the right type', async () => {
  const { status, body } = await ask(LIST, { 'Content-Type': 'text/plain' });
  expect([status, JSON.parse(body)]).toEqual([
    415,
    { ok: false, why: 'Send what is asked of the squads as application/json.' },
  ]);
});
