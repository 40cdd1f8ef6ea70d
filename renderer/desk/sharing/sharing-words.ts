/*
 * What the coach's window calls the devices that were let in, and how they stand.
 */

import type { SharedDevice, SharingTold } from '../../link/store.ts';

const ROLE_NAMES: { readonly [role in SharedDevice['role']]: string } = {
  wall: 'wall screen',
  remote: 'phone',
  tablet: 'tablet',
  coach: 'window on this machine',
};

const CLOCKS: { readonly [clock in NonNullable<SharedDevice['clock']>]: string } = {
  good: 'clock good',
  fair: 'clock fair',
  poor: 'clock poor: nobody should leave on it',
};

export function roleName(role: SharedDevice['role']): string {
  return ROLE_NAMES[role];
}

/** "phone, connected, clock good". */
export function deviceText({ role, connected, clock }: SharedDevice): string {
  const stands = connected ? ['connected', ...(clock === null ? [] : [CLOCKS[clock]])] : ['not connected'];
  // A wall's own name is that of its screen.
  const named = role === 'wall' ? ['renamed in its settings below'] : [];
  return [roleName(role), ...stands, ...named].join(', ');
}

/** What keeps others from coming, and what to do; empty where nothing does. */
export function troubleText({ state, address, choices, nobodyCame }: Omit<SharingTold, 'devices'>): string {
  if (state === 'lost') {
    return `The address ${address ?? 'of this machine'} is gone, perhaps with its Wi-Fi. It is shared again once it is back.`;
  }
  if (state === 'ask') {
    const [other, another] = choices;
    return other && !another
      ? `This machine has another address now, ${other.address}: share on it, or stop sharing.`
      : 'This machine has another address now: choose one, or stop sharing.';
  }
  return state === 'open' && nobodyCame ? 'Nobody has come. This Wi-Fi may keep devices apart: try a hotspot.' : '';
}

/** What the walls do that were connected when sharing was ended. */
export function endedText(devices: readonly SharedDevice[]): string {
  const walls = devices.filter(({ role, connected }) => role === 'wall' && connected).length;
  if (walls === 0) return 'Sharing has ended.';
  const shows = walls === 1 ? 'one wall screen shows' : `${walls} wall screens show`;
  return `Sharing has ended: ${shows} no leaves any more.`;
}

/** The wall screen whose digits were typed; undefined while the host has not told of it. */
export function letInText(screen: Pick<SharedDevice, 'name'> | undefined): string {
  return screen ? `“${screen.name}” is in.` : 'The screen is in.';
}

/** "2 screens show digits now". */
export function showingText(showing: number): string {
  if (showing === 0) return 'No screen shows digits now.';
  return showing === 1 ? 'One screen shows digits now.' : `${showing} screens show digits now.`;
}

/** A device that the coach may not have meant to let in. */
export function newDevices(sharing: SharingTold | null): readonly SharedDevice[] {
  return sharing?.devices.filter(({ isNew, role }) => isNew && (role === 'remote' || role === 'tablet')) ?? [];
}

/** Of one device that is new, or of several whose names are on buttons beside it. */
export function arrivedText(arrived: readonly SharedDevice[]): string {
  const [first, another] = arrived;
  if (!first || another) return `${arrived.length} devices are in. Not yours?`;
  return `A ${roleName(first.role)} is in: “${first.name}”. Not yours?`;
}
