/*
 * How sharing stands, as a host would tell it.
 */

import type { SharedDevice, SharingTold } from '../../../../app/wire/sharing/sharing.ts';

export function told(more: Partial<SharingTold> = {}): SharingTold {
  return {
    state: 'open',
    address: 'http://192.168.1.20:7525/',
    choices: [{ address: '192.168.1.20', name: 'wlan0' }],
    nobodyCame: false,
    showing: 0,
    code: null,
    devices: [],
    mayLetIn: true,
    fault: null,
    ...more,
  };
}

export const OFF: SharingTold = told({ state: 'off', address: null });

export const TWO_ADDRESSES: SharingTold['choices'] = [
  { address: '192.168.1.20', name: 'wlan0' },
  { address: '10.0.0.7', name: 'eth0' },
];

export function device(more: Partial<SharedDevice> = {}): SharedDevice {
  return {
    id: 'a'.repeat(16),
    role: 'remote',
    name: 'Phone 1',
    connected: true,
    clock: 'good',
    isNew: false,
    isYours: false,
    mayThrowOut: true,
    ...more,
  };
}
