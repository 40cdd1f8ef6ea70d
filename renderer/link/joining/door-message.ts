/*
 * What the host says to a page that is not in yet.
 */

import { fromDoor, type FromDoor } from '../../../app/wire/sharing/joining.ts';

/** Null for anything else. Never throws. */
export function hearDoor(text: string): FromDoor | null {
  try {
    const read = fromDoor.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** Why the host hangs up, as the link hears it of everybody. `again`: the screen has to be let in again. */
export function goodbye(why: string, again?: true): string {
  return JSON.stringify({ say: 'bye', why, again });
}
