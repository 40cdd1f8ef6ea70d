/* One screen's conversation with the host, over a carrier that the test fills and drains. */

import { describe, expect, test } from 'vitest';
import { DeckHost } from '../../../../app/host/deck/deck-host.ts';
import { JournalInMemory } from '../../../support/host/folders/journal-in-memory.ts';
import { connectScreen, type ScreenChannel, type Screen } from '../../../../app/host/deck/telling/screen.ts';
import { WIRE_VERSION, type FromHost } from '../../../../app/wire/messages.ts';
import { readFromHost } from '../../../support/host/from-host.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';
import { ToldRun } from '../../../support/host/deck/told-run.ts';

const SOURCE = { text: 'Squad\n8 x 50 @ 1:00\n', lanesText: null };

class FakeCarrier implements ScreenChannel {
  /** With the snapshots that commands make. */
  readonly sent: FromHost[] = [];
  private readonly told = new ToldRun();
  readonly ends: string[] = [];
  readonly isOwnWindow: boolean = false;
  readonly clocks: string[] = [];
  bytes = 0;
  private readonly callbacks: (() => void)[] = [];

  waiting(): number {
    return this.bytes;
  }

  send(text: string, sent: () => void): void {
    const message = readFromHost(text);
    if (!message) throw new Error(`not a message: ${text}`);
    this.sent.push(this.told.hear(message));
    this.callbacks.push(sent);
  }

  heardClock(quality: string): void {
    this.clocks.push(quality);
  }

  close(why: string): void {
    this.ends.push(`closed: ${why}`);
  }

  terminate(): void {
    this.ends.push('terminated');
  }

  /** Everything that was handed over has gone. */
  drain(): void {
    this.bytes = 0;
    for (const sent of this.callbacks.splice(0)) sent();
  }

  said(say: FromHost['say']): FromHost[] {
    return this.sent.filter((message) => message.say === say);
  }
}

async function connect(): Promise<{ clock: FakeClock; host: DeckHost; carrier: FakeCarrier; screen: Screen }> {
  const clock = new FakeClock();
  const host = new DeckHost({ clock, timers: clock.timers, journal: new JournalInMemory(), newId: () => 'run' });
  await host.open(SOURCE, { replace: false });
  const carrier = new FakeCarrier();
  return { clock, host, carrier, screen: connectScreen(host, clock, carrier) };
}

const hello = JSON.stringify({ say: 'hello', version: WIRE_VERSION, screen: 'desk' });

async function greeted() {
  const all = await connect();
  all.screen.receive(hello);
  all.carrier.drain();
  return all;
}

/** Marks, as far apart as a screen is told of each. */
async function give({ host, clock }: Awaited<ReturnType<typeof connect>>, count: number): Promise<void> {
  for (let each = 0; each < count; each++) {
    await host.command(`mark-${each}-${host.snapshot().n}`, { do: 'mark' });
    clock.advance(125);
  }
}

