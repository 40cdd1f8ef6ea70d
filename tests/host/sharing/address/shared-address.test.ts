/* The address at which the host shares: what opens it, and what happens when the machine loses it. */

import { networkInterfaces } from 'node:os';
import { describe, expect, test } from 'vitest';
import { likeliestFirst, privateAddresses, systemAddresses } from '../../../../app/host/sharing/address/addresses.ts';
import { SharedAddress } from '../../../../app/host/sharing/address/shared-address.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';

const [WIFI, CABLE] = [
  { address: '192.168.1.20', name: 'wlan0' },
  { address: '10.0.0.5', name: 'eth0' },
] as const;

function machine(...addresses: (typeof WIFI | typeof CABLE)[]) {
  const clock = new FakeClock();
  const open = new Set<string>();
  const goodbyes: string[] = [];
  let refuses: string | null = null;
  const news = { count: 0 };
  const place = new SharedAddress({
    timers: clock.timers,
    addresses: () => [...addresses],
    open(address) {
      if (refuses !== null) return Promise.reject(new Error(refuses));
      open.add(address);
      return Promise.resolve({
        close: (why) => {
          open.delete(address);
          goodbyes.push(why);
          return Promise.resolve();
        },
      });
    },
    changed: () => news.count++,
  });
  const settled = async (): Promise<void> => {
    for (let turn = 0; turn < 20; turn++) await Promise.resolve();
  };
  return {
    clock,
    addresses,
    place,
    news,
    open: () => [...open],
    goodbyes,
    refuse: (why: string | null) => void (refuses = why),
    has: async (...now: (typeof WIFI | typeof CABLE)[]) => {
      addresses.splice(0, addresses.length, ...now);
      clock.advance(2000);
      await settled();
    },
    wait: async (ms: number) => {
      clock.advance(ms);
      await settled();
    },
  };
}

describe('[sharing] addresses', () => {
  const of = (...all: string[]) =>
    privateAddresses({ eth0: all.map((address) => ({ address, family: 'IPv4' }) as never) }).map(
      (each) => each.address,
    );

  test('are private ones of IPv4 alone', () => {
    const good = ['10.0.0.1', '192.168.0.1', '172.16.0.1', '172.20.0.1', '172.31.255.1', '169.254.3.4'];
    expect(of(...good)).toEqual(good);
    expect(of('0.0.0.0', '127.0.0.1', '172.15.0.1', '172.32.0.1', '192.0.2.2', '11.0.0.1', '1.10.0.1')).toEqual([]);
    const six = { address: 'fd00::2', family: 'IPv6' } as never;
    expect(privateAddresses({ wlan0: [six], gone: undefined })).toEqual([]);
    expect(systemAddresses()).toEqual(privateAddresses(networkInterfaces()));
  });

  test('the likeliest to be the pool’s come first', () => {
    const own = { address: '169.254.1.1', name: 'x' };
    const inner = { address: '172.17.0.1', name: 'docker0' };
    expect(likeliestFirst([own, inner, CABLE, WIFI])).toEqual([WIFI, CABLE, inner, own]);
    // It goes by how an address begins alone.
    const alike = ['192.168.169.1', '10.192.168.1', '10.0.172.1', '172.16.10.1', '169.254.10.1'];
    const named = alike.map((address) => ({ address, name: 'x' }));
    expect(
      likeliestFirst([...named].reverse())
        .map(({ address }) => address)
        .sort(),
    ).toEqual([...alike].sort());
    expect(likeliestFirst(named)).toEqual(named);
  });
});

describe('[sharing] opening', () => {
  test('at the only address without being told which', async () => {
    const { place, open } = machine(WIFI);
    expect(await place.share(null)).toBeNull();
    expect([open(), place.state(), place.address()]).toEqual([['192.168.1.20'], 'open', '192.168.1.20']);
  });

  test('at one of several it must be told which, and at none it says what to do', async () => {
    const two = machine(WIFI, CABLE);
    expect(await two.place.share(null)).toMatch(/^This machine is on several networks: choose/);
    expect([two.place.state(), two.place.told().fault]).toEqual(['off', expect.stringMatching(/choose/)]);
    expect(two.news.count).toBe(1);
    expect(await two.place.share('10.0.0.5')).toBeNull();
    expect(two.place.told()).toMatchObject({ state: 'open', fault: null, choices: [WIFI, CABLE] });
    expect(await machine().place.share(null)).toMatch(/^This machine has no address on a private network: connect/);
    expect(await machine().place.share(WIFI.address)).toMatch(/^This machine has no address on a private network/);
    expect(await machine(WIFI).place.share('0.0.0.0')).toMatch(/does not have that address any more/);
  });

  test('at another address closes the first; at the same one changes nothing', async () => {
    const { place, open, goodbyes } = machine(WIFI, CABLE);
    await place.share(WIFI.address);
    expect(await place.share(WIFI.address)).toBeNull();
    expect(goodbyes).toEqual([]);
    await place.share(CABLE.address);
    expect([open(), goodbyes]).toEqual([[CABLE.address], ['Lanecall is no longer shared at this address.']]);
  });

  test('at another address where it cannot listen: the coach is asked, and the first is closed', async () => {
    const { place, open, refuse } = machine(WIFI, CABLE);
    await place.share(WIFI.address);
    refuse('Port 7525 is in use.');
    await place.share(CABLE.address);
    expect([place.told().state, open()]).toEqual(['ask', []]);
  });

  test('where it cannot listen, the reason is told and it stays off', async () => {
    const { place, refuse } = machine(WIFI);
    refuse('Port 7525 is in use.');
    expect(await place.share(null)).toBe('Port 7525 is in use.');
    expect(place.told()).toMatchObject({ state: 'off', fault: 'Port 7525 is in use.' });
    refuse(null);
    await place.share(null);
    expect(place.told()).toMatchObject({ state: 'open', fault: null });
  });
});

