/* What may be said over HTTP to a run that has come back, and by whom. */

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openRun } from '../../../app/core/run/state.ts';
import { systemClock } from '../../../app/host/time/clock.ts';
import { planOf } from '../../support/run/deck.ts';
import { DeckServerUnderTest } from '../../support/host/deck/deck-server.ts';

const JSON_TYPE = { 'Content-Type': 'application/json' };
const TEXT = 'Squad\n8 x 50 @ 1:00\n';

const ALL = ['It is back.', 'A tear.'];

let server: DeckServerUnderTest;
let toldTimes: number;

beforeEach(async () => {
  toldTimes = 0;
  server = await DeckServerUnderTest.start();
  const found = {
    run: 'found',
    source: { text: TEXT, lanesText: null },
    clockPhase: 0,
    openedAtTimeOfDay: 0,
    openedAtWall: 0,
    commands: [],
    away: [],
    state: openRun(planOf(TEXT), 0),
    position: { at: 1000.5, seenAt: 900, by: 'monotonic' as const, isKnown: true },
    weight: 0,
    file: { path: 'nowhere', bytes: new Uint8Array(), sum: '', torn: null },
  };
  const unattended = { runs: ['An earlier one.'], told: () => Promise.resolve(void toldTimes++) };
  await server.host.comeBack({ found, away: 'It is back.', said: ['A tear.'], unattended }, systemClock().instant());
});
afterEach(() => server.close());

describe('[comeback] over HTTP', () => {
  test('the named run is left, and the screens are told', async () => {
    expect(server.host.snapshot()).toMatchObject({
      run: { id: 'found' },
      notices: ALL,
      startUp: { run: 'found', unattended: ['An earlier one.'] },
    });
    const reply = await server.ask('POST', '/leave', JSON_TYPE, '{"run":"found"}');
    expect(reply).toMatchObject({ status: 200 });
    expect(server.host.snapshot()).toMatchObject({ run: null, notices: [], startUp: null });
    expect(toldTimes).toBe(1);
  });

  test("the pool's clock of the run is matched: it is open anew, and only once it is asked rightly", async () => {
    const ask = (body: string) => server.ask('POST', '/clock', JSON_TYPE, body);
    expect(await ask('{"run":"found","clockPhase":60000}')).toMatchObject({ status: 400 });
    expect(await ask('{"run":"other","clockPhase":0}')).toMatchObject({ status: 409 });
    expect(server.host.snapshot().run?.id).toBe('found');
    const reply = await ask('{"run":"found","clockPhase":null}');
    expect(reply.status).toBe(200);
    expect(server.host.snapshot().run?.id).toBe((JSON.parse(reply.body) as { run: string }).run);
  });

  test('after the report was read the run goes on and can no longer be left', async () => {
    expect(await server.ask('POST', '/told', JSON_TYPE, '{}')).toMatchObject({ status: 200 });
    expect(server.host.snapshot()).toMatchObject({ run: { id: 'found' }, notices: [], startUp: null });
    await server.ask('POST', '/told', JSON_TYPE, '{}');
    expect(toldTimes).toBe(1);
    expect(await server.ask('POST', '/leave', JSON_TYPE, '{"run":"found"}')).toMatchObject({ status: 409 });
  });

  test.each([
    ['another run', 'POST', '/leave', JSON_TYPE, '{"run":"other"}', 409],
    ['no run', 'POST', '/leave', JSON_TYPE, '{}', 400],
    ['no JSON', 'POST', '/leave', JSON_TYPE, 'found', 400],
    ['another type', 'POST', '/leave', { 'Content-Type': 'text/plain' }, '{"run":"found"}', 415],
    ['a page from elsewhere', 'POST', '/leave', { ...JSON_TYPE, Origin: 'http://elsewhere' }, '{"run":"found"}', 403],
    ['a page from elsewhere, again', 'POST', '/told', { Origin: 'http://elsewhere' }, '{}', 403],
    ['looking', 'GET', '/leave', {}, '', 405],
    ['putting', 'PUT', '/told', JSON_TYPE, '{}', 405],
  ])('%s: refused, and the run stays', async (_, method, path, headers, body, status) => {
    expect(await server.ask(method, path, headers, body)).toMatchObject({ status });
    expect(server.host.snapshot()).toMatchObject({ run: { id: 'found' }, notices: ALL });
  });

  test('opening another session ends the report of the run that came back, and only that', async () => {
    const headers = { 'Content-Type': 'text/plain' };
    expect(await server.ask('PUT', '/session', headers, TEXT)).toMatchObject({ status: 200 });
    expect(server.host.snapshot()).toMatchObject({
      notices: ['A tear.'],
      startUp: { run: null, unattended: ['An earlier one.'] },
    });
    expect(toldTimes).toBe(0);
  });
});
