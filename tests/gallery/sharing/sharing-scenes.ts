/*
 * Sharing under Screens, in each of its states. The page is told of them in place of a host that shares, so that no
 * network has to be lost for it.
 */

import type { Page } from 'playwright';
import type { SharedDevice, SharingTold } from '../../../app/wire/sharing/sharing.ts';
import { button } from '../../support/coach/coach-hand.ts';
import type { Scene } from '../scene.ts';
import { tellPages } from './told-pages.ts';

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
export const ON: SharingTold = { ...OFF, state: 'open', address: ADDRESS };

export function device(
  id: string,
  role: SharedDevice['role'],
  name: string,
  more: Partial<SharedDevice> = {},
): SharedDevice {
  const usual = { connected: true, clock: 'good', isNew: false, isYours: false, mayThrowOut: true } as const;
  return { id: id.repeat(16), role, name, ...usual, ...more };
}

const DEVICES = [
  device('a', 'wall', 'Wall 1'),
  device('b', 'remote', 'Remote 1', { isNew: true }),
  device('c', 'tablet', 'Tablet 1', { connected: false, clock: null }),
];

const OTHER = { address: '10.0.0.7', name: 'eth0' };

/** As the host answers. */
const LATE = 'No screen shows 4071 now: look at it again.';

export const SHARING_SCENES: readonly Scene[] = [
  scene('off', OFF),
  scene('several addresses', { ...OFF, choices: [HERE, OTHER] }),
  scene('no network', { ...OFF, choices: [] }),
  scene('a television waits', { ...ON, showing: 1 }),
  {
    ...scene('digits late', { ...ON, showing: 1 }, async (coach) => {
      await coach.getByLabel('Type the digits that the screen shows').fill('4071');
      await button(coach, 'Let the screen in').click();
      await coach.getByText(LATE).waitFor();
    }),
    between: (context) => tellPages(context, [{ say: 'sharing', sharing: { ...ON, showing: 1 } }], LATE),
  },
  scene('a code shown', {
    ...ON,
    code: { role: 'remote', address: `${ADDRESS}remote#${LETTERS}`, letters: LETTERS, left: 97_000 },
  }),
  scene('devices in', { ...ON, devices: DEVICES }),
  scene('nobody came', { ...ON, nobodyCame: true }),
  scene('address lost', { ...ON, state: 'lost', choices: [], devices: DEVICES }),
  scene('another address', { ...ON, state: 'ask', choices: [OTHER] }),
];

function scene(name: string, told: SharingTold, then?: (coach: Page) => Promise<void>): Scene {
  return {
    name: `sharing, ${name}`,
    session: null,
    commands: [],
    at: 1,
    screens: ['coach'],
    fresh: true,
    told: [{ say: 'sharing', sharing: told }],
    async prepare(coach) {
      await button(coach, /^Screens/).click();
      await coach.getByRole('region', { name: 'Sharing', exact: true }).waitFor();
      // Where it is asked for by its button, it comes into sight by itself.
      if (told.code) await coach.getByRole('img', { name: /^Code for/ }).scrollIntoViewIfNeeded();
      await then?.(coach);
    },
  };
}
