/* What a link says and hears of wall screens by name. */

import { describe, expect, test } from 'vitest';
import { FIRST_SETTINGS } from '../../../../app/core/screen/screen-settings.ts';
import { FakeHost, live } from '../fake-host.ts';

describe('[screens] wall screens', () => {
  const HALL = { name: 'Hall', settings: FIRST_SETTINGS };

  test('a wall introduces itself with every hello, as it is by then', () => {
    const host = new FakeHost();
    let name: string | null = null;
    const introduce = () => ({ name, search: '?flip', room: { width: 1920, height: 1080 } });
    host.open('wall', introduce);
    host.pass(100);
    name = 'Hall';
    host.cut();
    host.pass(5000);
    expect(host.heard.filter(({ say }) => say === 'hello')).toMatchObject([
      { wall: { name: null, search: '?flip' } },
      { wall: { name: 'Hall' } },
    ]);
  });

  test('what it is called and how it is set is known as soon as the host says so', () => {
    const { host, link } = live();
    host.send({ say: 'screen', ...HALL });
    host.pass(10);
    expect(link.store.getState().screen).toEqual(HALL);
  });

  test('the coach has the latest list', () => {
    const { host, link } = live();
    host.send({ say: 'screens', screens: [{ ...HALL, connected: [] }] });
    host.send({ say: 'screens', screens: [] });
    host.pass(10);
    expect(link.store.getState().wallScreens).toEqual([]);
  });

  test('names are shown for five seconds, and for five more where it is asked again', () => {
    const { host, link } = live();
    const isNaming = (): boolean => link.store.getState().naming;
    host.send({ say: 'which' });
    host.pass(3000);
    host.send({ say: 'which' });
    host.pass(4900);
    expect(isNaming()).toBe(true);
    host.pass(200);
    expect(isNaming()).toBe(false);
  });

  test('a wish is answered as a command is, and given again where the link broke before that', async () => {
    const { host, link } = live();
    const answer = link.wish('Hall', { rename: 'Gym' });
    host.pass(10);
    host.cut();
    host.pass(3000);
    const given = host.heard.filter((message) => message.say === 'screen');
    expect(given.map(({ name, wish }) => [name, wish])).toEqual([
      ['Hall', { rename: 'Gym' }],
      ['Hall', { rename: 'Gym' }],
    ]);
    expect(given[0]!.id).toBe(given[1]!.id);
    host.send({ say: 'answer', id: given[0]!.id, ok: false, at: null, why: 'There is a screen “Gym” already.' });
    host.pass(10);
    expect(await answer).toEqual({ ok: false, at: null, why: 'There is a screen “Gym” already.' });
  });

  test('another size and the question which is which are said over a connection, and not kept for the next', () => {
    const { host, link } = live();
    link.room({ width: 1080, height: 1920 });
    link.which();
    host.pass(10);
    expect([host.count('room'), host.count('which')]).toEqual([1, 1]);
    host.cut();
    link.room({ width: 1, height: 1 });
    link.which();
    host.pass(5000);
    expect([host.count('room'), host.count('which')]).toEqual([1, 1]);
  });
});
