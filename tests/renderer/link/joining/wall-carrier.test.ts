import { describe, expect, test } from 'vitest';
import { createJoining } from '../../../../renderer/link/joining/joining.ts';
import { wallCarrier } from '../../../../renderer/link/joining/wall-carrier.ts';
import { Line, listener, ownKey } from './line.ts';

const KEY = 'a'.repeat(64);

function wall(key: string | null) {
  const line = new Line();
  const kept = ownKey(key);
  const joining = createJoining();
  const time = { now: 1000 };
  const timers: (() => void)[] = [];
  const after = (delay: number, call: () => void): (() => void) => {
    timers.push(() => {
      time.now += delay;
      call();
    });
    return () => timers.pop();
  };
  const carrier = wallCarrier({ socket: line, kept, joining, now: () => time.now, after });
  const { all, heard } = listener();
  const connect = () => {
    const connection = carrier.connect(heard);
    line.heard!.opened();
    return connection;
  };
  const connection = connect();
  return { line, kept, joining, time, timers, carrier, all, connect, connection };
}

describe('[joining] a wall on the network', () => {
  test('without a key asks to show, and shows the digits that it gets for as long as they are valid', () => {
    const { line, joining, all } = wall(null);
    expect(line.said).toEqual([{ say: 'show', version: 1 }]);
    line.hear({ say: 'digits', digits: '4071', left: 120_000 });
    expect(joining.getState()).toEqual({ step: 'shows', digits: '4071', until: 121_000, why: null });
    line.hear({ say: 'digits', digits: '0918', left: 120_000 });
    expect(joining.getState()).toMatchObject({ digits: '0918' });
    expect(all).toEqual([]);
  });

  test('keeps the key that it is let in with, and the link opens only then', () => {
    const { line, joining, all, kept, connection } = wall(null);
    line.hear({ say: 'digits', digits: '4071', left: 120_000 });
    connection.send('{"say":"ping"}');
    line.hear({ say: 'let-in', key: KEY });
    expect([kept.now(), joining.getState(), all]).toEqual([KEY, { step: 'in' }, ['opened']]);
    connection.send('{"say":"hello"}');
    line.hear({ say: 'let-in', key: KEY });
    expect(line.said).toEqual([{ say: 'show', version: 1 }, { say: 'hello' }]);
    // What is said inside is the link's to read.
    expect(all).toEqual(['opened', JSON.stringify({ say: 'let-in', key: KEY })]);
  });

  test('with a key looks, and shows no digits', () => {
    const { line, joining, all } = wall(KEY);
    expect(line.said).toEqual([{ say: 'look', version: 1, key: KEY }]);
    line.hear({ say: 'welcome' });
    expect([joining.getState(), all]).toEqual([{ step: 'in' }, ['opened']]);
  });

  test('whose key is no longer valid says so, and shows digits again', () => {
    const { line, joining, kept, all, connect } = wall(KEY);
    line.hear({ say: 'bye', why: 'This screen was thrown out.', again: true });
    line.heard!.closed();
    expect([kept.now(), all]).toEqual([
      null,
      ['{"say":"bye","why":"This screen was thrown out.","again":true}', 'closed'],
    ]);
    connect();
    expect(line.said[1]).toEqual({ say: 'show', version: 1 });
    line.hear({ say: 'digits', digits: '4071', left: 120_000 });
    expect(joining.getState()).toMatchObject({ why: 'This screen was thrown out.' });
    line.hear({ say: 'let-in', key: KEY });
    line.heard!.closed();
    connect();
    line.hear({ say: 'bye', why: 'x', again: true });
    line.heard!.closed();
    connect();
    line.hear({ say: 'digits', digits: '4071', left: 120_000 });
    expect(joining.getState()).toMatchObject({ why: 'x' });
  });

  test('that others are before says so, and asks again when it was told to, on what is one connection to the link', () => {
    const { line, joining, all, timers, carrier } = wall(null);
    line.hear({ say: 'bye', why: 'Too many screens wait.', version: 1, wait: 70_000 });
    expect([joining.getState(), carrier.patience, line.closes, all]).toEqual([
      { step: 'waits', why: 'Too many screens wait.', until: 71_000 },
      76_000,
      1,
      [],
    ]);
    timers.pop()!();
    line.heard!.opened();
    expect(line.said).toEqual([
      { say: 'show', version: 1 },
      { say: 'show', version: 1 },
    ]);
    line.hear({ say: 'digits', digits: '4071', left: 120_000 });
    expect(joining.getState()).toMatchObject({ step: 'shows', digits: '4071' });
  });

  test('that waits asks no more once its link has given it up', () => {
    const { line, joining, timers, connection } = wall(null);
    line.hear({ say: 'bye', why: 'Too many screens wait.', version: 1, wait: 70_000 });
    connection.close();
    expect([joining.getState(), timers, line.connects]).toEqual([{ step: 'in' }, [], 1]);
  });

  test('that is thrown out while it shows the session forgets its key at once', () => {
    const { line, kept, carrier } = wall(KEY);
    line.hear({ say: 'welcome' });
    carrier.told!({ say: 'bye', why: 'The program has ended.' });
    expect(kept.now()).toBe(KEY);
    carrier.told!({ say: 'bye', why: 'This screen was thrown out.', again: true });
    expect(kept.now()).toBeNull();
  });

  test('keeps its key where the host only has no room, and the link says why', () => {
    const { line, kept, all } = wall(KEY);
    line.hear({ say: 'bye', why: 'There are too many screens.', version: 7 });
    expect([kept.now(), all]).toEqual([KEY, ['{"say":"bye","why":"There are too many screens."}']]);
  });

  test('whose connection breaks shows its digits no longer: the host has forgotten them', () => {
    const { line, joining } = wall(null);
    line.hear({ say: 'digits', digits: '4071', left: 120_000 });
    line.heard!.closed();
    expect(joining.getState()).toEqual({ step: 'in' });
  });

  test('and whose link gives the connection up, too', () => {
    const { line, joining, connection } = wall(null);
    line.hear({ say: 'digits', digits: '4071', left: 120_000 });
    connection.close();
    expect([joining.getState(), line.closes]).toEqual([{ step: 'in' }, 1]);
  });

  test('hears nothing in what is no message of the door', () => {
    const { line, joining, all } = wall(null);
    line.heard!.message('{');
    line.hear({ say: 'digits', digits: '407', left: 1 });
    line.hear({ say: 'snapshot' });
    expect([joining.getState(), all]).toEqual([{ step: 'in' }, []]);
  });

  test('counts its host as lost six seconds after its digits are no longer valid, and in six seconds else', () => {
    const { line, carrier, time } = wall(null);
    expect([carrier.patience, carrier.longestPause]).toEqual([6000, 8000]);
    time.now = 3000;
    line.hear({ say: 'digits', digits: '4071', left: 120_000 });
    expect(carrier.patience).toBe(128_000);
    line.hear({ say: 'let-in', key: KEY });
    expect(carrier.patience).toBe(6000);
  });
});
