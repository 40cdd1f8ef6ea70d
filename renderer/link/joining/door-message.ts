/*
 * What the host says to a page that is not in yet, and where the pages of this machine are.
 */

import { fromDoor, type FromDoor } from '../../../app/wire/joining.ts';

/** Null for anything else. Never throws. */
export function hearDoor(text: string): FromDoor | null {
  try {
    const read = fromDoor.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** Why the host hangs up, as the link hears it of everybody. */
export function goodbye(why: string): string {
  return JSON.stringify({ say: 'bye', why });
}

/** Whether a page was opened on this machine itself, by one of the names that it has for itself. */
export function isThisMachine({ hostname }: Pick<Location, 'hostname'>): boolean {
  return ['localhost', '127.0.0.1', '[::1]'].includes(hostname);
}
