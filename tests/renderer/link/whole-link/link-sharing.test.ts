/*
 * What of a link is about sharing with other screens, and about being let in.
 */

import { describe, expect, test } from 'vitest';
import { FakeHost, live } from '../fake-host.ts';

const NO_LEAVES = 'This screen shows no leaves.';

describe('[sharing] a link', () => {
  test('what is wanted of sharing is answered as a command is, and the address of another window is known', async () => {
    const { host, link } = live();
    const answer = link.share({ do: 'let-in', digits: '4071' });
    host.pass(10);
    const [asked] = host.heard.filter((message) => message.say === 'sharing');
    expect(asked?.wish).toEqual({ do: 'let-in', digits: '4071' });
    host.send({ say: 'answer', id: asked!.id, ok: false, at: null, why: 'No screen shows 4071.' });
    host.send({ say: 'claim', address: 'http://localhost:7525/#c' });
    host.pass(10);
    expect(await answer).toEqual({ ok: false, at: null, why: 'No screen shows 4071.' });
    expect(link.store.getState().claim).toBe('http://localhost:7525/#c');
  });

  test('whoever carries the messages hears what is said of keys, answers to questions, and why the host hangs up', () => {
    const { host, link } = live();
    const given = { id: 'a'.repeat(16), key: 'b'.repeat(64), role: 'coach', name: 'this machine' } as const;
    const said = [
      { say: 'own-key', given },
      { say: 'reply', id: 'a', status: 200, body: '{}' },
      { say: 'bye', why: 'This screen was thrown out.', again: true },
    ] as const;
    said.forEach((message) => host.send(message));
    host.pass(10);
    expect(host.toCarrier).toEqual(said);
    expect(link.store.getState().faults).toEqual(['This screen was thrown out.', NO_LEAVES]);
  });

  test('thrown out a wall has no run any more, even when the host is lost while it shows its digits', () => {
    const { host, link } = live();
    host.send({ say: 'bye', why: 'This screen was thrown out.', again: true });
    host.pass(10);
    host.isReachable = false;
    host.cut();
    host.pass(60_000);
    const { run, faults } = link.store.getState();
    expect([run, link.now(), faults]).toEqual([null, null, ['This screen was thrown out.', NO_LEAVES]]);
  });

  test('told that sharing has ended has no run any more, until it is let in again and hears of one', () => {
    const { host, link } = live();
    const shown = () => [link.store.getState().run?.id ?? null, link.now() !== null, link.store.getState().faults];
    host.send({ say: 'bye', why: 'Sharing has ended.', ended: true });
    host.pass(10);
    host.isReachable = false;
    host.cut();
    const ended = [null, false, ['Sharing has ended.', NO_LEAVES]];
    expect(shown()).toEqual(ended);
    host.pass(60_000);
    expect(shown()).toEqual(ended);
    host.isReachable = true;
    host.pass(20_000);
    expect(shown()).toEqual(['run-1', true, []]);
  });

  test('that is lost without a word keeps its run', () => {
    const { host, link } = live();
    host.isReachable = false;
    host.cut();
    host.pass(60_000);
    expect([link.store.getState().status, link.store.getState().run?.id]).toEqual(['lost', 'run-1']);
  });

  test('what its carrier knows of a goodbye is said before the host’s own words', () => {
    const host = new FakeHost();
    const link = host.open('desk');
    host.pass(1000);
    host.saysFirst = 'This address was used already.';
    host.send({ say: 'bye', why: 'A page here needs a key.', again: true });
    host.pass(10);
    expect(link.store.getState().faults).toEqual(['This address was used already. A page here needs a key.']);
  });
});