describe('[sharing] an address that is lost', () => {
  test('is closed, and opened again by itself once it is back', async () => {
    const { place, open, has } = machine(WIFI);
    await place.share(null);
    await has();
    expect([place.state(), open(), place.address()]).toEqual(['lost', [], WIFI.address]);
    await has(WIFI);
    expect([place.state(), open()]).toEqual(['open', [WIFI.address]]);
  });

  test('for another: the coach is asked, and nothing is opened there unasked', async () => {
    const { place, open, has } = machine(WIFI);
    await place.share(null);
    await has(CABLE);
    expect([place.state(), open()]).toEqual(['ask', []]);
    await has();
    expect(place.state()).toBe('lost');
    await has(CABLE);
    expect(await place.share(CABLE.address)).toBeNull();
    expect([place.state(), open()]).toEqual(['open', [CABLE.address]]);
  });

  test('is tried again where the port is still taken, every two seconds', async () => {
    const { place, has, refuse, wait } = machine(WIFI);
    await place.share(null);
    await has();
    refuse('in use');
    await has(WIFI);
    expect(place.told()).toMatchObject({ state: 'lost', fault: 'in use' });
    refuse(null);
    await wait(2000);
    expect(place.told()).toMatchObject({ state: 'open', fault: null });
  });

  test('is opened at once where the coach shares again there', async () => {
    const { place, open, has, addresses } = machine(WIFI);
    await place.share(null);
    await has();
    addresses.push(WIFI);
    expect(await place.share(null)).toBeNull();
    expect([place.state(), open()]).toEqual(['open', [WIFI.address]]);
  });

  test('is no news any more while nothing changes', async () => {
    const { place, has, news, wait } = machine(WIFI);
    await place.share(null);
    await has(CABLE);
    const before = news.count;
    await wait(10_000);
    expect([place.state(), news.count]).toEqual(['ask', before]);
  });

  test('after the end of sharing is not looked for', async () => {
    const { place, has, open } = machine(WIFI);
    await place.share(null);
    await has();
    await place.stop('enough');
    await has(WIFI);
    expect([place.state(), open(), place.address()]).toEqual(['off', [], null]);
  });

  test('other addresses are news while nothing is shared, too; the same ones are none', async () => {
    const { has, news } = machine(WIFI);
    await has(WIFI);
    expect(news.count).toBe(0);
    await has(WIFI, CABLE);
    expect(news.count).toBe(1);
  });
});

describe('[sharing] nobody', () => {
  test('has come after 30 s: said, until somebody comes from elsewhere', async () => {
    const { place, wait, news } = machine(WIFI);
    expect(place.told().nobodyCame).toBe(false);
    await place.share(null);
    const before = news.count;
    place.visited(WIFI.address);
    await wait(29_999);
    expect([place.told().nobodyCame, news.count]).toEqual([false, before]);
    await wait(1);
    expect([place.told().nobodyCame, news.count]).toEqual([true, before + 1]);
    place.visited('192.168.1.33');
    place.visited('192.168.1.34');
    expect([place.told().nobodyCame, news.count]).toEqual([false, before + 2]);
  });

  test('is not said once a device is in, be it of this very machine', async () => {
    const { place, wait, news } = machine(WIFI);
    await place.share(null);
    await wait(30_000);
    expect(place.told().nobodyCame).toBe(true);
    const before = news.count;
    place.somebodyIsIn();
    expect([place.told().nobodyCame, news.count]).toEqual([false, before + 1]);
  });

  test('is not said where somebody came before, nor once it is closed', async () => {
    const { place, wait, news } = machine(WIFI);
    await place.share(null);
    const before = news.count;
    place.visited('192.168.1.33');
    await wait(30_000);
    expect([place.told().nobodyCame, news.count]).toEqual([false, before]);
    await place.stop('');
    await place.share(null);
    await wait(30_000);
    await place.stop('');
    expect(place.told().nobodyCame).toBe(false);
  });

  test('is waited for anew where sharing ends and begins again', async () => {
    const { place, wait } = machine(WIFI);
    await place.share(null);
    await wait(10_000);
    await place.stop('');
    await place.share(null);
    await wait(29_999);
    expect(place.told().nobodyCame).toBe(false);
  });
});

test('[sharing] once the program ends nothing is looked at any more, and whoever is connected hears why', async () => {
  const { place, clock, goodbyes, open } = machine(WIFI);
  await place.share(null);
  await place.end('The program has ended.');
  expect([open(), goodbyes, clock.pending]).toEqual([[], ['The program has ended.'], 0]);
});
