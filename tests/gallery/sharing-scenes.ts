/*
 * Sharing under Screens, in each of its states. The page is told of them in place of a host that shares, so that no
 * network has to be lost for it.
 */

import type { BrowserContext } from 'playwright';
import type { FromHost } from '../../app/wire/messages.ts';
import type { SharedDevice, SharingTold } from '../../app/wire/sharing/sharing.ts';
import { button } from '../support/coach/coach-hand.ts';
import type { Scene } from './scene.ts';

const HERE = { address: '192.168.1.20', name: 'wlan0' };
const ADDRESS = 'http://192.168.1.20:7525/';
const LETTERS = 'K7M2Q9XW4TB3N8R5HCJD';

const OFF: SharingTold = {
  state: 'off',
  address: null,
  choices: [HERE],
  nobodyCame: false,
  showing: 0,
  code: null,
  devices: [],
  mayLetIn: true,
  fault: null,
};
const ON: SharingTold = { ...OFF, state: 'open', address: ADDRESS };

function device(id: string, role: SharedDevice['role'], name: string, more: Partial<SharedDevice> = {}): SharedDevice {
  const usual = { connected: true, clock: 'good', isNew: false, isYours: false, mayThrowOut: true } as const;
  return { id: id.repeat(16), role, name, ...usual, ...more };
}

const DEVICES = [
  device('a', 'wall', 'Wall 1'),
  device('b', 'remote', 'Remote 1', { isNew: true }),
  device('c', 'tablet', 'Tablet 1', { connected: false, clock: null }),
];

const OTHER = { address: '10.0.0.7', name: 'eth0' };

export const SHARING_SCENES: readonly Scene[] = [
  scene('off', OFF),
  scene('several addresses', { ...OFF, choices: [HERE, OTHER] }),
  scene('no network', { ...OFF, choices: [] }),
  scene('a television waits', { ...ON, showing: 1 }),
  scene('a code shown', {
    ...ON,
    code: { role: 'remote', address: `${ADDRESS}remote#${LETTERS}`, letters: LETTERS, left: 97_000 },
  }),
  scene('devices in', { ...ON, devices: DEVICES }),
  scene('nobody came', { ...ON, nobodyCame: true }),
  scene('address lost', { ...ON, state: 'lost', choices: [], devices: DEVICES }),
  scene('another address', { ...ON, state: 'ask', choices: [OTHER] }),
];

function scene(name: string, told: SharingTold): Scene {
  return {
    name: `sharing, ${name}`,
    session: null,
    commands: [],
    at: 1,
    screens: ['coach'],
    fresh: true,
    told: { say: 'sharing', sharing: told },
    async prepare(coach) {
      await button(coach, /^Screens/).click();
      await coach.getByRole('region', { name: 'Sharing', exact: true }).waitFor();
      // Where it is asked for by its button, it comes into sight by itself.
      if (told.code) await coach.getByRole('img', { name: /^Code for/ }).scrollIntoViewIfNeeded();
    },
  };
}

/** Every page of the context hears this right after its first snapshot, and no other message of its kind. */
export async function tellPages(context: BrowserContext, told: FromHost): Promise<void> {
  await context.routeWebSocket(/\/deck$/, (page) => {
    const host = page.connectToServer();
    host.onMessage((message) => {
      const { say } = JSON.parse(String(message)) as { say: string };
      if (say !== told.say) page.send(message);
      if (say === 'snapshot') page.send(JSON.stringify(told));
    });
  });
}
