/*
 * A page that comes to the door of a real host: a socket from any address of this machine, with all that went over it,
 * and what it says once it is let in.
 */

import { randomBytes } from 'node:crypto';
import { WebSocket } from 'ws';
import {
  fromDoor,
  JOINING_VERSION,
  SOCKETS,
  type FromDoor,
  type FromJoiner,
} from '../../../../app/wire/sharing/joining.ts';
import { WIRE_VERSION, type FromHost, type FromScreen } from '../../../../app/wire/messages.ts';
import type { KeyGiven } from '../../../../app/wire/sharing/joining.ts';
import type { SharingTold, SharingWish } from '../../../../app/wire/sharing/sharing.ts';
import { openedKey } from '../../../../app/wire/sealing/given-key.ts';
import { proofOf } from '../../../../app/wire/sealing/proof.ts';
import { sealedEnd, type SealedEnd } from '../../../../app/wire/sealing/sealed-channel.ts';
import { readFromHost } from '../from-host.ts';

export interface Comer {
  /** Address and port of the host. */
  readonly host: string;
  /** The address that it comes from. */
  readonly from?: string;
  readonly socket?: keyof typeof SOCKETS;
}

/** What one frame was, as it went over the air once it is unmasked. */
export type Frame = string | Buffer;

export class DoorSocket {
  readonly host: string;
  /** All that went over it, in both directions. */
  readonly went: Frame[] = [];
  private readonly socket: WebSocket;
  private readonly waiting: Frame[] = [];
  private readonly wakes = new Set<() => void>();
  private end: SealedEnd | null = null;
  private sharing: SharingTold | null = null;
  private isClosed = false;

  private constructor(host: string, socket: WebSocket) {
    this.host = host;
    this.socket = socket;
    socket.on('message', (data: Buffer, isBinary: boolean) => {
      const frame = isBinary ? data : data.toString('utf8');
      this.went.push(frame);
      this.waiting.push(frame);
      this.wake();
    });
    socket.on('error', () => undefined);
    socket.on('close', () => {
      this.isClosed = true;
      this.wake();
    });
  }

  /** Resolves when it is open; rejects where the host refuses it. */
  static open({ host, from, socket = 'deck' }: Comer): Promise<DoorSocket> {
    const address = from === undefined ? {} : { localAddress: from };
    const opening = new WebSocket(`ws://${host}${SOCKETS[socket]}`, { origin: `http://${host}`, ...address });
    const opened = new DoorSocket(host, opening);
    return new Promise((resolve, reject) => {
      opening.once('open', () => resolve(opened));
      opening.once('error', reject);
    });
  }

  say(message: FromJoiner): void {
    this.send(JSON.stringify(message));
  }

  send(frame: string | Uint8Array): void {
    this.went.push(typeof frame === 'string' ? frame : Buffer.from(frame));
    this.socket.send(frame);
  }

  /** Once inside. */
  tell(message: FromScreen): void {
    const text = JSON.stringify(message);
    this.send(this.end ? this.end.seal(text) : text);
  }

  /** The next frame; null where the host hangs up first. */
  async next(): Promise<Frame | null> {
    for (;;) {
      const frame = this.waiting.shift();
      if (frame !== undefined) return frame;
      if (this.isClosed) return null;
      await new Promise<void>((resolve) => this.wakes.add(resolve));
    }
  }

  /** What the door says next; null where it hangs up. */
  async heard(): Promise<FromDoor | null> {
    const frame = await this.next();
    return typeof frame === 'string' ? fromDoor.parse(JSON.parse(frame)) : null;
  }

  /** The first message of this kind that passes; rejects where the host hangs up. */
  async hears<Say extends FromHost['say']>(
    say: Say,
    passes: (message: Extract<FromHost, { say: Say }>) => boolean = () => true,
  ): Promise<Extract<FromHost, { say: Say }>> {
    for (;;) {
      const frame = await this.next();
      if (frame === null) throw new Error(`The host has hung up, and said no ${say}.`);
      const text = typeof frame === 'string' ? frame : this.end!.open(frame);
      const message = text === null ? null : readFromHost(text);
      if (message?.say === 'sharing') this.sharing = message.sharing;
      if (message?.say === say && passes(message as Extract<FromHost, { say: Say }>)) {
        return message as Extract<FromHost, { say: Say }>;
      }
    }
  }

  /** Resolves when the host has hung up. */
  async closed(): Promise<void> {
    while ((await this.next()) !== null);
  }

  /** Nothing more is read of what the host sends. */
  stopReading(): void {
    this.socket.pause();
  }

  close(): void {
    this.socket.terminate();
  }

  /** As a page joins by a code; null where it is turned away. */
  async join(code: string): Promise<KeyGiven | null> {
    const nonces = await this.ask((nonce) => ({ say: 'join', version: JOINING_VERSION, nonce }));
    if (!nonces) return null;
    this.say({ say: 'proof', mac: proofOf({ say: 'join', code }, nonces, this.host) });
    const answer = await this.heard();
    const given = answer?.say === 'key' ? openedKey(answer.sealed, code, nonces) : null;
    if (given) this.end = sealedEnd('screen', given.key, nonces);
    return given;
  }

  /** As a page comes back with its key; false where it is turned away. */
  async comeBack({ id, key }: Pick<KeyGiven, 'id' | 'key'>): Promise<boolean> {
    const nonces = await this.ask((nonce) => ({ say: 'return', version: JOINING_VERSION, id, nonce }));
    if (!nonces) return false;
    this.say({ say: 'proof', mac: proofOf({ say: 'return', id, key }, nonces, this.host) });
    const frame = await this.next();
    if (frame === null || typeof frame === 'string') return false;
    this.end = sealedEnd('screen', key, nonces);
    return this.end.open(frame) === '{"say":"welcome"}';
  }

  hello(screen: 'desk' | 'wall' | 'remote'): void {
    this.tell({ say: 'hello', version: WIRE_VERSION, screen });
  }

  /** What the coach wants of sharing; rejects with the sentence where that cannot be. */
  async wish(wish: SharingWish): Promise<void> {
    const id = randomBytes(8).toString('hex');
    this.tell({ say: 'sharing', id, wish });
    const { ok, why } = await this.hears('answer', (answer) => answer.id === id);
    if (!ok) throw new Error(why ?? 'refused');
  }

  /** How sharing stands, once it stands so. */
  async told(passes: (told: SharingTold) => boolean): Promise<SharingTold> {
    if (this.sharing && passes(this.sharing)) return this.sharing;
    return (await this.hears('sharing', ({ sharing }) => passes(sharing))).sharing;
  }

  /** A new code for one device; only the coach's page of the host's own machine is told it. */
  async newCode(role: 'remote' | 'tablet' = 'remote'): Promise<string> {
    const before = this.sharing?.code?.letters;
    await this.wish({ do: 'show-code', role });
    return (await this.told(({ code }) => code !== null && code.letters !== before)).code!.letters;
  }

  private async ask(first: (nonce: string) => FromJoiner): Promise<{ screen: string; host: string } | null> {
    const screen = randomBytes(16).toString('hex');
    this.say(first(screen));
    const answer = await this.heard();
    return answer?.say === 'prove' ? { screen, host: answer.nonce } : null;
  }

  private wake(): void {
    for (const resolve of this.wakes) resolve();
    this.wakes.clear();
  }
}
