import { describe, expect, test } from 'vitest';
import { createAsking } from '../../../../renderer/link/joining/asking.ts';

function asking() {
  const timers: (() => void)[] = [];
  const sent: Record<string, unknown>[] = [];
  let ids = 0;
  const own = createAsking({
    newId: () => `id-${ids++}`,
    after: (_, call) => {
      timers.push(call);
      return () => undefined;
    },
  });
  return {
    ...own,
    sent,
    open: () => own.opened((message) => sent.push(JSON.parse(message) as Record<string, unknown>)),
    timeOut: () => timers.forEach((call) => call()),
  };
}

const LOST = 'The program does not answer.';

describe('[joining] a question through the socket', () => {
  test('is answered by the reply with its id', async () => {
    const own = asking();
    own.open();
    const [first, second] = [own.ask('PUT', '/session', '{"text":""}'), own.ask('POST', '/records', '{}')];
    expect(own.sent).toEqual([
      { say: 'ask', id: 'id-0', method: 'PUT', path: '/session', body: '{"text":""}' },
      { say: 'ask', id: 'id-1', method: 'POST', path: '/records', body: '{}' },
    ]);
    own.answered({ say: 'reply', id: 'id-1', status: 200, body: '[]' });
    own.answered({ say: 'reply', id: 'id-0', status: 409, body: 'no' });
    own.answered({ say: 'reply', id: 'unknown', status: 200, body: '' });
    expect(await first).toEqual({ status: 409, body: 'no' });
    expect(await second).toEqual({ status: 200, body: '[]' });
  });

  test('waits for the connection as the page opens, and goes once', async () => {
    const own = asking();
    const answer = own.ask('POST', '/library', '{}');
    expect(own.sent).toEqual([]);
    own.open();
    own.open();
    expect(own.sent.length).toBe(1);
    own.timeOut();
    own.answered({ say: 'reply', id: 'id-0', status: 200, body: 'late' });
    expect(await answer).toEqual({ status: 200, body: 'late' });
  });

  test('is given up where no connection comes within five seconds', async () => {
    const own = asking();
    const answer = own.ask('POST', '/library', '{}');
    own.timeOut();
    await expect(answer).rejects.toThrow(LOST);
    own.open();
    expect(own.sent).toEqual([]);
  });

  test('is lost with the connection that it was sent by; one that still waits goes by the next', async () => {
    const own = asking();
    own.open();
    const lost = own.ask('POST', '/library', '{}');
    own.closed();
    await expect(lost).rejects.toThrow(LOST);
    const next = own.ask('POST', '/squads', '{}');
    own.open();
    own.answered({ say: 'reply', id: 'id-1', status: 200, body: '' });
    expect((await next).status).toBe(200);
  });

  test('is refused where it is too large to be sealed', async () => {
    const own = asking();
    own.opened(() => {
      throw new RangeError('The message is too long to be sealed.');
    });
    await expect(own.ask('PUT', '/session', '')).rejects.toThrow(LOST);
  });
});
