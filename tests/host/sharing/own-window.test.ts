/* The desktop program's own window shares and stops sharing over its own channel, and needs no key for it. */

import { get } from 'node:http';
import { expect, test } from 'vitest';
import { connectScreen } from '../../../app/host/deck/telling/screen.ts';
import { THIS_MACHINE } from '../../../app/host/sharing/doors/guest.ts';
import { systemClock } from '../../../app/host/time/clock.ts';
import { WIRE_VERSION, type FromHost, type FromScreen } from '../../../app/wire/messages.ts';
import { readFromHost } from '../../support/host/from-host.ts';
import { SharedDeck } from '../../support/host/deck/shared-deck.ts';

/** The status of the pages on the network; null where nothing listens. */
function onNetwork(deck: SharedDeck): Promise<number | null> {
  return new Promise((resolve) => {
    get(`http://${deck.network}/`, { agent: false }, (response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    }).on('error', () => resolve(null));
  });
}

test('[sharing] the desktop program’s window shares and stops, with no key and no other window', async () => {
  const deck = await SharedDeck.start({ isServed: false });
  const heard: FromHost[] = [];
  const ends: string[] = [];
  const carrier = {
    isOwnWindow: true,
    waiting: () => 0,
    send: (text: string, sent: () => void) => {
      heard.push(readFromHost(text)!);
      sent();
    },
    close: (why: string) => void ends.push(why),
    terminate: () => void ends.push('terminated'),
  };
  const window = connectScreen(deck.host, systemClock(), carrier, THIS_MACHINE, deck.shared.company);
  const say = (message: FromScreen): void => window.receive(JSON.stringify(message));
  const answered = async (id: string): Promise<string | null> => {
    const found = () => heard.find((message) => message.say === 'answer' && message.id === id);
    await expect.poll(found).toBeDefined();
    const answer = found()!;
    return answer.say === 'answer' ? answer.why : null;
  };
  say({ say: 'hello', version: WIRE_VERSION, screen: 'desk' });
  expect(await onNetwork(deck)).toBeNull();
  say({ say: 'sharing', id: 'on', wish: { do: 'share', address: null } });
  expect(await answered('on')).toBeNull();
  expect(await onNetwork(deck)).toBe(200);
  say({ say: 'sharing', id: 'window', wish: { do: 'another-window' } });
  expect(await answered('window')).toBe('Another window is for browsers: this program has its own.');
  say({ say: 'sharing', id: 'off', wish: { do: 'stop-sharing' } });
  expect(await answered('off')).toBeNull();
  expect(await onNetwork(deck)).toBeNull();
  expect([ends, heard.some((message) => message.say === 'own-key')]).toEqual([[], false]);
  window.gone();
  await deck.close();
});
