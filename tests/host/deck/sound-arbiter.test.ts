/* Which screens sound, from what they say one after the other; and that the host tells all of them. */

import { describe, expect, test } from 'vitest';
import { SoundArbiter } from '../../../app/host/deck/sound-arbiter.ts';
import { WIRE_VERSION, type Snapshot, type SoundReport } from '../../../app/wire/messages.ts';
import { DeckServerUnderTest } from '../../support/host/deck-server.ts';

type Said = Partial<Pick<SoundReport, 'status' | 'asked' | 'more'>>;

/** Screens of a pool that say how their sound stands. */
class Pool {
  readonly sounding = new SoundArbiter();
  private readonly forget = new Map<string, () => boolean>();
  private n = 0;

  say(id: string, { status = 'running', asked = false, more = null }: Said = {}): this {
    this.forget.set(id, this.sounding.take('wall', { id, n: this.n++, status, asked, more }));
    return this;
  }

  gone(id: string): this {
    this.forget.get(id)?.();
    return this;
  }

  get on(): string {
    return this.sounding
      .told()
      .screens.filter(({ on }) => on)
      .map(({ id }) => id)
      .join(' ');
  }
}

const ASKED = { asked: true };

describe('[sound] one screen sounds', () => {
  test('the one that was switched on last', () => {
    const pool = new Pool().say('a', ASKED);
    expect(pool.on).toBe('a');
    expect(pool.say('b', ASKED).on).toBe('b');
    expect(pool.say('a', ASKED).on).toBe('a');
  });

  test('one that comes with its sound on has it where no other sounds, and falls silent where one does', () => {
    const pool = new Pool().say('a');
    expect(pool.on).toBe('a');
    expect(pool.say('b').on).toBe('a');
    expect(pool.sounding.told().screens.map(({ id, on }) => [id, on])).toEqual([
      ['a', true],
      ['b', false],
    ]);
  });

  test('one that has it keeps it whatever becomes of its device', () => {
    const pool = new Pool().say('a', ASKED).say('a', { status: 'gone' }).say('b').say('a', { status: 'running' });
    expect(pool.on).toBe('a');
    expect(pool.say('a', { status: 'blocked' }).on).toBe('a');
  });

  test('one that is switched off or cannot play does not hold the place', () => {
    for (const status of ['off', 'missing'] as const) {
      const pool = new Pool().say('a', ASKED).say('a', { status });
      expect(pool.on).toBe('');
      expect(pool.say('b').on).toBe('b');
    }
  });

  test('one that goes away frees it, unless it is back already', () => {
    const pool = new Pool().say('a', ASKED).say('b');
    expect(pool.gone('a').say('b').on).toBe('b');
    const back = new Pool();
    const before = back.sounding.take('wall', { id: 'a', n: 1, status: 'running', asked: true, more: null });
    back.say('a');
    expect(before()).toBe(false);
    expect(back.on).toBe('a');
  });
});

describe('[sound] more than one screen', () => {
  const MORE = { asked: true, more: true };

  test('sound where that is wanted', () => {
    const pool = new Pool()
      .say('a', ASKED)
      .say('c', { ...MORE, status: 'off' })
      .say('b');
    expect(pool.on).toBe('a b');
    expect(pool.say('d', ASKED).on).toBe('a b d');
    expect(pool.sounding.told().more).toBe(true);
  });

  test('no more than one any more: the one where that was said, if it sounds, else the last switched on', () => {
    const pool = new Pool()
      .say('c', { ...MORE, status: 'off' })
      .say('a', ASKED)
      .say('b', ASKED);
    expect(pool.say('c', { status: 'off', asked: true, more: false }).on).toBe('b');
    const own = new Pool().say('a', MORE).say('b', ASKED);
    expect(own.say('a', { asked: true, more: false }).on).toBe('a');
  });

  test('no more than one any more: what a screen says of itself meanwhile is no switching on', () => {
    const pool = new Pool()
      .say('c', { ...MORE, status: 'off' })
      .say('a', ASKED)
      .say('b', ASKED)
      .say('a');
    expect(pool.say('c', { status: 'off', asked: true, more: false }).on).toBe('b');
  });

  test('what was wanted is known again from the screens, where the host is new; and only there', () => {
    const pool = new Pool().say('a', { more: true }).say('b');
    expect(pool.on).toBe('a b');
    const told = new Pool().say('a', { asked: true, more: false }).say('b', { more: true });
    expect(told.on).toBe('a');
    expect(told.sounding.told().more).toBe(false);
  });

  test('nobody has said anything yet: unknown, and one sounds', () => {
    expect(new Pool().sounding.told()).toEqual({ more: null, screens: [] });
  });
});

test('[sound] every screen is told which sound, over the wire, and one that hangs up is gone from it', async () => {
  const server = await DeckServerUnderTest.start();
  const [desk, wall] = [await server.screen(), await server.socket()];
  if (typeof wall === 'number') throw new Error(`refused: ${wall}`);
  wall.send(JSON.stringify({ say: 'hello', version: WIRE_VERSION, screen: 'wall' }));
  const told = (fits: (sound: NonNullable<Snapshot['sound']>) => boolean) =>
    desk.hears((message) => message.say === 'snapshot' && message.sound !== undefined && fits(message.sound));
  wall.send(JSON.stringify({ say: 'sound', id: 'w', n: 1, status: 'blocked', asked: true, more: null }));
  await told(({ screens }) =>
    screens.some(({ id, screen, status, on }) => id === 'w' && screen === 'wall' && status === 'blocked' && on),
  );
  desk.say({ say: 'sound', id: 'd', n: 1, status: 'running', asked: true, more: null });
  await told(({ screens }) => screens.length === 2 && screens.every(({ id, on }) => on === (id === 'd')));
  wall.close();
  await told(({ screens }) => screens.length === 1 && screens[0]!.id === 'd' && screens[0]!.on);
  desk.socket.close();
  await server.close();
});
