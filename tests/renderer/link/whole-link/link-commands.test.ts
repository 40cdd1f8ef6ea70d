/* Commands over a link: to which run and text, once each however often the link breaks, and after its end. */

import { describe, expect, test } from 'vitest';
import { FakeHost, HASH, live, TEXT } from '../fake-host.ts';

describe('commands', () => {
  test('a command is answered by its id', async () => {
    const { host, link } = live();
    const answer = link.command({ do: 'start' });
    host.pass(10);
    expect(host.heard[host.heard.length - 1]).toMatchObject({ say: 'command', command: { do: 'start' } });
    host.send({ say: 'answer', id: 'id-0', ok: true, at: 105, why: null });
    host.pass(10);
    expect(await answer).toEqual({ ok: true, at: 105, why: null });
  });

  test('goes with what the screen showed', () => {
    const { host, link } = live();
    void link.command({ do: 'skip', lanes: [1] }, { expected: { 1: { line: 2, rounds: [], rep: 3 } } });
    host.pass(10);
    expect(host.heard[host.heard.length - 1]).toMatchObject({ expected: { 1: { line: 2, rounds: [], rep: 3 } } });
  });

  test('names the run it is meant for, and none where none is open', () => {
    const { host, link } = live();
    void link.command({ do: 'stop' });
    host.pass(10);
    expect(host.heard[host.heard.length - 1]).toMatchObject({ say: 'command', run: 'run-1' });
    const empty = new FakeHost();
    const before = empty.open();
    empty.pass(1000);
    void before.command({ do: 'stop' });
    empty.pass(10);
    expect(empty.heard[empty.heard.length - 1]).toEqual({ say: 'command', id: 'id-0', command: { do: 'stop' } });
  });

  test('a rewrite names the text it was made from, the one with the lanes of the run', () => {
    const { host, link } = live();
    const lanesText = 'lane 1\n';
    host.send({ say: 'text', hash: 'c'.repeat(16), text: 'Other\n', lanesText: null });
    host.send({ say: 'text', hash: 'd'.repeat(16), text: TEXT, lanesText });
    host.pass(10);
    const madeFrom = (text: string): unknown => {
      void link.command({ do: 'rewrite', text: 'Swim-down\n200 easy @ 5:00\n' }, undefined, text);
      host.pass(10);
      const last = host.heard[host.heard.length - 1]!;
      return last.say === 'command' && last.madeFrom;
    };
    expect(madeFrom(TEXT)).toBe(HASH);
    expect(madeFrom('No text of this run')).toBeUndefined();
    host.run = { ...host.run!, id: 'run-2', text: 'd'.repeat(16) };
    host.sendSnapshot();
    host.pass(10);
    expect(madeFrom(TEXT)).toBe('d'.repeat(16));
  });

  test('is sent again with the same id after a reconnection, until it is answered', async () => {
    const { host, link } = live();
    host.cut();
    const answer = link.command({ do: 'stop' });
    host.pass(1000);
    host.cut();
    host.pass(1500);
    const given = host.heard.filter((message) => message.say === 'command');
    expect(given.map(({ id }) => id)).toEqual(['id-0', 'id-0']);
    host.send({ say: 'answer', id: 'id-0', ok: false, at: null, why: 'No lane has anything pending.' });
    host.pass(10);
    expect(await answer).toEqual({ ok: false, at: null, why: 'No lane has anything pending.' });
    host.cut();
    host.pass(1000);
    expect(host.heard.filter((message) => message.say === 'command').length).toBe(2);
  });

  test('that is not answered within a second has the connection looked at: a dead one is made anew, and it goes again', () => {
    const { host, link } = live();
    host.answersPings = false;
    void link.command({ do: 'stop' });
    host.pass(1000);
    expect([host.connectedAt.length, host.count('command')]).toEqual([1, 1]);
    host.pass(500);
    expect([host.connectedAt.length, host.count('command')]).toEqual([2, 2]);
  });

  test('that is not answered while the host answers else keeps its connection', () => {
    const { host, link } = live();
    void link.command({ do: 'stop' });
    host.pass(4000);
    expect([host.connectedAt.length, host.count('command')]).toEqual([1, 1]);
  });

  test('fails with a sentence after 5 s without an answer', async () => {
    const { host, link } = live();
    host.isReachable = false;
    host.cut();
    const answer = link.command({ do: 'stop' });
    host.pass(5000);
    expect(await answer).toMatchObject({ ok: false, at: null });
    expect((await answer).why).toMatch(/not answered/);
  });

  test('one too large for a message is posted', async () => {
    const { host, link } = live();
    const answer = link.command({ do: 'rewrite', text: `Main set\n# ${'x'.repeat(70_000)}\n` });
    expect(await answer).toEqual({ ok: true, at: 1234, why: null });
    expect(host.posted.length).toBe(1);
    expect(host.count('command')).toBe(0);
  });
});

describe('a closed link', () => {
  test('calls nobody any more, and asks nothing', () => {
    const { host, link } = live();
    link.close();
    const pings = host.count('ping');
    host.wake();
    host.pass(60_000);
    expect(host.connectedAt).toHaveLength(1);
    expect(host.count('ping')).toBe(pings);
  });

  test('does not call again where it was lost, and hears nothing where it was not', () => {
    const { host, link } = live();
    host.accept(5000, { do: 'start' });
    link.close();
    host.pass(10);
    expect(link.store.getState().run!.commands).toEqual([]);
    const lost = live();
    lost.host.cut();
    lost.link.close();
    lost.host.pass(60_000);
    expect(lost.host.connectedAt).toHaveLength(1);
  });

  test('answers a command that is given all the same, and says nothing of the sound', async () => {
    const { host, link } = live();
    link.close();
    const answer = link.command({ do: 'stop' });
    link.sound({ id: 'page', n: 1, status: 'running', asked: false, more: null });
    host.pass(5000);
    expect(await answer).toMatchObject({ ok: false, at: null });
    expect([host.count('command'), host.count('sound')]).toEqual([0, 0]);
  });
});
