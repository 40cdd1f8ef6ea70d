/*
 * Who is let in and how: puts the devices, their files, the codes and the digits behind both doors.
 */

import { JOINING_TIME } from '../../wire/sharing/joining.ts';
import type { Clock } from '../time/clock.ts';
import type { Timers } from '../time/timers.ts';
import { systemChance, type Chance } from './chance.ts';
import { Codes } from './doors/codes.ts';
import { keepDevices, type DeviceFilesPorts } from './devices/device-files.ts';
import { Devices } from './devices/devices.ts';
import type { DoorBook, ShownCode } from './doors/door.ts';
import { sealedDoor } from './doors/sealed-door.ts';
import { Visitors } from './doors/visitors.ts';
import { wallDoor } from './doors/wall-door.ts';
import { WallDigits } from './doors/wall-digits.ts';

export interface DoorBookPorts extends Omit<DeviceFilesPorts, 'tell'> {
  readonly clock: Clock;
  readonly timers: Timers;
  readonly chance?: Chance;
  /** For the coach, as long as something cannot be kept; null when it can. */
  readonly tell: { readonly devices: DeviceFilesPorts['tell']; readonly visitors: DeviceFilesPorts['tell'] };
}

export interface OpenDoorBook extends DoorBook {
  /** A sentence for the coach for each file that could not be read. */
  readonly said: readonly string[];
  readonly visitors: Visitors;
  /** Resolves when everything is on the disk, or refused by it. */
  written(): Promise<void>;
}

/** In ms: how long the address of another window is valid. */
const CLAIM_TIME = 600_000;
const MOST_CLAIMS = 8;

const TOO_MANY_WINDOWS = 'Eight windows of the coach are open: close one of them.';

/** With what was kept. Never rejects. */
export async function openDoorBook({ tell, ...ports }: DoorBookPorts): Promise<OpenDoorBook> {
  const { clock, timers, chance = systemChance } = ports;
  const listeners = new Set<() => void>();
  const changed = (): void => {
    for (const listener of listeners) listener();
  };
  const devices = new Devices({ clock, timers, chance }, changed);
  const files = await keepDevices(devices, { ...ports, tell: tell.devices });
  const visitors = new Visitors({ ...ports, tell: tell.visitors });
  const shown = new Codes<ShownCode['role']>({ clock, timers, chance }, 1, changed);
  const claims = new Codes<'coach'>({ clock, timers, chance }, MOST_CLAIMS, changed);
  const digits = new WallDigits({ clock, timers, chance }, changed);
  const atDoors = { devices, visitors, chance, digits };

  return {
    said: files.said,
    visitors,
    written: async () => void (await Promise.all([files.written(), visitors.written()])),
    reception: {
      meet: (line, comeIn, lasts) =>
        line.socket === 'wall'
          ? wallDoor(line, comeIn, lasts, atDoors)
          : sealedDoor(line, comeIn, { ...atDoors, codes: line.listener === 'network' ? shown : claims }),
    },
    devices: () => devices.all(),
    showing: () => digits.count(),
    letInWall: (wanted) => (digits.letIn(wanted) ? null : `No screen shows ${wanted} now: look at it again.`),
    showCode: (role) => shown.make(role, JOINING_TIME),
    hideCode: () => shown.clear(),
    code: () => shown.latest(),
    claim: (lasts) => claims.make('coach', lasts === 'ten minutes' ? CLAIM_TIME : Infinity).letters,
    ownKey: () => devices.letIn('coach') ?? TOO_MANY_WINDOWS,
    throwOut(id) {
      const device = devices.all().find((each) => each.id === id);
      if (device) visitors.note({ what: 'thrown out', role: device.role, name: device.name });
      return devices.throwOut(id);
    },
    rename: (id, name) => devices.rename(id, name),
    end() {
      shown.clear();
      claims.clear();
      return devices.end();
    },
    onChange(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    onVoided: (listener) => devices.onVoided(listener),
  };
}
