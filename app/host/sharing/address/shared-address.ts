/*
 * The one address at which the host listens while it shares. Where the address is lost the listener is closed, and opened
 * again by itself where the same address is back; another one is asked for.
 */

import type { SharingTold } from '../../../wire/sharing/sharing.ts';
import type { Timer, Timers } from '../../time/timers.ts';
import type { Addresses, PrivateAddress } from './addresses.ts';

/** An open listener. */
export interface Listener {
  /** Resolves when no connection is left. */
  close(why: string): Promise<void>;
}

export interface SharedAddressPorts {
  readonly timers: Timers;
  readonly addresses: Addresses;
  /** Rejects where it cannot listen there; the error says why. */
  readonly open: (address: string) => Promise<Listener>;
  readonly changed: () => void;
}

/** In ms: how often the machine's addresses are looked at. */
const LOOK_EVERY = 2000;

/** In ms: where nobody has come by then, the network may keep devices apart. */
const SOMEBODY_WITHIN = 30_000;

const NO_ADDRESS = 'This machine has no address on a private network: connect it to the pool’s network, then share.';
const CHOOSE = 'This machine is on several networks: choose the address of the pool’s.';
const NOT_THERE = 'This machine does not have that address any more: choose another one.';
const LOST = 'Lanecall is no longer shared at this address.';

export class SharedAddress {
  private readonly ports: SharedAddressPorts;
  private listener: Listener | null = null;
  private current: string | null = null;
  private stands: SharingTold['state'] = 'off';
  private fault: string | null = null;
  private seen: readonly PrivateAddress[];
  /** Whether somebody has come since the listener was opened, and whether it is time to say that nobody has. */
  private hasCome = false;
  private isTime = false;
  private look: Timer;
  private patience: Timer | null = null;
  private queue: Promise<unknown> = Promise.resolve();

  constructor(ports: SharedAddressPorts) {
    this.ports = ports;
    this.seen = ports.addresses();
    this.look = this.lookLater();
  }

  state(): SharingTold['state'] {
    return this.stands;
  }

  /** Null while nothing is shared. */
  address(): string | null {
    return this.current;
  }

  told(): Pick<SharingTold, 'state' | 'choices' | 'nobodyCame' | 'fault'> {
    const choices = this.seen.map(({ address, name }) => ({ address, name }));
    return { state: this.stands, choices, nobodyCame: this.isTime && !this.hasCome, fault: this.fault };
  }

  /** Opens at an address; null where there is but one. Resolves with a sentence where that cannot be. */
  share(wanted: string | null): Promise<string | null> {
    return this.inOrder(async () => {
      this.seen = this.ports.addresses();
      const chosen = wanted ?? (this.seen.length === 1 ? this.seen[0]!.address : null);
      if (chosen === null) return this.failed(this.seen.length === 0 ? NO_ADDRESS : CHOOSE);
      if (!this.has(chosen)) return this.failed(this.seen.length === 0 ? NO_ADDRESS : NOT_THERE);
      if (this.stands === 'open' && this.current === chosen) return null;
      await this.close('ask', LOST);
      return this.openAt(chosen);
    });
  }

  stop(why: string): Promise<void> {
    return this.inOrder(() => {
      this.current = null;
      this.fault = null;
      return this.close('off', why);
    });
  }

  /** Looks at the addresses no more. */
  end(why: string): Promise<void> {
    this.ports.timers.clear(this.look);
    return this.stop(why);
  }

  /** Somebody has connected. */
  visited(from: string): void {
    if (from !== this.current) this.somebodyIsIn();
  }

  /** A device is let in, or a screen shows digits, be it of this very machine. */
  somebodyIsIn(): void {
    if (this.hasCome) return;
    this.hasCome = true;
    if (this.isTime) this.ports.changed();
  }

  private async openAt(address: string): Promise<string | null> {
    try {
      this.listener = await this.ports.open(address);
    } catch (error) {
      return this.failed(error instanceof Error ? error.message : String(error));
    }
    this.current = address;
    this.stands = 'open';
    this.fault = null;
    this.awaitSomebody();
    this.ports.changed();
    return null;
  }

  private async close(then: SharingTold['state'], why: string): Promise<void> {
    const { listener } = this;
    this.listener = null;
    if (this.stands !== 'off') this.stands = then;
    this.isTime = false;
    if (this.patience) this.ports.timers.clear(this.patience);
    this.patience = null;
    this.ports.changed();
    await listener?.close(why);
  }

  private failed(why: string): string {
    this.fault = why;
    this.ports.changed();
    return why;
  }

  private awaitSomebody(): void {
    this.hasCome = false;
    this.patience = this.ports.timers.set(() => {
      this.isTime = true;
      if (!this.hasCome) this.ports.changed();
    }, SOMEBODY_WITHIN);
  }

  private lookLater(): Timer {
    return this.ports.timers.set(() => {
      this.look = this.lookLater();
      void this.inOrder(() => this.lookNow());
    }, LOOK_EVERY);
  }

  private async lookNow(): Promise<void> {
    const before = JSON.stringify(this.seen);
    this.seen = this.ports.addresses();
    if (JSON.stringify(this.seen) !== before) this.ports.changed();
    if (this.current === null) return;
    if (!this.has(this.current)) return this.lose();
    if (this.stands !== 'open') await this.openAt(this.current);
  }

  private async lose(): Promise<void> {
    const then = this.seen.length > 0 ? 'ask' : 'lost';
    if (this.stands === 'open') await this.close(then, LOST);
    else if (this.stands !== then) {
      this.stands = then;
      this.ports.changed();
    }
  }

  private has(address: string): boolean {
    return this.seen.some((each) => each.address === address);
  }

  private inOrder<Value>(task: () => Promise<Value>): Promise<Value> {
    const result = this.queue.then(task);
    this.queue = result.catch(() => undefined);
    return result;
  }
}
