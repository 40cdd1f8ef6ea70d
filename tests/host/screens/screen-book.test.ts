/* The wall screens by name, as they come and go and are set. */

import { describe, expect, test } from 'vitest';
import { ScreenBook } from '../../../app/host/screens/screen-book.ts';
import { FIRST_SETTINGS } from '../../../app/core/screen/screen-settings.ts';
import type { KeptScreen } from '../../../app/wire/screen-settings.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

const ROOM = { width: 1920, height: 1080 };

class Pool {
  readonly clock = new FakeClock();
  readonly book = new ScreenBook(this.clock.timers);
  kept: readonly KeptScreen[] = [];
  news = 0;

  constructor(kept: readonly KeptScreen[] = []) {
    this.book.keepWith(kept, (screens) => (this.kept = screens));
    this.clock.advance(1000);
    this.book.onNews(() => this.news++);
  }

  /** A wall screen comes in; `told` is what it has been told, as "name pushOff". */
  wall(name: string | null, search = '') {
    const told: string[] = [];
    const screen = this.book.join({ name, search, room: ROOM }, ({ name: own, settings }) =>
      told.push(`${own} ${settings.pushOff}`),
    );
    return { ...screen, told };
  }

  /** All, as told last: "name connected". */
  list(): string[] {
    this.clock.advance(1000);
    return this.book.latest().map(({ name, connected }) => `${name} ${connected.length}`);
  }
}

describe('[screens] a screen that connects', () => {
  test('gets its name and settings at once, and each change', () => {
    const pool = new Pool();
    const wall = pool.wall('Hall');
    expect(wall.told).toEqual(['Hall left']);
    expect(pool.book.carryOut('Hall', { settings: { pushOff: 'right' } })).toBeNull();
    expect(wall.told).toEqual(['Hall left', 'Hall right']);
  });

  test('without a name gets one that no other screen has or had', () => {
    const pool = new Pool([{ name: 'Deep end', settings: FIRST_SETTINGS, formerly: ['Screen 2'] }]);
    expect([pool.wall(null).told, pool.wall(null).told]).toEqual([['Screen 1 left'], ['Screen 3 left']]);
  });

  test('from a second window of a browser gets its own name, and both have theirs again tomorrow', () => {
    const pool = new Pool();
    const known = (...names: string[]): string | undefined => {
      const told: string[] = [];
      pool.book.join({ name: null, known: names, search: '', room: ROOM }, ({ name }) => told.push(name));
      return told[0];
    };
    expect([known(), known('Screen 1')]).toEqual(['Screen 1', 'Screen 2']);
    const tomorrow = new Pool();
    const again = (): string | undefined => {
      const told: string[] = [];
      const names = ['Screen 2', 'Screen 1'];
      tomorrow.book.join({ name: null, known: names, search: '', room: ROOM }, ({ name }) => told.push(name));
      return told[0];
    };
    expect([again(), again(), again()]).toEqual(['Screen 2', 'Screen 1', 'Screen 3']);
  });

  test('with the same name as another has the same settings', () => {
    const pool = new Pool();
    const walls = [pool.wall('Hall'), pool.wall('Hall')];
    pool.book.carryOut('Hall', { settings: { pushOff: 'right' } });
    expect(walls.map(({ told }) => told[1])).toEqual(['Hall right', 'Hall right']);
    expect(pool.list()).toEqual(['Hall 2']);
  });

  test('from an earlier program, without an introduction, gets a name as well', () => {
    const pool = new Pool();
    pool.book.join(undefined, () => undefined);
    expect(pool.list()).toEqual(['Screen 1 1']);
  });

  test('can have any name that can be typed', () => {
    const pool = new Pool();
    pool.wall('__proto__');
    pool.wall('constructor');
    pool.book.carryOut('__proto__', { settings: { pushOff: 'right' } });
    expect(pool.wall('__proto__').told).toEqual(['__proto__ right']);
    expect(pool.wall('constructor').told).toEqual(['constructor left']);
  });
});