describe('[screen] hello', () => {
  test('is answered with the text, the snapshot that names it, and the lists for the coach', async () => {
    const all = await greeted();
    const { carrier, host } = all;
    expect(carrier.sent.map(({ say }) => say)).toEqual(['text', 'snapshot', 'screens', 'presence', 'sound']);
    expect(carrier.sent[0]).toMatchObject({ hash: host.snapshot().run!.text, ...SOURCE });
    await give(all, 3);
    expect(carrier.said('text')).toHaveLength(1);
    expect(carrier.said('snapshot')).toHaveLength(4);
  });

  test('is answered with a snapshot before any session is open', () => {
    const clock = new FakeClock();
    const host = new DeckHost({ clock, timers: clock.timers, journal: new JournalInMemory(), newId: () => 'run' });
    const carrier = new FakeCarrier();
    connectScreen(host, clock, carrier).receive(hello);
    expect(carrier.sent).toMatchObject([
      { say: 'snapshot', run: null },
      { say: 'screens' },
      { say: 'presence', screens: { desk: 1 } },
      { say: 'sound', more: null, screens: [] },
    ]);
  });

  test.each([
    ['newer', { say: 'hello', version: WIRE_VERSION + 1, screen: 'desk' }],
    ['newer', { say: 'hello', version: WIRE_VERSION + 1, screen: 'stand', squad: ['Ana'], screens: { more: 2 } }],
    ['newer', { say: 'greet', version: WIRE_VERSION + 1, page: 7 }],
    ['newer', { say: 'greet', page: 7 }],
    ['newer', { say: 'hello', version: WIRE_VERSION, screen: 'desk', squad: [] }],
    ['older', { say: 'hello', version: WIRE_VERSION - 1, name: 'desk' }],
    ['older', { say: 'hello', version: 0 }],
  ])('[wire] of a %s page is answered with what to do, whatever else it says: %o', async (than, message) => {
    const { carrier, screen } = await connect();
    screen.receive(JSON.stringify(message));
    expect(carrier.sent).toEqual([
      { say: 'bye', why: `This page is ${than} than the program: reload it.`, version: WIRE_VERSION },
    ]);
    expect(carrier.ends).toEqual([`closed: This page is ${than} than the program: reload it.`]);
  });

  test.each([
    { say: 'command', id: 'a', command: { do: 'start' }, squad: 1 },
    { say: 'draw', version: WIRE_VERSION + 1 },
    { say: 'draw' },
    { say: 'sound', id: 'p', n: 1, status: 'bluetooth', asked: false, more: null },
  ])('[wire] nor is what only a newer page says dropped later: %o', async (message) => {
    const { carrier, screen, host } = await greeted();
    screen.receive(JSON.stringify(message));
    expect(carrier.sent.at(-1)).toMatchObject({ say: 'bye', why: 'This page is newer than the program: reload it.' });
    expect(host.snapshot().run!.commands).toEqual([]);
  });

  test.each([
    ['no hello before a command', [JSON.stringify({ say: 'command', id: 'a', command: { do: 'start' } })]],
    [
      'no hello before its sound',
      [JSON.stringify({ say: 'sound', id: 'p', n: 1, status: 'running', asked: true, more: null })],
    ],
    ['no hello before a ping', [JSON.stringify({ say: 'ping', n: 0, t1: 0 })]],
    ['two of them', [hello, hello]],
    ['junk', [hello, 'junk']],
    ['an unknown message', [hello, '{"say":"open"}']],
    ['a field too many', [hello, '{"say":"ping","n":1,"t1":2,"admin":true}']],
    ['a command without an id', [hello, '{"say":"command","command":{"do":"start"}}']],
  ])('hung up on: %s; the run stays as it is', async (_, messages) => {
    const { carrier, screen, host } = await connect();
    for (const message of messages) screen.receive(message);
    expect(carrier.ends).toHaveLength(1);
    expect(carrier.sent[carrier.sent.length - 1]).toMatchObject({ say: 'bye' });
    expect(host.presence.now().desk).toBe(0);
    // Whatever it says from now on is not listened to.
    screen.receive(JSON.stringify({ say: 'command', id: 'b', command: { do: 'start' } }));
    await Promise.resolve();
    expect(host.snapshot().run!.commands).toEqual([]);
  });
});

test.each([
  ['nothing before', [JSON.stringify({ say: 'ping', n: 0, t1: 0 })]],
  ['a hello before', [hello, hello]],
])('[screen] one whose hello is out of its place, with %s, is told so', async (_, messages) => {
  const { carrier, screen } = await connect();
  for (const message of messages) screen.receive(message);
  expect(carrier.ends).toEqual(['closed: A screen must say hello first, and only once.']);
});

describe('[screen] pings and commands', () => {
  test('a ping comes back with host time at its coming and going', async () => {
    const { carrier, clock, screen } = await greeted();
    screen.receive(JSON.stringify({ say: 'ping', n: 7, t1: 12.5 }));
    expect(carrier.said('pong')).toEqual([
      { say: 'pong', n: 7, t1: 12.5, t2: clock.now(), t3: clock.now(), epoch: clock.epoch() },
    ]);
  });

  test('a command is answered to the screen that gave it, and every screen gets the new snapshot', async () => {
    const { carrier, host, clock, screen } = await greeted();
    const other = new FakeCarrier();
    connectScreen(host, clock, other).receive(hello);
    clock.advance(42);
    screen.receive(JSON.stringify({ say: 'command', id: 'go', command: { do: 'start' } }));
    for (let turn = 0; turn < 20; turn++) await Promise.resolve();
    expect(carrier.said('answer')).toEqual([{ say: 'answer', id: 'go', ok: true, at: 42, why: null }]);
    expect(other.said('answer')).toEqual([]);
    expect(other.said('snapshot').at(-1)).toMatchObject({ run: { commands: [{ at: 42, command: { do: 'start' } }] } });
  });
});

test('[screen] a page counts once in the list of sounding screens, however often it changes its id', async () => {
  const { host, screen } = await greeted();
  const sound = { say: 'sound', n: 0, status: 'running', asked: true, more: null };
  for (let page = 0; page < 30; page++) screen.receive(JSON.stringify({ ...sound, id: `page-${page}` }));
  expect(host.soundArbiter.toldTo('desk', 'page-29').screens).toMatchObject([{ id: 'page-29', on: true }]);
  screen.gone();
  expect(host.soundArbiter.toldTo('desk', null).screens).toEqual([]);
});

