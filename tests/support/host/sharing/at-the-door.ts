/*
 * Somebody at the door of a host that shares: a connection without a network, and what a page does there.
 */

import { createHash } from 'node:crypto';
import type { ScreenChannel } from '../../../../app/host/deck/telling/screen.ts';
import type { Chance } from '../../../../app/host/sharing/chance.ts';
import { openDoorBook, type OpenDoorBook } from '../../../../app/host/sharing/door-book.ts';
import type { Line, Visit } from '../../../../app/host/sharing/doors/door.ts';
import type { Guest } from '../../../../app/host/sharing/doors/guest.ts';
import {
  fromDoor,
  JOINING_VERSION,
  type CodePage,
  type FromDoor,
  type FromJoiner,
  type KeyGiven,
} from '../../../../app/wire/sharing/joining.ts';
import type { Nonces } from '../../../../app/wire/sealing/derived-key.ts';
import { openedKey } from '../../../../app/wire/sealing/given-key.ts';
import { proofOf } from '../../../../app/wire/sealing/proof.ts';
import { sealedEnd, type SealedEnd } from '../../../../app/wire/sealing/sealed-channel.ts';
import { FakeClock } from '../../clock/fake-clock.ts';
import { FakeDisk } from '../folders/fake-disk.ts';

export const HOST = '192.168.1.20:7525';

/** The same bytes and numbers each time, none of them twice. */
export function fakeChance(): Chance {
  let n = 0;
  const bytes = (count: number): Uint8Array => {
    const blocks = Array.from({ length: Math.ceil(count / 32) }, () => createHash('sha256').update(`${n++}`).digest());
    return Buffer.concat(blocks).subarray(0, count);
  };
  return { bytes, below: (limit) => Buffer.from(bytes(4)).readUInt32BE() % limit };
}

/** A host's doors, on a disk that may be another's before it. */
export async function doors({ disk = new FakeDisk(), clock = new FakeClock(), chance = fakeChance() } = {}) {
  const told: { devices: string | null; visitors: string | null } = { devices: null, visitors: null };
  const book = await openDoorBook({
    disk,
    folder: '/data',
    guard: { check: () => Promise.resolve(), checkNow: () => undefined },
    clock,
    timers: clock.timers,
    chance,
    tell: {
      devices: (sentence) => (told.devices = sentence),
      visitors: (sentence) => (told.visitors = sentence),
    },
  });
  const knock = (line: Partial<Pick<Line, 'from' | 'socket' | 'listener' | 'host'>> = {}): Caller =>
    new Caller(book, line);
  return { book, disk, clock, told, knock };
}

/** One connection, as its other end sees it. */
export class Caller {
  /** What the host has sent, in order. */
  readonly frames: (string | Uint8Array)[] = [];
  /** Why the host has hung up; null while it has not. */
  closed: string | null = null;
  /** Who the host takes it for; null until it is let in. */
  guest: Guest | null = null;
  /** What the host has heard from it once inside. */
  readonly heardInside: string[] = [];
  /** For how long it may stay unproven, as last said. */
  lasts: number | null = null;
  /** What carries what the host says to it once it is inside. */
  channel: ScreenChannel | null = null;
  private readonly visit: Visit;
  readonly host: string;

  constructor({ reception }: OpenDoorBook, line: Partial<Pick<Line, 'from' | 'socket' | 'listener' | 'host'>>) {
    this.host = line.host ?? HOST;
    const end = (why: string): void => {
      if (this.closed !== null) return;
      this.closed = why;
      this.visit.gone();
    };
    this.visit = reception.meet(
      {
        from: '192.168.1.33',
        socket: 'deck',
        listener: 'network',
        ...line,
        host: this.host,
        waiting: () => this.frames.length,
        send: (frame, sent) => {
          if (this.closed !== null) throw new Error('The host said something after it had hung up.');
          this.frames.push(frame);
          sent();
        },
        close: end,
        terminate: () => end('terminated'),
      },
      (guest, channel) => {
        if (this.guest) throw new Error('It was let in twice.');
        this.guest = guest;
        this.channel = channel;
        return { receive: (text) => void this.heardInside.push(text) };
      },
      (ms) => (this.lasts = ms),
    );
  }

  say(message: FromJoiner): void {
    this.send(JSON.stringify(message));
  }

  send(frame: string | Uint8Array): void {
    this.visit.receive(frame);
  }

  leave(): void {
    this.visit.gone();
  }

  /** What the host says to it once it is inside. */
  tell(text: string): void {
    this.channel!.send(text, () => undefined);
  }

  /** All that the door has said in plain text. */
  said(): readonly FromDoor[] {
    return this.frames.filter((frame) => typeof frame === 'string').map((text) => fromDoor.parse(JSON.parse(text)));
  }

  last(): FromDoor {
    return this.said().at(-1)!;
  }

  /** The host's goodbye, without its version. */
  bye(): { readonly why: string; readonly again: boolean } | null {
    const last = this.said().at(-1);
    return last?.say === 'bye' ? { why: last.why, again: last.again ?? false } : null;
  }
}

export const SCREENS_NONCE = '00112233445566778899aabbccddeeff';

/** Asks to join or to come back, and hears the host's nonce; null where it is turned away. */
export function ask(
  caller: Caller,
  id: string | null = null,
  screen = SCREENS_NONCE,
  page: CodePage | null = null,
): Nonces | null {
  caller.say(
    id === null
      ? { say: 'join', version: JOINING_VERSION, nonce: screen, ...(page ? { page } : {}) }
      : { say: 'return', version: JOINING_VERSION, id, nonce: screen },
  );
  const last = caller.last();
  return last.say === 'prove' ? { screen, host: last.nonce } : null;
}

export interface Joined {
  readonly given: KeyGiven;
  readonly end: SealedEnd;
}

/** Joins with a code, as a page does; null where it is turned away. */
export function join(caller: Caller, code: string, page: CodePage | null = null): Joined | null {
  const nonces = ask(caller, null, SCREENS_NONCE, page)!;
  caller.say({ say: 'proof', mac: proofOf({ say: 'join', code }, nonces, caller.host) });
  const last = caller.last();
  const given = last.say === 'key' ? openedKey(last.sealed, code, nonces) : null;
  return given && { given, end: sealedEnd('screen', given.key, nonces) };
}

/** Comes back with a key, as a page does; null where it is turned away. */
export function comeBack(caller: Caller, { id, key }: Pick<KeyGiven, 'id' | 'key'>): SealedEnd | null {
  const nonces = ask(caller, id);
  if (!nonces) return null;
  caller.say({ say: 'proof', mac: proofOf({ say: 'return', id, key }, nonces, caller.host) });
  const end = sealedEnd('screen', key, nonces);
  const frame = caller.frames.at(-1)!;
  return typeof frame !== 'string' && end.open(frame) === '{"say":"welcome"}' ? end : null;
}

/** Shows digits, and says which; null where it is turned away. */
export function show(caller: Caller): string | null {
  caller.say({ say: 'show', version: JOINING_VERSION });
  return digitsOn(caller);
}

/** The digits that it shows now. */
export function digitsOn(caller: Caller): string | null {
  const last = caller.last();
  return last.say === 'digits' ? last.digits : null;
}

/** Brings the key of a wall. */
export function look(caller: Caller, key: string): boolean {
  caller.say({ say: 'look', version: JOINING_VERSION, key });
  return caller.last().say === 'welcome';
}