describe('[screens] a renamed screen', () => {
  test('gets its new name, and is known when it gives the old one', () => {
    const pool = new Pool();
    const wall = pool.wall('Screen 1');
    pool.book.carryOut('Screen 1', { settings: { pushOff: 'right' } });
    expect(pool.book.carryOut('Screen 1', { rename: 'Shallow end' })).toBeNull();
    expect(wall.told.at(-1)).toBe('Shallow end right');
    wall.leave();
    expect(pool.wall('Screen 1').told).toEqual(['Shallow end right']);
    expect(pool.list()).toEqual(['Shallow end 1']);
  });

  test('cannot take the name of another', () => {
    const pool = new Pool();
    pool.wall('Hall');
    pool.wall('Deep end');
    expect(pool.book.carryOut('Hall', { rename: 'Deep end' })).toContain('“Deep end” already');
    expect(pool.list()).toEqual(['Deep end 1', 'Hall 1']);
  });

  test('takes a former name from the screen that had it', () => {
    const pool = new Pool();
    pool.wall('Hall');
    pool.wall('Deep end');
    pool.book.carryOut('Hall', { rename: 'Old hall' });
    pool.book.carryOut('Deep end', { rename: 'Hall' });
    expect(pool.wall('Hall').told).toEqual(['Hall left']);
    expect(pool.kept.map(({ name, formerly }) => [name, formerly])).toContainEqual(['Old hall', []]);
  });

  test('the same wish twice is one', () => {
    const pool = new Pool();
    pool.wall('Hall');
    const rename = (): string | null => pool.book.carryOut('Hall', { rename: 'Shallow end' });
    expect([rename(), rename()]).toEqual([null, null]);
    expect(pool.kept).toMatchObject([{ name: 'Shallow end', formerly: ['Hall'] }]);
  });

  test('is known by its last eight names', () => {
    const pool = new Pool();
    pool.wall('Name 0');
    for (let n = 1; n <= 10; n++) pool.book.carryOut(`Name ${n - 1}`, { rename: `Name ${n}` });
    expect(pool.kept[0]?.formerly).toEqual([2, 3, 4, 5, 6, 7, 8, 9].map((n) => `Name ${n}`));
  });
});

describe('[screens] remembering', () => {
  test('a screen that has gone is remembered, and set as it was when it comes back', () => {
    const pool = new Pool();
    const wall = pool.wall('Hall');
    pool.book.carryOut('Hall', { settings: { pushOff: 'right' } });
    wall.leave();
    expect(pool.list()).toEqual(['Hall 0']);
    expect(pool.wall('Hall').told).toEqual(['Hall right']);
  });

  test('a screen that is not connected can be set, renamed and forgotten', () => {
    const pool = new Pool([{ name: 'Hall', settings: FIRST_SETTINGS, formerly: [] }]);
    expect(pool.book.carryOut('Hall', { settings: { inset: 0 } })).toBeNull();
    expect(pool.book.carryOut('Hall', { rename: 'Gym' })).toBeNull();
    expect(pool.kept).toMatchObject([{ name: 'Gym', settings: { inset: 0 } }]);
    expect(pool.book.carryOut('Gym', { forget: true })).toBeNull();
    expect([pool.kept, pool.list()]).toEqual([[], []]);
  });

  test('a connected screen cannot be forgotten', () => {
    const pool = new Pool();
    const wall = pool.wall('Hall');
    expect(pool.book.carryOut('Hall', { forget: true })).toContain('connected');
    wall.leave();
    wall.leave();
    expect(pool.book.carryOut('Hall', { forget: true })).toBeNull();
    expect(pool.book.carryOut('Hall', { forget: true })).toBeNull();
  });

  test('a forgotten screen cannot be set, and a sentence says so', () => {
    expect(new Pool().book.carryOut('Hall', { settings: { inset: 0 } })).toContain('no screen “Hall”');
  });

  test('a change to the same settings is not written', () => {
    const pool = new Pool();
    pool.wall('Hall');
    const before = pool.kept;
    expect(pool.book.carryOut('Hall', { settings: { pushOff: 'left' } })).toBeNull();
    expect(pool.kept).toBe(before);
  });

  test('screens that nobody has set do not pile up: only the last 32 stay', () => {
    const pool = new Pool();
    const first = pool.wall('First');
    pool.book.carryOut('First', { settings: { inset: 0 } });
    first.leave();
    for (let n = 0; n < 200; n++) pool.wall(`Noise ${n}`).leave();
    expect(pool.list()).toHaveLength(33);
    expect(pool.kept.map(({ name }) => name)).toEqual(expect.arrayContaining(['First', 'Noise 199', 'Noise 168']));
  });

  test('a hundred screens can be set; then one has to be forgotten first', () => {
    const settings = { ...FIRST_SETTINGS, inset: 0 };
    const pool = new Pool(Array.from({ length: 100 }, (_, n) => ({ name: `Hall ${n}`, settings, formerly: [] })));
    pool.wall('New');
    expect(pool.book.carryOut('New', { settings: { inset: 1 } })).toContain('forget one');
    expect(pool.book.carryOut('New', { rename: 'Newer' })).toContain('forget one');
    expect(pool.book.carryOut('Hall 7', { settings: { inset: 1 } })).toBeNull();
    pool.book.carryOut('Hall 8', { forget: true });
    expect(pool.book.carryOut('New', { settings: { inset: 1 } })).toBeNull();
  });
});

