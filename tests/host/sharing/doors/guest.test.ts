/* Who may say and do what, by how they were let in, on screens that talk with a real host. */

import { describe, expect, test } from 'vitest';
import { DeckHost } from '../../../../app/host/deck/deck-host.ts';
import { connectScreen } from '../../../../app/host/deck/telling/screen.ts';
import { KEYLESS, THIS_MACHINE, type Guest } from '../../../../app/host/sharing/doors/guest.ts';
import { WIRE_VERSION, type FromHost, type ScreenKind } from '../../../../app/wire/messages.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';
import { readFromHost } from '../../../support/host/from-host.ts';
import { JournalInMemory } from '../../../support/host/folders/journal-in-memory.ts';

const WALL: Guest = { role: 'wall', name: 'Hall', device: 'aaaaaaaaaaaaaaaa' };
const REMOTE: Guest = { role: 'remote', name: 'Phone 1', device: 'bbbbbbbbbbbbbbbb' };
const OTHER_REMOTE: Guest = { role: 'remote', name: 'Phone 2', device: 'cccccccccccccccc' };
const TABLET: Guest = { role: 'tablet', name: 'Tablet 1', device: 'dddddddddddddddd' };
const COACH: Guest = { role: 'coach', name: 'this machine', device: 'eeeeeeeeeeeeeeee' };

class Pool {
  readonly clock = new FakeClock();
  readonly journal = new JournalInMemory();
  readonly host = new DeckHost({
    clock: this.clock,
    timers: this.clock.timers,
    journal: this.journal,
    newId: () => 'run',
  });

  static async open(): Promise<Pool> {
    const pool = new Pool();
    await pool.host.open({ text: 'Squad\n8 x 50 @ 1:00\n', lanesText: null }, { replace: false });
    return pool;
  }

  come(guest: Guest, kind: ScreenKind) {
    const heard: FromHost[] = [];
    const ends: string[] = [];
    const screen = connectScreen(
      this.host,
      this.clock,
      {
        isOwnWindow: false,
        waiting: () => 0,
        send: (text) => void heard.push(readFromHost(text)!),
        close: (why) => void ends.push(why),
        terminate: () => undefined,
      },
      guest,
    );
    screen.receive(JSON.stringify({ say: 'hello', version: WIRE_VERSION, screen: kind }));
    let n = 0;
    const give = async (fields: object, id = `${guest.device}-${n++}`): Promise<string | null> => {
      screen.receive(JSON.stringify({ say: 'command', id, command: fields }));
      for (let turn = 0; turn < 20; turn++) await Promise.resolve();
      const answer = heard.filter((each) => each.say === 'answer').at(-1);
      return ends[0] ?? answer!.why;
    };
    return { heard, ends, give, screen };
  }

  commands(): unknown[] {
    return this.host.snapshot().run!.commands.map(({ command }) => command['do']);
  }
}

describe('[who may what] a hello', () => {
  test.each([
    ['a wall of the network', WALL, ['wall']],
    ['a remote', REMOTE, ['remote']],
    ['a tablet', TABLET, ['desk']],
    ['a page of this machine with a key', COACH, ['desk']],
    ['a page of this machine that needs none', THIS_MACHINE, ['desk', 'wall', 'remote']],
    ['a page of this machine that needs one and has none', KEYLESS, ['wall']],
  ] as const)('of %s is taken only as what it was let in as', async (_, guest, kinds) => {
    const pool = await Pool.open();
    for (const kind of ['desk', 'wall', 'remote'] as const) {
      const { ends } = pool.come(guest, kind);
      expect([kind, ends.length === 0]).toEqual([kind, (kinds as readonly string[]).includes(kind)]);
    }
  });
});

