/*
 * How a socket and what lets people in meet: the socket carries frames and knows where they come from, the doorkeeper
 * says who that is, and what the screen says from then on comes out of it unsealed.
 */

import type { KeyGiven, Role } from '../../../wire/sharing/joining.ts';
import type { ScreenChannel } from '../../deck/telling/screen.ts';
import type { Guest } from './guest.ts';

/** A connection as the socket gives it. */
export interface Line {
  /** The address at which the page sees the host, such as `192.168.1.20:7525`: the Host header, which has been checked. */
  readonly host: string;
  /** The address of the other end. */
  readonly from: string;
  readonly socket: 'deck' | 'wall';
  readonly listener: 'machine' | 'network';
  waiting(): number;
  /** A text frame for a string, else a binary one. Calls back when it has gone or failed. */
  send(frame: string | Uint8Array, sent: () => void): void;
  /** Hangs up with a reason; within 100 ms, whether the other end answers or not. */
  close(why: string): void;
  terminate(): void;
}

/** What the socket does with somebody who has been let in: it makes a screen of it. */
export interface Inside {
  /** A message, unsealed. */
  receive(text: string): void;
}

/** One connection at the door, and behind it. */
export interface Visit {
  /** A frame of the other end, whole. */
  receive(frame: string | Uint8Array): void;
  /** The connection has ended, whichever side ended it. */
  gone(): void;
}

export interface Reception {
  /**
   * A connection has come. `comeIn` is called once, when it has proved who it is: the channel seals what is sent where
   * the role asks for that. `lasts`: in ms, for how long it may stay unproven from now on, such as while its digits are
   * shown; before the first call it is 5 s.
   */
  meet(line: Line, comeIn: (guest: Guest, channel: ScreenChannel) => Inside, lasts: (ms: number) => void): Visit;
}

/** A device that has been let in and not thrown out. */
export interface LetIn {
  readonly id: string;
  readonly role: Role;
  readonly name: string;
  /** When it was let in, in host time; null where that was before this process. */
  readonly since: number | null;
}

/** Why a key is no longer valid. */
export type Voided = 'thrown out' | 'ended' | 'expired';

/** A code as it is shown. */
export interface ShownCode {
  readonly role: 'remote' | 'tablet';
  readonly letters: string;
  /** Host time. */
  readonly until: number;
}

/** The keys, codes and digits, for the coach's window. A sentence where something cannot be done, null where it was. */
export interface DoorBook {
  readonly reception: Reception;
  devices(): readonly LetIn[];
  /** How many walls show digits now. */
  showing(): number;
  letInWall(digits: string): string | null;
  /** A new code for one remote or tablet; the one before is void. */
  showCode(role: ShownCode['role']): ShownCode;
  hideCode(): void;
  code(): ShownCode | null;
  /** The letters of a claim: a page of this machine gets a key for it, once. One that is printed lasts while sharing does. */
  claim(lasts: 'ten minutes' | 'while sharing'): string;
  /** A key for the page that switches sharing on; a sentence where eight pages of this machine are connected with one. */
  ownKey(): KeyGiven | string;
  /** Its connections end at once. Resolves when it is on the disk that its key is void; a sentence where it may come back. */
  throwOut(device: string): Promise<string | null>;
  rename(device: string, name: string): string | null;
  /** Sharing ends: digits, codes, claims and the keys of all but walls are void. Resolves as `throwOut` does. */
  end(): Promise<string | null>;
  /** Calls back when any of the above has changed. */
  onChange(listener: () => void): () => void;
  /** Calls back with a device whose key is no longer valid: its connections must end. */
  onVoided(listener: (device: string, how: Voided) => void): () => void;
}