describe('[screens] the coach’s list', () => {
  test('has all screens by name, numbers in order', () => {
    const pool = new Pool();
    ['Wall', 'Screen 10', 'Screen 9'].forEach((name) => pool.wall(name));
    expect(pool.list()).toEqual(['Screen 9 1', 'Screen 10 1', 'Wall 1']);
  });

  test("of each one's size and what its address asks for", () => {
    const pool = new Pool();
    const wall = pool.wall('Hall', '?flip');
    wall.room({ width: 1080, height: 1920 });
    pool.list();
    expect(pool.book.latest()[0]?.connected).toEqual([{ search: '?flip', room: { width: 1080, height: 1920 } }]);
  });

  test('comes at once at the first news, and at most twice a second', () => {
    const pool = new Pool();
    pool.wall('Hall');
    expect(pool.news).toBe(1);
    for (let n = 0; n < 50; n++) {
      pool.book.carryOut('Hall', { settings: { inset: n % 10 } });
      pool.clock.advance(20);
    }
    expect(pool.news).toBeLessThanOrEqual(3);
    pool.clock.advance(500);
    expect(pool.book.latest()[0]?.settings.inset).toBe(9);
  });
});

describe('[screens] an impossible wish is refused with a sentence', () => {
  const full = () => {
    const settings = { ...FIRST_SETTINGS, inset: 0 };
    return new Pool(Array.from({ length: 100 }, (_, n) => ({ name: `Hall ${n}`, settings, formerly: [] })));
  };

  test('a taken name, a screen that is gone, a connected one, one too many', () => {
    const pool = new Pool();
    pool.wall('Hall');
    pool.wall('Gym');
    expect(pool.book.carryOut('Hall', { rename: 'Gym' })).toBe('There is a screen “Gym” already: choose another name.');
    expect(pool.book.carryOut('Pub', { rename: 'Gym' })).toBe('There is no screen “Pub” any more.');
    expect(pool.book.carryOut('Hall', { forget: true })).toBe(
      '“Hall” is connected: forget it once it is switched off.',
    );
    const other = full();
    other.wall('New');
    const tooMany = 'A hundred screens are remembered: forget one of them first.';
    expect(other.book.carryOut('New', { settings: { inset: 1 } })).toBe(tooMany);
    expect(other.book.carryOut('New', { rename: 'Newer' })).toBe(tooMany);
  });

  test('any of a hundred screens may be renamed, or set back to the first settings, and then does not count', () => {
    const pool = full();
    expect(pool.book.carryOut('Hall 7', { rename: 'Gym' })).toBeNull();
    expect(pool.book.carryOut('Hall 8', { settings: { inset: FIRST_SETTINGS.inset } })).toBeNull();
    pool.wall('New');
    expect(pool.book.carryOut('New', { settings: { inset: 1 } })).toBeNull();
  });
});