describe('[screen] a screen that does not keep up', () => {
  test('gets no snapshots while more than 64 KiB wait, and then only the latest', async () => {
    const all = await greeted();
    const { carrier } = all;
    carrier.bytes = 64 * 1024 + 1;
    await give(all, 5);
    expect(carrier.said('snapshot')).toHaveLength(1);
    carrier.bytes = 10;
    // Nothing was handed over meanwhile that could call back: the next change brings the latest.
    await give(all, 1);
    expect(carrier.said('snapshot')).toHaveLength(2);
    expect(carrier.said('snapshot').at(-1)).toMatchObject({ run: { commands: { length: 6 } } });
  });

  test('gets what was skipped as soon as the waiting bytes are gone', async () => {
    const all = await greeted();
    const { carrier, host } = all;
    await give(all, 1);
    carrier.bytes = 64 * 1024 + 1;
    await give(all, 4);
    expect(carrier.said('snapshot')).toHaveLength(2);
    carrier.drain();
    expect(carrier.said('snapshot')).toHaveLength(3);
    expect(carrier.said('snapshot').at(-1)).toMatchObject({ n: host.snapshot().n });
    carrier.drain();
    expect(carrier.said('snapshot')).toHaveLength(3);
  });

  test('gets texts and snapshots as long as no more than 64 KiB wait', async () => {
    const { carrier, host } = await greeted();
    carrier.bytes = 64 * 1024;
    await host.command('new', { do: 'rewrite', text: 'Squad\n9 x 50 @ 1:00\n' });
    expect(carrier.said('text')).toHaveLength(2);
    expect(carrier.said('snapshot')).toHaveLength(2);
  });

  test('gets a text when it can take one, and then the snapshot that names it', async () => {
    const all = await greeted();
    const { carrier, host } = all;
    carrier.bytes = 64 * 1024 + 1;
    await host.command('new', { do: 'rewrite', text: 'Squad\n9 x 50 @ 1:00\n' });
    expect(carrier.sent.map(({ say }) => say)).toEqual(['text', 'snapshot', 'screens', 'presence', 'sound']);
    carrier.bytes = 0;
    await give(all, 1);
    expect(carrier.sent.slice(5).map(({ say }) => say)).toEqual(['text', 'snapshot']);
    expect(carrier.sent[5]).toMatchObject({ text: 'Squad\n9 x 50 @ 1:00\n' });
  });

  test('gets the list of wall screens while no more than 64 KiB wait, and otherwise later', async () => {
    const { carrier, clock, host } = await greeted();
    clock.advance(1000);
    carrier.bytes = 64 * 1024;
    const wall = JSON.stringify({ say: 'hello', version: WIRE_VERSION, screen: 'wall' });
    connectScreen(host, clock, new FakeCarrier()).receive(wall);
    expect(carrier.said('screens').at(-1)).toMatchObject({ screens: [{ name: 'Screen 1' }] });
    clock.advance(1000);
    carrier.bytes++;
    connectScreen(host, clock, new FakeCarrier()).receive(wall);
    expect(carrier.said('screens').at(-1)).toMatchObject({ screens: { length: 1 } });
    carrier.drain();
    expect(carrier.said('screens').at(-1)).toMatchObject({ screens: { length: 2 } });
  });

  test('gets answers while up to 1 MiB wait', async () => {
    const { carrier, screen } = await greeted();
    carrier.bytes = 1024 * 1024;
    screen.receive(JSON.stringify({ say: 'ping', n: 1, t1: 0 }));
    expect(carrier.said('pong')).toHaveLength(1);
    expect(carrier.ends).toEqual([]);
  });

  test('is hung up on at 1 MiB', async () => {
    const { carrier, screen, host } = await greeted();
    carrier.bytes = 1024 * 1024 + 1;
    screen.receive(JSON.stringify({ say: 'ping', n: 1, t1: 0 }));
    expect(carrier.ends).toEqual(['terminated']);
    expect(host.presence.now().desk).toBe(0);
  });
});

describe('[screen] a screen that says how good its clock is', () => {
  test('is heard by whoever lists the screens, and gets no answer', async () => {
    const { carrier, screen } = await greeted();
    const { length } = carrier.sent;
    for (const [quality, bound] of [
      ['good', 5],
      ['poor', 140],
    ])
      screen.receive(JSON.stringify({ say: 'clock', quality, bound }));
    expect(carrier.clocks).toEqual(['good', 'poor']);
    expect(carrier.sent).toHaveLength(length);
  });
});

