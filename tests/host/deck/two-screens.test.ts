/* What one screen does while another is worked: ids, Stops and undos that cross, and what a wall screen is told. */

import { describe, expect, test } from 'vitest';
import { THIS_MACHINE } from '../../../app/host/sharing/doors/guest.ts';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import { connectScreen } from '../../../app/host/deck/telling/screen.ts';
import { WIRE_VERSION, type FromHost, type ScreenKind } from '../../../app/wire/messages.ts';
import { withTouch } from '../../../app/core/record/times/touch.ts';
import type { HandTimes } from '../../../app/core/record/afterwards.ts';
import type { SentTouch } from '../../../app/host/records/records.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { readFromHost } from '../../support/host/from-host.ts';
import { JournalInMemory } from '../../support/host/folders/journal-in-memory.ts';
import { ToldRun } from '../../support/host/deck/told-run.ts';

const TEXT = [
  'Harbour squad',
  '# Ana has a sore shoulder',
  'lane 1 css 1:20, Ana, Ben',
  'lane 2',
  'Main set',
  '8 x 50 @ 1:00 Ana leads',
].join('\n');

class Pool {
  readonly clock = new FakeClock();
  readonly host = new DeckHost({
    clock: this.clock,
    timers: this.clock.timers,
    journal: new JournalInMemory(),
    newId: () => 'run',
  });

  static async open(): Promise<Pool> {
    const pool = new Pool();
    await pool.host.open({ text: TEXT, lanesText: null }, { replace: false });
    return pool;
  }

  connect(kind: ScreenKind, isOwnWindow = false) {
    const heard: FromHost[] = [];
    const told = new ToldRun();
    let bytes = 0;
    const screen = connectScreen(this.host, this.clock, {
      isOwnWindow,
      waiting: () => bytes,
      send: (text) => void heard.push(told.hear(readFromHost(text)!)),
      close: () => undefined,
      terminate: () => undefined,
    });
    const say = async (message: object): Promise<void> => {
      screen.receive(JSON.stringify(message));
      for (let turn = 0; turn < 20; turn++) await Promise.resolve();
    };
    screen.receive(JSON.stringify({ say: 'hello', version: WIRE_VERSION, screen: kind }));
    return { heard, say, screen, fill: () => void (bytes = 2 * 1024 * 1024) };
  }
}

type Heard = ReturnType<Pool['connect']>['heard'];

const answers = (heard: Heard) =>
  heard.flatMap((message) => (message.say === 'answer' ? [[message.ok, message.why] as const] : []));
const snapshots = (heard: Heard) => heard.filter((message) => message.say === 'snapshot');
const command = (id: string, fields: object, seen: object = {}) => ({ say: 'command', id, command: fields, ...seen });

describe('[two screens] ids', () => {
  test('that a remote has used do not block the coach’s Stop', async () => {
    const pool = await Pool.open();
    const [remote, desk] = [pool.connect('remote'), pool.connect('desk')];
    await remote.say(command('a', { do: 'start' }));
    pool.clock.advance(15_000);
    await remote.say(command('b', { do: 'mark' }));
    await desk.say(command('b', { do: 'stop' }));
    expect(pool.host.snapshot().run!.commands.map(({ command: { do: name } }) => name)).toEqual([
      'start',
      'mark',
      'stop',
    ]);
    expect(answers(desk.heard)).toEqual([[true, null]]);
  });
});

describe('[two screens] a Stop that was just given', () => {
  test('is not lifted by a Resume or an Undo that did not know of it', async () => {
    const pool = await Pool.open();
    const [remote, desk] = [pool.connect('remote'), pool.connect('desk')];
    await desk.say(command('a', { do: 'start' }));
    pool.clock.advance(15_000);
    await remote.say(command('b', { do: 'skip', lanes: [2] }));
    const skipped = pool.host.snapshot().run!.commands.at(-1)!.at;
    pool.clock.advance(1000);
    await desk.say(command('c', { do: 'stop' }));
    await remote.say(command('d', { do: 'undo' }, { undoes: { command: 'skip', at: skipped } }));
    await remote.say(command('e', { do: 'resume' }, { lastStop: null }));
    expect(answers(remote.heard).map(([ok]) => ok)).toEqual([true, false, false]);
    const { at } = pool.host.snapshot().run!.commands.at(-1)!;
    await remote.say(command('f', { do: 'resume' }, { lastStop: at }));
    expect(answers(remote.heard).at(-1)).toEqual([true, null]);
  });
});

describe('[two screens] a wall screen that anybody may have opened', () => {
  test('gets the same run without names, comments, marks and notices', async () => {
    const pool = await Pool.open();
    const [wall, desk] = [pool.connect('wall'), pool.connect('desk')];
    pool.host.tell('a test', 'Ben is to see the office.');
    await desk.say(command('a', { do: 'start' }));
    await desk.say(command('b', { do: 'mark', words: 'Ana hurt' }));
    await desk.say(command('c', { do: 'rewrite', text: `${TEXT}\n100 easy with Ben` }));
    pool.clock.advance(1000);
    const said = JSON.stringify(wall.heard);
    expect(said).not.toMatch(/Ana|Ben|shoulder/);
    const run = (snapshots(wall.heard).at(-1) as { run: { text: string; commands: { command: object }[] } }).run;
    const texts = wall.heard.filter((message) => message.say === 'text');
    expect(texts.map(({ hash }) => hash)).toContain(run.text);
    expect(texts.map(({ text }) => text.split('\n').length)).toEqual([6, 7]);
    expect(run.commands.map(({ command: each }) => each)).toEqual([
      { do: 'start' },
      { do: 'rewrite', textHash: texts[1]!.hash },
    ]);
    // The coach's has it all.
    expect(JSON.stringify(desk.heard)).toMatch(/Ana, Ben.*shoulder.*Ana hurt/);
  });

  test('gets the names in a window of the program', async () => {
    const pool = await Pool.open();
    const desk = pool.connect('desk');
    expect(JSON.stringify(pool.connect('wall', true).heard)).toMatch(/Ana, Ben/);
    pool.connect('wall');
    pool.clock.advance(1000);
    const told = desk.heard.filter((message) => message.say === 'screens').at(-1)!;
    expect(told.screens.map(({ name, isOwnWindow = false }) => [name, isOwnWindow])).toEqual([
      ['Screen 1', true],
      ['Screen 2', false],
    ]);
  });

  test('is not told of other screens', async () => {
    const pool = await Pool.open();
    const [wall, remote] = [pool.connect('wall'), pool.connect('remote')];
    pool.connect('desk');
    pool.clock.advance(5000);
    for (const { heard } of [wall, remote]) {
      expect(heard.map(({ say }) => say)).not.toContain('presence');
      expect(heard.map(({ say }) => say)).not.toContain('screens');
    }
  });
});

