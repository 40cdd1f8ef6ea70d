/* What is put into words once for all screens that need the same. */

import { describe, expect, test } from 'vitest';
import { DeckHost } from '../../../../app/host/deck/deck-host.ts';
import type { RunStream } from '../../../../app/host/deck/telling/run-stream.ts';
import type { Snapshot } from '../../../../app/wire/messages.ts';
import { withCommands, type LaterCommands } from '../../../../app/wire/snapshot.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';
import { JournalInMemory } from '../../../support/host/folders/journal-in-memory.ts';

const SOURCE = { text: 'Squad\n8 x 50 @ 1:00\n', lanesText: null };

async function opened() {
  const clock = new FakeClock();
  let runs = 0;
  const journal = new JournalInMemory();
  const host = new DeckHost({ clock, timers: clock.timers, journal, newId: () => `run-${runs++}` });
  await host.open(SOURCE, { replace: false });
  const give = (...deeds: string[]) =>
    deeds.reduce<Promise<unknown>>(
      (before, deed, place) => before.then(() => host.command(`${host.snapshot().n}-${place}`, { do: deed })),
      Promise.resolve(),
    );
  return { clock, host, give, stream: host.streams.whole, open: host.streams.open };
}

const read = (message: string) => JSON.parse(message) as Snapshot | LaterCommands;

/** The whole snapshot that a screen has which was told from a place on. */
function after(stream: RunStream, before: string, message: string): Snapshot | null {
  return withCommands(read(before) as Snapshot, read(message) as LaterCommands);
}

describe('[snapshots] a stream', () => {
  test('has the whole for one that knows nothing, and the commands since for others: they come to the same', async () => {
    const { give, stream } = await opened();
    await give('start', 'mark');
    const [before, place] = [stream.messageFrom(null), stream.place()];
    await give('skip', 'stop');
    const message = stream.messageFrom(place);
    expect(read(message)).toMatchObject({ say: 'commands', after: 2, commands: [{}, {}] });
    expect(after(stream, before, message)).toEqual(read(stream.messageFrom(null)));
  });

  test('puts each into words once, until there is another snapshot', async () => {
    const { host, give, stream } = await opened();
    await give('start');
    const place = stream.place();
    await give('skip');
    expect(stream.messageFrom(place)).toBe(stream.messageFrom({ ...place }));
    let read = 0;
    const { snapshot } = host;
    host.snapshot = () => (read++, snapshot.call(host));
    for (let screen = 0; screen < 200; screen++) stream.messageFrom(screen % 2 === 0 ? null : place);
    expect(read).toBe(0);
    host.tell('disk', 'The disk is full.');
    for (let screen = 0; screen < 200; screen++) stream.messageFrom(place);
    expect(read).toBe(1);
  });

  test.each([
    ['another run', async ({ host }) => void (await host.open(SOURCE, { replace: true }))],
    ['another time, after a sleep', ({ clock }) => (clock.sleep(60_000), clock.check())],
    ['a place ahead of it', () => undefined],
  ] as readonly (readonly [string, (deck: Awaited<ReturnType<typeof opened>>) => unknown])[])(
    'has the whole for one that comes from %s',
    async (what, happen) => {
      const deck = await opened();
      await deck.give('start');
      const place = deck.stream.place();
      await happen(deck);
      const from = what === 'a place ahead of it' ? { ...place, count: 2 } : place;
      expect(read(deck.stream.messageFrom(from))).toMatchObject({ say: 'snapshot' });
    },
  );

  test('has the whole without a run, each time', () => {
    const clock = new FakeClock();
    const host = new DeckHost({ clock, timers: clock.timers, journal: new JournalInMemory(), newId: () => 'run' });
    const { whole } = host.streams;
    expect(whole.place()).toEqual({ n: host.snapshot().n, run: null, count: 0 });
    expect(read(whole.messageFrom(whole.place()))).toMatchObject({ say: 'snapshot', run: null });
  });

  test('has the texts that the snapshot names as messages, by their hashes, after the next command too', async () => {
    const { give, stream, open } = await opened();
    for (const deed of ['start', 'mark']) {
      await give(deed);
      for (const each of [stream, open]) {
        const hash = (read(each.messageFrom(null)) as Snapshot).run!.text;
        const [[name, message] = [], ...others] = each.textMessages();
        expect([name, others]).toEqual([hash, []]);
        expect(JSON.parse(message!)).toEqual({ say: 'text', hash, ...SOURCE });
      }
    }
  });

  test('has notices with the commands, the public one never, nor marks', async () => {
    const { host, give, stream, open } = await opened();
    await give('start');
    const [place, openPlace] = [stream.place(), open.place()];
    await give('mark');
    host.tell('disk', 'The disk is full.');
    expect(read(stream.messageFrom(place))).toMatchObject({ commands: [{}], notices: ['The disk is full.'] });
    expect(read(open.messageFrom(openPlace))).toMatchObject({ commands: [], notices: [], startUp: null });
  });
});

describe('[snapshots] commands that do not follow a snapshot', () => {
  test('come to none: without one, of another run, clock or number', async () => {
    const { give, stream } = await opened();
    await give('start');
    const [before, place] = [read(stream.messageFrom(null)) as Snapshot, stream.place()];
    await give('skip');
    const later = read(stream.messageFrom(place)) as LaterCommands;
    expect(withCommands(before, later)).not.toBeNull();
    expect(withCommands(null, later)).toBeNull();
    expect(withCommands({ ...before, run: null }, later)).toBeNull();
    expect(withCommands(before, { ...later, run: 'other' })).toBeNull();
    expect(withCommands(before, { ...later, epoch: 'other' })).toBeNull();
    expect(withCommands(before, { ...later, after: 2 })).toBeNull();
    expect(withCommands(before, { ...later, after: 0 })).toBeNull();
  });
});
