/*
 * What the switch of sharing knows of a connection, without one: a coach's window that hears how sharing stands, and
 * somebody who is in.
 */

import type { SharingWindow } from '../../../../app/host/deck/telling/company.ts';
import type { Attendant } from '../../../../app/host/sharing/devices/attendance.ts';
import { THIS_MACHINE, type Guest } from '../../../../app/host/sharing/doors/guest.ts';
import type { FromHost } from '../../../../app/wire/messages.ts';

/** A coach's window: who it is by now, and what it hears besides how sharing stands. */
export class Window implements SharingWindow {
  readonly heard: FromHost[] = [];
  who: Guest;

  constructor(who: Guest = THIS_MACHINE) {
    this.who = who;
  }

  readonly guest = (): Guest => this.who;

  say(message: FromHost): void {
    this.heard.push(message);
  }

  become(guest: Guest): void {
    this.who = guest;
  }
}

/** Somebody who is in. `bye` hears why it is hung up on, with “Again.” where it may ask again. */
export function attendant(
  bye: (said: string) => void,
  guest: Guest,
  { listener = 'network', kind = 'desk' }: { listener?: Attendant['listener']; kind?: 'desk' | 'remote' | 'wall' } = {},
): Attendant {
  return {
    listener,
    guest: () => guest,
    kind: () => kind,
    clock: () => 'fair',
    dismiss: (why, again) => bye(again === 'again' ? `${why} Again.` : why),
  };
}
