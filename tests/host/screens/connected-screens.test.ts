/* Wall screens, a coach and a remote in conversation with one host: who is told what, and who may want what. */

import { describe, expect, test } from 'vitest';
import { FIRST_SETTINGS } from '../../../app/core/screen/screen-settings.ts';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import { connectScreen } from '../../../app/host/deck/telling/screen.ts';
import { WIRE_VERSION, type FromHost, type ScreenKind } from '../../../app/wire/messages.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { readFromHost } from '../../support/host/from-host.ts';
import { JournalInMemory } from '../../support/host/folders/journal-in-memory.ts';

const ROOM = { width: 1920, height: 1080 };

class Pool {
  readonly clock = new FakeClock();
  readonly host = new DeckHost({
    clock: this.clock,
    timers: this.clock.timers,
    journal: new JournalInMemory(),
    newId: () => 'run',
  });

  connect(kind: ScreenKind, wall?: object) {
    const heard: FromHost[] = [];
    const ends: string[] = [];
    const screen = connectScreen(this.host, this.clock, {
      isOwnWindow: false,
      waiting: () => 0,
      send(text, sent) {
        const message = readFromHost(text);
        if (!message) throw new Error(`not a message: ${text}`);
        heard.push(message);
        sent();
      },
      close: (why) => ends.push(why),
      terminate: () => ends.push('terminated'),
    });
    const say = (message: object): void => screen.receive(JSON.stringify(message));
    say({ say: 'hello', version: WIRE_VERSION, screen: kind, ...(wall ? { wall } : {}) });
    const last = <Say extends FromHost['say']>(what: Say): Extract<FromHost, { say: Say }> | undefined =>
      heard.filter((each): each is Extract<FromHost, { say: Say }> => each.say === what).at(-1);
    return { heard, ends, say, last, gone: () => screen.gone() };
  }

  wall(name: string | null = null, search = '') {
    return this.connect('wall', { name, search, room: ROOM });
  }
}

describe('[screens] a wall', () => {
  test('is told its name and settings before anything else', () => {
    const pool = new Pool();
    const wall = pool.wall();
    expect(wall.heard[0]).toEqual({ say: 'screen', name: 'Screen 1', settings: FIRST_SETTINGS });
    expect(wall.last('screens')).toBeUndefined();
  });

  test('is told at once what the coach has set', () => {
    const pool = new Pool();
    const [wall, desk] = [pool.wall('Hall'), pool.connect('desk')];
    desk.say({ say: 'screen', id: 'a', name: 'Hall', wish: { settings: { pushOff: 'right' } } });
    expect(wall.last('screen')?.settings.pushOff).toBe('right');
    expect(desk.last('answer')).toEqual({ say: 'answer', id: 'a', ok: true, at: null, why: null });
  });

  test('that has gone or was turned is reported to the coach', () => {
    const pool = new Pool();
    const [wall, desk] = [pool.wall('Hall', '?end'), pool.connect('desk')];
    wall.say({ say: 'room', room: { width: 1080, height: 1920 } });
    pool.clock.advance(1000);
    expect(desk.last('screens')?.screens).toEqual([
      { name: 'Hall', settings: FIRST_SETTINGS, connected: [{ search: '?end', room: { width: 1080, height: 1920 } }] },
    ]);
    wall.gone();
    pool.clock.advance(1000);
    expect(desk.last('screens')?.screens).toMatchObject([{ name: 'Hall', connected: [] }]);
  });

  test('shows its name when the coach asks, and so do the pictures in the coach’s window', () => {
    const pool = new Pool();
    const [wall, desk, other, remote] = [
      pool.wall(),
      pool.connect('desk'),
      pool.connect('desk'),
      pool.connect('remote'),
    ];
    desk.say({ say: 'which' });
    expect([wall, desk, other, remote].map(({ last }) => last('which') !== undefined)).toEqual([
      true,
      true,
      true,
      false,
    ]);
  });
});

describe('[screens] who may say what', () => {
  test.each<[ScreenKind, object]>([
    ['wall', { say: 'screen', id: 'a', name: 'Hall', wish: { settings: { pushOff: 'right' } } }],
    ['remote', { say: 'screen', id: 'a', name: 'Hall', wish: { settings: { pushOff: 'right' } } }],
    ['wall', { say: 'screen', id: 'a', name: 'Hall', wish: { rename: 'Gym' } }],
    ['remote', { say: 'screen', id: 'a', name: 'Hall', wish: { forget: true } }],
    ['wall', { say: 'which' }],
    ['remote', { say: 'which' }],
    ['wall', { say: 'command', id: 'a', command: { do: 'start' } }],
    ['wall', { say: 'touch', id: 'a', run: 'run', lane: 1, at: 10_000, watch: 38_000 }],
    ['remote', { say: 'room', room: { width: 100, height: 100 } }],
    ['desk', { say: 'room', room: { width: 100, height: 100 } }],
  ])('a %s that sends %j is hung up on, and nothing is done', (kind, message) => {
    const pool = new Pool();
    const hall = pool.wall('Hall');
    const other = pool.connect(kind);
    const before = hall.heard.length;
    other.say(message);
    expect(other.ends).toEqual(['This screen may not say that.']);
    expect(hall.heard.slice(before).filter(({ say }) => say !== 'snapshot')).toEqual([]);
  });

  test.each([
    { settings: { diagonal: 5000 } },
    { settings: { colour: 'red' } },
    { settings: FIRST_SETTINGS, rename: 'Gym' },
    { rename: 'a'.repeat(41) },
  ])('the coach’s window that sends %j is hung up on as well: that is no wish', (wish) => {
    const pool = new Pool();
    const [hall, desk] = [pool.wall('Hall'), pool.connect('desk')];
    desk.say({ say: 'screen', id: 'a', name: 'Hall', wish });
    expect(desk.ends).toHaveLength(1);
    expect(hall.last('screen')?.settings).toEqual(FIRST_SETTINGS);
  });

  test('an impossible wish is answered with the reason', () => {
    const pool = new Pool();
    const desk = pool.connect('desk');
    desk.say({ say: 'screen', id: 'a', name: 'Nowhere', wish: { settings: {} } });
    expect(desk.last('answer')).toMatchObject({ ok: false, why: 'There is no screen “Nowhere” any more.' });
  });
});

describe('[screens] the list', () => {
  test('is sent at most twice a second, however much is set', () => {
    const pool = new Pool();
    pool.wall('Hall');
    const desk = pool.connect('desk');
    pool.clock.advance(2000);
    const before = desk.heard.filter(({ say }) => say === 'screens').length;
    for (let n = 0; n < 15; n++) {
      desk.say({ say: 'screen', id: `${n}`, name: 'Hall', wish: { settings: { inset: n % 10 } } });
      pool.clock.advance(66);
    }
    pool.clock.advance(1000);
    expect(desk.heard.filter(({ say }) => say === 'screens').length - before).toBeLessThanOrEqual(4);
    expect(desk.last('screens')?.screens[0]?.settings.inset).toBe(4);
  });
});
