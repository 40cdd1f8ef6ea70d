/* Which screens sound, from what they say one after the other; and that the host tells all of them. */

import { describe, expect, test } from 'vitest';
import { SoundArbiter } from '../../../../app/host/deck/telling/sound-arbiter.ts';
import { WIRE_VERSION, type FromHost, type ScreenKind, type SoundReport } from '../../../../app/wire/messages.ts';
import { DeckServerUnderTest } from '../../../support/host/deck/deck-server.ts';

type Told = Extract<FromHost, { say: 'sound' }>;

type Said = Partial<Pick<SoundReport, 'status' | 'asked' | 'more'>>;

/** Screens of a pool that say how their sound stands. */
class Pool {
  readonly sounding = new SoundArbiter();
  private readonly forget = new Map<string, () => void>();
  private n = 0;

  say(id: string, said: Said = {}): this {
    return this.saysAs('desk', id, said);
  }

  saysAs(kind: ScreenKind, id: string, { status = 'running', asked = false, more = null }: Said = {}): this {
    this.forget.set(id, this.sounding.take(kind, { id, n: this.n++, status, asked, more }));
    return this;
  }

  gone(id: string): this {
    this.forget.get(id)?.();
    return this;
  }

  get on(): string {
    return [...this.forget.keys()].filter((id) => this.isOn(id)).join(' ');
  }

  isOn(id: string): boolean {
    return this.sounding.toldTo('desk', id).screens.some((screen) => screen.id === id && screen.on);
  }
}

const ASKED = { asked: true };

describe('[sound] when one screen may sound', () => {
  test('it is the one that was switched on last', () => {
    const pool = new Pool().say('a', ASKED);
    expect(pool.on).toBe('a');
    expect(pool.say('b', ASKED).on).toBe('b');
    expect(pool.say('a', ASKED).on).toBe('a');
  });

  test('a screen that connects with its sound on sounds if no other does, and is silent if one does', () => {
    const pool = new Pool().say('a');
    expect(pool.on).toBe('a');
    expect(pool.say('b').on).toBe('a');
    expect(pool.sounding.toldTo('desk', 'b').screens.map(({ id, on }) => [id, on])).toEqual([
      [null, true],
      ['b', false],
    ]);
  });

  test('the sounding screen keeps the sound whatever happens to its device', () => {
    const pool = new Pool().say('a', ASKED).say('a', { status: 'gone' }).say('b').say('a', { status: 'running' });
    expect(pool.on).toBe('a');
    expect(pool.say('a', { status: 'blocked' }).on).toBe('a');
  });

  test('a screen that is switched off or cannot play does not hold the sound', () => {
    for (const status of ['off', 'missing'] as const) {
      const pool = new Pool().say('a', ASKED).say('a', { status });
      expect(pool.on).toBe('');
      expect(pool.say('b').on).toBe('b');
    }
  });

  test('a screen that goes frees the sound, unless it is already back', () => {
    const pool = new Pool().say('a', ASKED).say('b');
    expect(pool.gone('a').say('b').on).toBe('b');
    const back = new Pool();
    const before = back.sounding.take('desk', { id: 'a', n: 1, status: 'running', asked: true, more: null });
    back.say('a');
    before();
    expect(back.on).toBe('a');
  });
});

describe('[sound] when more than one screen may sound', () => {
  const MORE = { asked: true, more: true };

  test('all that are switched on sound', () => {
    const pool = new Pool()
      .say('a', ASKED)
      .say('c', { ...MORE, status: 'off' })
      .say('b');
    expect(pool.on).toBe('a b');
    expect(pool.say('d', ASKED).on).toBe('a b d');
    expect(pool.sounding.toldTo('desk', null).more).toBe(true);
  });

  test('after going back to one, the screen where that was chosen sounds, or else the last one switched on', () => {
    const pool = new Pool()
      .say('c', { ...MORE, status: 'off' })
      .say('a', ASKED)
      .say('b', ASKED);
    expect(pool.say('c', { status: 'off', asked: true, more: false }).on).toBe('b');
    const own = new Pool().say('a', MORE).say('b', ASKED);
    expect(own.say('a', { asked: true, more: false }).on).toBe('a');
  });

  test('after going back to one, a screen’s report of itself does not count as switching on', () => {
    const pool = new Pool()
      .say('c', { ...MORE, status: 'off' })
      .say('a', ASKED)
      .say('b', ASKED)
      .say('a');
    expect(pool.say('c', { status: 'off', asked: true, more: false }).on).toBe('b');
  });

  test('a new host learns the choice from the screens; a running host does not', () => {
    const pool = new Pool().say('a', { more: true }).say('b');
    expect(pool.on).toBe('a b');
    const told = new Pool().say('a', { asked: true, more: false }).say('b', { more: true });
    expect(told.on).toBe('a');
    expect(told.sounding.toldTo('desk', null).more).toBe(false);
  });

  test('as long as nobody has chosen, the choice is unknown and one screen sounds', () => {
    expect(new Pool().sounding.toldTo('desk', null)).toEqual({ more: null, screens: [] });
  });
});

