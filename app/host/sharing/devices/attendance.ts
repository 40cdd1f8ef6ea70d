/*
 * Who is connected through a socket: how many of each role there may be, and whose connections end when a device is
 * thrown out.
 */

import type { Role } from '../../../wire/sharing/joining.ts';
import type { ScreenKind } from '../../../wire/messages.ts';
import type { Further } from '../../deck/telling/screen.ts';
import type { ClockQuality } from '../../../wire/sharing/sharing.ts';
import type { Guest } from '../doors/guest.ts';

/** One connection that has come in. */
export interface Attendant {
  guest(): Guest;
  readonly listener: 'machine' | 'network';
  /** As it introduced itself; null before it has. */
  kind(): ScreenKind | null;
  /** How good its clock is, as it last said; null before it has. */
  clock(): ClockQuality | null;
  /** Says goodbye and hangs up. */
  dismiss(why: string, further?: Further): void;
}

/** Of those that have a key. */
const MOST: Readonly<Record<Role, number>> = { wall: 256, remote: 32, tablet: 8, coach: 8 };

/**
 * A device has one connection, and for a while those that it has lost; of more the oldest is ended. All wall screens of
 * one browser are one device.
 */
const MOST_OF_DEVICE: Readonly<Record<Role, number>> = { wall: 16, remote: 4, tablet: 4, coach: 4 };

export class Attendance {
  /** Oldest first. */
  private readonly present = new Set<Attendant>();
  private readonly changed: () => void;

  /** `changed`: somebody has come or gone. */
  constructor(changed: () => void) {
    this.changed = changed;
  }

  /** Whether there is room for one more of this role from the network; nobody who is there ever makes room. */
  hasRoom({ role, device }: Guest): boolean {
    return device === null || this.count(role) < MOST[role] || this.of(device).length > 0;
  }

  /** Whether anyone is in through the network's listener. */
  hasNetwork(): boolean {
    return [...this.present].some(({ listener }) => listener === 'network');
  }

  /** The returned function says that it has gone. */
  come(attendant: Attendant): () => void {
    const guest = attendant.guest();
    const others = this.of(guest.device);
    const isTooMany = others.length >= MOST_OF_DEVICE[guest.role] || this.count(guest.role) >= MOST[guest.role];
    if (isTooMany) others[0]?.dismiss('This device has connected again.');
    this.present.add(attendant);
    this.changed();
    return () => {
      if (this.present.delete(attendant)) this.changed();
    };
  }

  /** Something that is told of one of them has changed. */
  news(): void {
    this.changed();
  }

  /** Its latest connection; null where it has none. */
  latestOf(device: string): Attendant | null {
    return this.of(device).pop() ?? null;
  }

  dismiss(isMeant: (attendant: Attendant) => boolean, why: string, further?: Further): void {
    for (const each of [...this.present]) if (isMeant(each)) each.dismiss(why, further);
  }

  private count(role: Role): number {
    return [...this.present].filter((each) => each.guest().role === role && each.guest().device !== null).length;
  }

  private of(device: string | null): Attendant[] {
    return device === null ? [] : [...this.present].filter((each) => each.guest().device === device);
  }
}