describe('[who may what] commands', () => {
  test('a remote is refused those of the coach’s window, in a sentence, and stays', async () => {
    const pool = await Pool.open();
    const remote = pool.come(REMOTE, 'remote');
    for (const name of ['finish', 'restart', 'rewrite', 'cut', 'go-to', 'lane-out', 'lane-in', 'swimmers', 'gap', 7]) {
      expect([name, await remote.give({ do: name })]).toEqual([
        name,
        'A remote cannot do that: use the coach’s window.',
      ]);
      pool.clock.advance(1000);
    }
    expect(await remote.give({ do: 'start' })).toBeNull();
    expect(pool.commands()).toEqual(['start']);
  });

  test('a tablet gives every one of them', async () => {
    const pool = await Pool.open();
    const tablet = pool.come(TABLET, 'desk');
    expect(await tablet.give({ do: 'start' })).toBeNull();
    expect(await tablet.give({ do: 'finish' })).toBeNull();
  });

  test('a wall that gives one is hung up on', async () => {
    const pool = await Pool.open();
    const wall = pool.come(WALL, 'wall');
    expect(await wall.give({ do: 'start' })).toBe('This screen may not say that.');
    expect(pool.commands()).toEqual([]);
  });

  test('a remote gives four a second, eight at once, and a Stop whatever came before', async () => {
    const pool = await Pool.open();
    const remote = pool.come(REMOTE, 'remote');
    await remote.give({ do: 'start' });
    for (let each = 0; each < 7; each++) expect(await remote.give({ do: 'mark' })).toBeNull();
    expect(await remote.give({ do: 'mark' })).toBe('Too many commands at once: wait a second.');
    expect(await remote.give({ do: 'stop' })).toBeNull();
    pool.clock.advance(249);
    expect(await remote.give({ do: 'mark' })).not.toBeNull();
    pool.clock.advance(1);
    expect(await remote.give({ do: 'mark' })).toBeNull();
  });

  test('a remote gives no more where it hangs up and comes back, and another as many as ever', async () => {
    const pool = await Pool.open();
    const remote = pool.come(REMOTE, 'remote');
    for (let each = 0; each < 8; each++) await remote.give({ do: 'start' });
    remote.screen.gone();
    const [again, other] = [pool.come(REMOTE, 'remote'), pool.come(OTHER_REMOTE, 'remote')];
    expect(await again.give({ do: 'mark' }, 'again')).toBe('Too many commands at once: wait a second.');
    expect(await again.give({ do: 'stop' }, 'stop')).toBeNull();
    expect(await other.give({ do: 'mark' })).toBeNull();
  });

  test('a device sends no more on four connections than on one, and a Stop whatever came before', async () => {
    const pool = await Pool.open();
    const four = [1, 2, 3, 4].map(() => pool.come(REMOTE, 'remote'));
    for (let n = 0; n < 36; n++) four[n % 4]!.screen.receive(JSON.stringify({ say: 'ping', n, t1: 0 }));
    const other = pool.come(OTHER_REMOTE, 'remote');
    expect(four.flatMap(({ ends }) => ends)).toEqual([]);
    expect(await four[0]!.give({ do: 'stop' }, 'stop')).not.toBe('Too many messages.');
    four[1]!.screen.receive(JSON.stringify({ say: 'ping', n: 36, t1: 0 }));
    four[2]!.screen.nudged();
    expect(four.map(({ ends }) => ends)).toEqual([[], ['Too many messages.'], ['Too many messages.'], []]);
    expect(await other.give({ do: 'start' })).toBeNull();
    pool.clock.advance(50);
    four[3]!.screen.receive(JSON.stringify({ say: 'ping', n: 37, t1: 0 }));
    expect(four[3]!.ends).toEqual([]);
    four[3]!.screen.receive(JSON.stringify({ say: 'ping', n: 38, t1: 0 }));
    expect(four[3]!.ends).toEqual(['Too many messages.']);
  });

  test('the walls of one browser, which are one device, all come back at once; together they have a limit too', async () => {
    const pool = await Pool.open();
    const walls = Array.from({ length: 16 }, () => pool.come(WALL, 'wall'));
    const ping = (n: number) => walls[n % 16]!.screen.receive(JSON.stringify({ say: 'ping', n, t1: 0 }));
    for (let n = 16; n < 320; n++) ping(n);
    expect(walls.flatMap(({ ends }) => ends)).toEqual([]);
    ping(0);
    expect(walls[0]!.ends).toEqual(['Too many messages.']);
  });

  test('a Stop is a message of its connection: no more than forty at once', async () => {
    const pool = await Pool.open();
    const remote = pool.come(REMOTE, 'remote');
    for (let n = 0; n < 39; n++) await remote.give({ do: 'stop' }, `stop ${n}`);
    expect(remote.ends).toEqual([]);
    expect(await remote.give({ do: 'stop' }, 'one more')).toBe('Too many messages.');
  });

  test('a remote’s undo takes back its own, and never another’s', async () => {
    const pool = await Pool.open();
    const [one, two, desk] = [
      pool.come(REMOTE, 'remote'),
      pool.come(OTHER_REMOTE, 'remote'),
      pool.come(THIS_MACHINE, 'desk'),
    ];
    await one.give({ do: 'start' });
    const refused = expect.stringMatching(/^Nothing was undone: the last command was given on another screen/);
    expect(await two.give({ do: 'undo' })).toEqual(refused);
    expect(await one.give({ do: 'undo' })).toBeNull();
    await desk.give({ do: 'start' });
    expect(await one.give({ do: 'undo' })).toEqual(refused);
    expect(await desk.give({ do: 'undo' })).toBeNull();
  });

  test('the coach’s undo takes back anybody’s', async () => {
    const pool = await Pool.open();
    await pool.come(REMOTE, 'remote').give({ do: 'start' });
    expect(await pool.come(TABLET, 'desk').give({ do: 'undo' })).toBeNull();
  });

  test.each([
    [10_000, null],
    [10_001, expect.stringMatching(/^There is nothing to undo: the last command was more than 10 s ago/)],
  ])('the coach’s undo of a remote’s Stop, %i ms after it', async (ms, answer) => {
    const pool = await Pool.open();
    const [remote, desk] = [pool.come(REMOTE, 'remote'), pool.come(THIS_MACHINE, 'desk')];
    await desk.give({ do: 'start' });
    pool.clock.advance(20_000);
    await remote.give({ do: 'stop' });
    pool.clock.advance(ms);
    expect(await desk.give({ do: 'undo' })).toEqual(answer);
    expect(pool.commands()).toEqual(answer === null ? ['start', 'stop', 'undo'] : ['start', 'stop']);
  });
});

describe('[who may what] by whom', () => {
  test('the journal says role and name of each command', async () => {
    const pool = await Pool.open();
    await pool.come(REMOTE, 'remote').give({ do: 'start' });
    await pool.come(THIS_MACHINE, 'remote').give({ do: 'mark' });
    expect(pool.journal.lines.map(({ by }) => by)).toEqual([
      { ...REMOTE, kind: 'remote' },
      { ...THIS_MACHINE, kind: 'remote' },
    ]);
  });

  test('an id that one device has used is another command from another device, and the same from pages of this machine', async () => {
    const pool = await Pool.open();
    await pool.come(REMOTE, 'remote').give({ do: 'start' }, 'a');
    await pool.come(OTHER_REMOTE, 'remote').give({ do: 'mark' }, 'a');
    await pool.come(THIS_MACHINE, 'desk').give({ do: 'stop' }, 'a');
    await pool.come(COACH, 'desk').give({ do: 'stop' }, 'a');
    await pool.come(REMOTE, 'remote').give({ do: 'start' }, 'a');
    expect(pool.commands()).toEqual(['start', 'mark', 'stop']);
  });
});