describe('[sound] a wall screen', () => {
  test('does not silence the coach’s window, whatever it says', () => {
    const pool = new Pool().say('coach', ASKED).saysAs('wall', 'w', ASKED);
    expect(pool.on).toBe('coach');
    expect(pool.saysAs('wall', 'w', { asked: true, more: false }).on).toBe('coach');
    expect(pool.saysAs('wall', 'w', { asked: true, more: true }).on).toBe('coach');
    expect(pool.sounding.toldTo('desk', null).more).toBeNull();
  });

  test('sounds if no coach’s window does, and takes the sound from another wall screen', () => {
    const pool = new Pool().saysAs('wall', 'v', ASKED);
    expect(pool.on).toBe('v');
    expect(pool.saysAs('wall', 'w', ASKED).on).toBe('w');
    expect(pool.say('coach', ASKED).on).toBe('coach');
    expect(pool.gone('coach').saysAs('wall', 'w', ASKED).on).toBe('w');
  });

  test('sounds too if the coach wants more than one, and is the first to fall silent', () => {
    const pool = new Pool().say('coach', { asked: true, more: true }).saysAs('wall', 'w', ASKED);
    expect(pool.on).toBe('coach w');
    expect(pool.say('other', { status: 'off', asked: true, more: false }).on).toBe('coach');
  });

  test('that uses the id of the coach’s window changes nothing there', () => {
    const pool = new Pool().say('coach', ASKED);
    const forget = pool.sounding.take('wall', { id: 'coach', n: 9, status: 'off', asked: true, more: null });
    expect(pool.on).toBe('coach');
    forget();
    expect(pool.on).toBe('coach');
  });

  test('is told of itself alone, and no screen is told the ids of others', () => {
    const { sounding } = new Pool().say('coach', ASKED).saysAs('wall', 'w');
    expect(sounding.toldTo('wall', 'w').screens.map(({ id }) => id)).toEqual(['w']);
    expect(sounding.toldTo('wall', null).screens).toEqual([]);
    expect(sounding.toldTo('remote', null).screens.map(({ id, screen }) => [id, screen])).toEqual([
      [null, 'desk'],
      [null, 'wall'],
    ]);
  });
});

test('[sound] every screen gets the list over the wire, without screens that have gone', async () => {
  const server = await DeckServerUnderTest.start();
  const [desk, wall] = [await server.screen(), await server.socket()];
  if (typeof wall === 'number') throw new Error(`refused: ${wall}`);
  wall.send(JSON.stringify({ say: 'hello', version: WIRE_VERSION, screen: 'wall' }));
  const told = (fits: (screens: Told['screens']) => boolean) =>
    desk.hears((message) => message.say === 'sound' && fits(message.screens));
  wall.send(JSON.stringify({ say: 'sound', id: 'w', n: 1, status: 'blocked', asked: true, more: null }));
  await told((screens) =>
    screens.some(({ id, screen, status, on }) => id === null && screen === 'wall' && status === 'blocked' && on),
  );
  desk.say({ say: 'sound', id: 'd', n: 1, status: 'running', asked: true, more: null });
  await told((screens) => screens.length === 2 && screens.every(({ id, on }) => on === (id === 'd')));
  wall.close();
  await told((screens) => screens.length === 1 && screens[0]!.id === 'd' && screens[0]!.on);
  desk.socket.close();
  await server.close();
});