describe('[screens] listeners', () => {
  test('all hear that screens show their names, until they stop listening', () => {
    const { book } = new Pool();
    const heard: string[] = [];
    const stop = book.onWhich(() => heard.push('one'));
    book.onWhich(() => heard.push('two'));
    book.which();
    stop();
    book.which();
    expect(heard).toEqual(['one', 'two', 'two']);
  });

  test('hear of news until they stop listening', () => {
    const pool = new Pool();
    let told = 0;
    const stop = pool.book.onNews(() => told++);
    pool.wall('Hall');
    stop();
    pool.clock.advance(1000);
    pool.wall('Gym');
    expect(told).toBe(1);
  });

  test('hear within half a second of a screen that goes, is set or has another size', () => {
    const pool = new Pool();
    const wall = pool.wall('Hall');
    pool.list();
    const news = (change: () => void): boolean => {
      const before = pool.book.latest();
      change();
      pool.clock.advance(500);
      return pool.book.latest() !== before;
    };
    expect(news(() => wall.room({ width: 1, height: 2 }))).toBe(true);
    expect(news(() => pool.book.carryOut('Hall', { settings: { inset: 1 } }))).toBe(true);
    expect(news(() => wall.leave())).toBe(true);
    expect(news(() => wall.leave())).toBe(false);
    expect(news(() => pool.book.carryOut('Hall', { forget: true }))).toBe(true);
    expect(news(() => undefined)).toBe(false);
  });

  test('hear the size of a common television for a screen that did not say its own', () => {
    const pool = new Pool();
    pool.book.join(undefined, () => undefined);
    pool.list();
    expect(pool.book.latest()[0]?.connected).toEqual([{ search: '', room: { width: 1920, height: 1080 } }]);
  });
});

describe('[screens] what is kept', () => {
  test('is handed over at each new name, each setting and each screen forgotten, and not otherwise', () => {
    const pool = new Pool();
    const writes = (change: () => void): boolean => {
      const before = pool.kept;
      change();
      return pool.kept !== before;
    };
    let wall: ReturnType<Pool['wall']>;
    expect(writes(() => (wall = pool.wall('Hall')))).toBe(true);
    expect(writes(() => wall.room({ width: 1, height: 2 }))).toBe(false);
    expect(writes(() => pool.wall('Hall'))).toBe(false);
    expect(writes(() => pool.book.carryOut('Hall', { settings: { inset: 1 } }))).toBe(true);
    expect(writes(() => pool.book.carryOut('Hall', { rename: 'Gym' }))).toBe(true);
    expect(writes(() => pool.book.carryOut('Gym', { rename: 'Gym' }))).toBe(false);
    expect(writes(() => pool.book.carryOut('Nobody', { forget: true }))).toBe(false);
  });

  test('has the last 32 screens that nobody has set; connected ones do not count', () => {
    const pool = new Pool();
    const here = pool.wall('Here');
    const gone = Array.from({ length: 33 }, (_, n) => pool.wall(`Noise ${n}`));
    gone.slice(0, 32).forEach((wall) => wall.leave());
    expect(pool.list()).toHaveLength(34);
    gone[32]!.leave();
    expect(pool.list()).toHaveLength(33);
    expect(pool.kept.map(({ name }) => name)).not.toContain('Noise 0');
    here.leave();
    expect(pool.kept.map(({ name }) => name)).not.toContain('Here');
  });

  test('has a renamed screen even if nothing of it was set', () => {
    const pool = new Pool();
    pool.wall('Screen 1').leave();
    pool.book.carryOut('Screen 1', { rename: 'Hall' });
    for (let n = 0; n < 40; n++) pool.wall(`Noise ${n}`).leave();
    expect(pool.kept.map(({ name }) => name)).toContain('Hall');
  });
});
