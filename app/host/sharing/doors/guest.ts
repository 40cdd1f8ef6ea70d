/*
 * Who is on a connection, and what they may do. It goes by the listener that the connection came to and by the key that
 * it proved, never by what a `hello` says: that can only say less.
 */

import type { Role } from '../../../wire/sharing/joining.ts';
import type { ScreenKind } from '../../../wire/messages.ts';
import type { Rate } from '../../web/limits/token-bucket.ts';

export interface Guest {
  readonly role: Role;
  /** As the coach calls the device, and as the journal keeps it. */
  readonly name: string;
  /** Names the key that it has proved; null for a page or window of this machine that needs none. */
  readonly device: string | null;
}

/** Who gives a command, and on what kind of screen. */
export interface Commander extends Guest {
  readonly kind: Exclude<ScreenKind, 'wall'>;
}

/** A page or window of this machine that needs no key: it is the coach's, whatever it shows. */
export const THIS_MACHINE: Guest = { role: 'coach', name: 'this machine', device: null };

/** Who gives a command where nobody is named. */
export const COACH_HERE: Commander = { ...THIS_MACHINE, kind: 'desk' };

/** A page of this machine that needs a key and has none: it may look, as a wall screen does. */
export const KEYLESS: Guest = { role: 'wall', name: 'this machine', device: null };

/** As what a guest may introduce itself. */
export function mayBe({ role, device }: Guest, kind: ScreenKind): boolean {
  if (role === 'coach') return device === null || kind === 'desk';
  return kind === (role === 'tablet' ? 'desk' : role);
}

/** The commands of a remote. */
const OF_REMOTE: readonly unknown[] = [
  'start',
  'stop',
  'resume',
  'rejoin',
  'skip',
  'sit-out',
  'repeat',
  'shift',
  'interval',
  'mark',
  'move-on',
  'undo',
];

/** Whether a guest may give this command, which nobody has read yet. */
export function mayCommand({ role }: Guest, fields: Readonly<Record<string, unknown>>): boolean {
  if (role === 'wall') return false;
  return role !== 'remote' || OF_REMOTE.includes(fields['do']);
}

/** How many commands a guest may give, a Stop apart; null for as many as messages. */
export function commandRate({ role }: Guest): Rate | null {
  return role === 'remote' ? { perSecond: 4, burst: 8 } : null;
}

/** Whether a guest's undo takes back its own commands only. */
export function undoesOwnOnly({ role }: Guest): boolean {
  return role === 'remote';
}

/** Whether a guest may let others in, share and stop sharing. */
export function mayLetIn({ role }: Guest): boolean {
  return role === 'coach';
}

/** Why a guest may not throw this device out; null where it may. */
export function whyNotThrowOut(
  guest: Guest,
  { id, role }: { readonly id: string; readonly role: Role },
): string | null {
  if (guest.device === id) return OWN_PAGE;
  return guest.role === 'tablet' && role === 'coach' ? COACHES_PAGE : null;
}

const OWN_PAGE = 'That is the page you are on: throw it out from another one, or stop sharing.';
const COACHES_PAGE = 'That is the coach’s page: a tablet does not throw it out.';

/** Under what the answers to its commands are remembered: the coach's pages of this machine are one, each device is another. */
export function askerOf({ role, device, kind }: Pick<Commander, 'role' | 'device' | 'kind'>): string {
  return role === 'coach' ? kind : (device ?? kind);
}