describe('[two screens] many that come in', () => {
  test('do not change the run: each gets one snapshot, and the coach hears of them at most twice a second', async () => {
    const pool = await Pool.open();
    const desk = pool.connect('desk');
    const walls = Array.from({ length: 200 }, () => pool.connect('wall'));
    pool.clock.advance(1000);
    expect(walls.map(({ heard }) => snapshots(heard).length)).toEqual(Array<number>(200).fill(1));
    expect(snapshots(desk.heard)).toHaveLength(1);
    const told = desk.heard.filter((message) => message.say === 'presence');
    expect(told.at(-1)).toEqual({ say: 'presence', screens: { desk: 1, wall: 200, remote: 0 } });
    expect(told.length).toBeLessThanOrEqual(3);
  });
});

describe('[two screens] a screen that anybody may have opened', () => {
  test('gets no notices, with a run and without one', () => {
    const { host } = new Pool();
    host.tell('a test', 'The disk is full.');
    expect(JSON.parse(host.streams.open.messageFrom(null))).toMatchObject({ run: null, notices: [], startUp: null });
    expect(host.snapshot().notices).toEqual(['The disk is full.']);
  });
});

test('[two screens] a screen that is hung up on while it reports its sound leaves no report behind', async () => {
  const pool = await Pool.open();
  const desk = pool.connect('desk');
  const remote = pool.connect('remote');
  remote.fill();
  await remote.say({ say: 'sound', id: 'r', n: 1, status: 'running', asked: true, more: null });
  expect(pool.host.presence.now().remote).toBe(1);
  remote.screen.receive(JSON.stringify({ say: 'ping', n: 1, t1: 0 }));
  expect(pool.host.presence.now().remote).toBe(0);
  expect(pool.host.soundArbiter.toldTo('desk', null).screens).toEqual([]);
  expect(desk.heard.at(-1)).toEqual({ say: 'sound', more: null, screens: [] });
});

describe('[two screens] a touch', () => {
  const touch = (id: string, watch: number) => ({ say: 'touch', id, run: 'run', lane: 1, at: 10_000, watch });

  test('of a remote is answered when it is kept, and all coaches and remotes are told the times; a wall is not', async () => {
    const pool = await Pool.open();
    const kept: SentTouch[] = [];
    const isNew = ({ id }: SentTouch): boolean => kept.every((each) => each.id !== id);
    pool.host.touchBook.keepIn({
      touch(_, sent) {
        if (sent && isNew(sent)) kept.push(sent);
        return Promise.resolve({ ok: true, times: kept.reduce(withTouch, [] as readonly HandTimes[]) });
      },
    });
    const screens = (['remote', 'desk', 'wall'] as const).map((kind) => pool.connect(kind, true));
    const [remote] = screens;
    await remote!.say(touch('a', 38_000));
    await remote!.say(touch('a', 38_000));
    const told = screens.map(({ heard }) => heard.flatMap((each) => (each.say === 'times' ? [each.times] : [])));
    const times = [[], [{ lane: 1, at: 10_000, watches: [38_000] }]];
    expect(told).toEqual([times, times, []]);
    expect(answers(remote!.heard)).toEqual([
      [true, null],
      [true, null],
    ]);
    expect(pool.host.snapshot().run!.commands).toEqual([]);
  });

  test('that cannot be kept is answered with why', async () => {
    const pool = await Pool.open();
    pool.host.touchBook.keepIn({ touch: () => Promise.resolve({ ok: false, why: 'The disk is full.' }) });
    const desk = pool.connect('desk');
    await desk.say(touch('a', 38_000));
    expect(answers(desk.heard)).toEqual([[false, 'The disk is full.']]);
  });
});

test('[two screens] coaches are told by whom a command was given, walls are not, and of this machine its remote alone has a name', async () => {
  const pool = await Pool.open();
  const [desk, wall] = [pool.connect('desk'), pool.connect('wall')];
  const by = { role: 'remote', name: 'Remote 1', device: 'd'.repeat(16), kind: 'remote' } as const;
  await pool.host.command('c1', { do: 'start' }, { by });
  await pool.host.command('c2', { do: 'stop' });
  const ownRemote = { by: { ...THIS_MACHINE, kind: 'remote' as const } };
  await pool.host.command('c3', { do: 'skip', lanes: [1] }, ownRemote);
  pool.clock.advance(1000);
  const givers = ({ heard }: { readonly heard: Heard }): unknown =>
    snapshots(heard)
      .pop()!
      .run!.commands.map((each) => each.by ?? null);
  expect([givers(desk), givers(wall)]).toEqual([
    ['Remote 1', null, 'The remote on this machine'],
    [null, null, null],
  ]);
});