describe('[screen] a screen that has gone', () => {
  test('gets nothing more, not even what was on its way', async () => {
    const all = await greeted();
    const { carrier, screen, host } = all;
    expect(screen.isGreeted()).toBe(true);
    screen.receive(JSON.stringify({ say: 'command', id: 'a', command: { do: 'start' } }));
    screen.gone();
    const { length } = carrier.sent;
    for (let turn = 0; turn < 20; turn++) await Promise.resolve();
    await give(all, 1);
    screen.receive(JSON.stringify({ say: 'ping', n: 1, t1: 0 }));
    screen.dismiss('Goodbye.');
    screen.gone();
    expect(carrier.sent).toHaveLength(length);
    expect([screen.isGreeted(), carrier.ends, host.presence.now().desk]).toEqual([false, [], 0]);
  });

  test('is told why once, if the host hung up', async () => {
    const { carrier, screen, host } = await greeted();
    screen.dismiss('The program ends.');
    screen.dismiss('The program ends.');
    expect(carrier.said('bye')).toEqual([{ say: 'bye', why: 'The program ends.', version: WIRE_VERSION }]);
    expect([screen.isGreeted(), carrier.ends, host.presence.now().desk]).toEqual([
      false,
      ['closed: The program ends.'],
      0,
    ]);
  });

  test('before its hello is told only why, even on a line that reports back at once', async () => {
    const { clock, host } = await connect();
    class QuickCarrier extends FakeCarrier {
      override send(text: string, sent: () => void): void {
        super.send(text, sent);
        this.drain();
      }
    }
    const carrier = new QuickCarrier();
    connectScreen(host, clock, carrier).receive('junk');
    expect(carrier.sent).toEqual([{ say: 'bye', why: 'That was not a message of a screen.', version: WIRE_VERSION }]);
  });

  test('before its hello does not change the count', async () => {
    const all = await connect();
    const { carrier, screen, host } = all;
    expect(screen.isGreeted()).toBe(false);
    await give(all, 1);
    screen.gone();
    expect(carrier.sent).toEqual([]);
    expect(host.presence.now().desk).toBe(0);
  });
});

describe('[screen] a screen that sends too much', () => {
  test('may send forty messages at once, and is hung up on at the next', async () => {
    const { carrier, screen } = await connect();
    screen.receive(hello);
    for (let n = 1; n < 40; n++) screen.receive(JSON.stringify({ say: 'ping', n, t1: 0 }));
    expect([carrier.said('pong').length, carrier.ends]).toEqual([39, []]);
    screen.receive(JSON.stringify({ say: 'ping', n: 40, t1: 0 }));
    expect(carrier.said('bye')).toMatchObject([{ why: 'Too many messages.' }]);
  });

  test('may send twenty messages a second for ever', async () => {
    const { carrier, clock, screen } = await greeted();
    for (let n = 0; n < 2000; n++) {
      clock.advance(50);
      screen.receive(JSON.stringify({ say: 'ping', n, t1: 0 }));
    }
    expect(carrier.ends).toEqual([]);
    expect(carrier.said('pong')).toHaveLength(2000);
  });

  test('is hung up on for a flood, and other screens are not', async () => {
    const { carrier, clock, host, screen } = await greeted();
    const other = new FakeCarrier();
    const quiet = connectScreen(host, clock, other);
    quiet.receive(hello);
    for (let n = 0; n < 500; n++) screen.receive(JSON.stringify({ say: 'ping', n, t1: 0 }));
    expect(carrier.ends).toEqual(['closed: Too many messages.']);
    expect(carrier.said('pong').length).toBeLessThan(45);
    quiet.receive(JSON.stringify({ say: 'ping', n: 1, t1: 0 }));
    expect(other.said('pong')).toHaveLength(1);
    expect(other.ends).toEqual([]);
  });

  test('is hung up on for a flood of bare frames', async () => {
    const { carrier, screen } = await greeted();
    for (let n = 0; n < 50; n++) screen.nudged();
    expect(carrier.ends).toEqual(['closed: Too many messages.']);
  });
});

test('[screen] a wish to share where nothing can be shared is answered with a sentence', async () => {
  const { screen, carrier } = await greeted();
  screen.receive(JSON.stringify({ say: 'sharing', id: 's', wish: { do: 'share', address: null } }));
  await expect.poll(() => carrier.said('answer')).toHaveLength(1);
  const why = 'Nothing can be shared from here.';
  expect(carrier.said('answer')).toEqual([{ say: 'answer', id: 's', ok: false, at: null, why }]);
});
