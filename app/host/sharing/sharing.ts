/*
 * Sharing with other screens: the switch, what the coach wants of it, and what the coach's windows are told. It is off at
 * every start, unless it is taken up after a crash.
 */

import { JOINING_PAGES } from '../../wire/sharing/joining.ts';
import type { SharedDevice, SharingTold, SharingWish } from '../../wire/sharing/sharing.ts';
import type { SharingDesk, SharingWindow } from '../deck/telling/company.ts';
import { NewsPace } from '../screens/news-pace.ts';
import type { Clock } from '../time/clock.ts';
import type { Timer, Timers } from '../time/timers.ts';
import type { Addresses } from './address/addresses.ts';
import { Attendance } from './devices/attendance.ts';
import type { DoorBook, Reception, Voided } from './doors/door.ts';
import { mayLetIn, THIS_MACHINE, whyNotThrowOut } from './doors/guest.ts';
import { SharedAddress, type Listener } from './address/shared-address.ts';

export interface SharingPorts {
  readonly clock: Clock;
  readonly timers: Timers;
  readonly book: DoorBook;
  readonly addresses: Addresses;
  /** Opens the listener at an address. Rejects where it cannot; the error says why. */
  readonly open: (address: string) => Promise<Listener>;
  /** Where others find the host, and where browsers of this machine find the coach's window; null where they do not. */
  readonly ports: () => { readonly network: number; readonly pages: number | null };
  /** Where sharing stands, for a start after a crash; null for off. Resolves when it is kept. */
  readonly keep: (address: string | null) => Promise<void>;
  /** For the record of what has happened at the door. */
  readonly note: (noted: { what: 'sharing on'; address: string } | { what: 'sharing off' }) => void;
}

/** In ms: for how long it is said that a device is new. */
const NEW_FOR = 30_000;

/** So many answers to wishes are remembered: one that is said again after a lost connection is not done again. */
const REMEMBERED = 64;

const ONLY_HERE = 'Only the coach’s window on the machine that shares lets others in.';
const NOT_SHARING = 'Lanecall is not shared now: share it first.';
const NO_BROWSER = 'Another window is for browsers: this program has its own.';
const SHARED_NOW = 'Lanecall is shared now, so this page needs a key: open it by “Another window” in one that has it.';
const ENDED = 'Sharing has ended.';
const VOIDED: { readonly [how in Exclude<Voided, 'ended'>]: string } = {
  'thrown out': 'This device was thrown out.',
  expired: 'This device was let in twelve hours ago, and a key lasts no longer.',
};

/** Told to those that come in by a code. */
const ASK = ' Ask the coach for a new code.';

export class Sharing implements SharingDesk {
  readonly attendance: Attendance;
  readonly reception: Reception;
  private readonly ports: SharingPorts;
  private readonly place: SharedAddress;
  private readonly pace: NewsPace;
  private readonly listeners = new Set<() => void>();
  private readonly answers = new Map<string, Promise<string | null>>();
  private readonly tellings = new Map<SharingWindow, SharingTold>();
  private fresh = new Set<SharingWindow>();
  private shower: SharingWindow | null = null;
  private newness: Timer | null = null;
  /** How many stops are under way: they may wait for their turn, while keys and codes are void at once. */
  private stops = 0;
  /** What devices are told when sharing ends. */
  private goodbye = ENDED;

  constructor(ports: SharingPorts) {
    this.ports = ports;
    const { timers, addresses, open, book } = ports;
    // Others decide how often they come and go, and each time the whole list is told.
    this.pace = new NewsPace(timers, () => this.changed());
    this.attendance = new Attendance(() => {
      if (this.attendance.hasNetwork()) this.place.somebodyIsIn();
      this.pace.news();
    });
    this.place = new SharedAddress({ timers, addresses, open, changed: () => this.changed() });
    this.reception = book.reception;
    book.onChange(() => {
      // A screen that shows digits has come, be it of this very machine.
      if (book.showing() > 0) this.place.somebodyIsIn();
      this.pace.news();
    });
    book.onVoided((device, how) => {
      const why = how === 'ended' ? this.goodbye : VOIDED[how];
      const role = this.attendance.latestOf(device)?.guest().role;
      const then = role === 'remote' || role === 'tablet' ? ASK : '';
      this.attendance.dismiss(({ guest }) => guest().device === device, why + then, 'again');
    });
  }

  isOn(): boolean {
    return this.place.state() !== 'off';
  }

  /** Where screens find the host; null while nothing is shared. */
  address(): string | null {
    const address = this.place.address();
    return address === null ? null : `http://${address}:${this.ports.ports().network}/`;
  }

  /** Somebody of this address has connected. */
  visited(from: string): void {
    this.place.visited(from);
  }

  /** Shares at an address; null where there is but one. A sentence where that cannot be. `by`: the page that wants it. */
  async share(address: string | null, by: SharingWindow | null = null): Promise<string | null> {
    const wasOn = this.isOn() && this.stops === 0;
    const why = await this.place.share(address);
    if (why !== null) return why;
    const shared = this.place.address()!;
    this.ports.note({ what: 'sharing on', address: shared });
    const kept = this.ports.keep(shared);
    if (!wasOn) this.takeThePower(by);
    await kept;
    return null;
  }

  async stop(why = ENDED): Promise<string | null> {
    if (!this.isOn()) return null;
    this.ports.note({ what: 'sharing off' });
    // A wall goes on by itself where a link is lost. The coach who ends it on purpose may stop lanes that it would still count.
    this.attendance.dismiss(({ listener, kind }) => listener === 'network' && kind() === 'wall', why, 'ended');
    this.stops++;
    const closed = this.place.stop(why).finally(() => this.stops--);
    const voided = this.voidKeys(why);
    const [fault] = await Promise.all([voided, this.ports.keep(null), closed]);
    return fault;
  }

  /** The program ends: sharing with it. */
  async end(why: string): Promise<void> {
    await this.stop(why);
    await this.place.end(why);
    this.pace.end();
    if (this.newness) this.ports.timers.clear(this.newness);
  }

  /** The address of a coach's page on this machine, usable once; null where browsers do not find one. */
  claim(lasts: Parameters<DoorBook['claim']>[0]): string | null {
    const { pages } = this.ports.ports();
    return pages === null ? null : `http://127.0.0.1:${pages}${JOINING_PAGES.coach}#${this.ports.book.claim(lasts)}`;
  }

  wish(window: SharingWindow, id: string, wish: SharingWish): Promise<string | null> {
    const key = `${window.guest().device ?? ''} ${id}`;
    const known = this.answers.get(key);
    if (known) return known;
    const answer = this.carryOut(window, wish);
    // What the coach wants is told at once, whatever others do meanwhile.
    this.changed();
    this.answers.set(key, answer);
    if (this.answers.size > REMEMBERED) this.answers.delete(this.answers.keys().next().value!);
    return answer;
  }

  toldTo(window: SharingWindow): SharingTold {
    const known = this.fresh.has(window) ? this.tellings.get(window) : undefined;
    if (known) return known;
    const told = this.tell(window);
    this.tellings.set(window, told);
    this.fresh.add(window);
    return told;
  }

  gone(window: SharingWindow): void {
    this.fresh.delete(window);
    this.tellings.delete(window);
    this.hideCode(window);
  }

  onNews(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private async carryOut(window: SharingWindow, wish: SharingWish): Promise<string | null> {
    const { book } = this.ports;
    if (wish.do === 'throw-out') return this.throwOut(window, wish.device);
    if (wish.do === 'rename-device') return book.rename(wish.device, wish.name);
    if (!mayLetIn(window.guest())) return ONLY_HERE;
    if (wish.do === 'share') return this.share(wish.address, window);
    if (wish.do === 'stop-sharing') return this.stop();
    if (!this.isOn() || this.stops > 0) return NOT_SHARING;
    switch (wish.do) {
      case 'show-code':
        this.shower = window;
        book.showCode(wish.role);
        return null;
      case 'hide-code':
        this.hideCode(window);
        return null;
      case 'let-in':
        return book.letInWall(wish.digits);
      case 'another-window':
        return this.openAnother(window);
    }
  }

  /** Only the window that shows the code can put it away. */
  private hideCode(window: SharingWindow): void {
    if (this.shower !== window) return;
    this.shower = null;
    this.ports.book.hideCode();
  }

  private async throwOut(window: SharingWindow, id: string): Promise<string | null> {
    const { book } = this.ports;
    const device = book.devices().find((each) => each.id === id);
    return (device && whyNotThrowOut(window.guest(), device)) ?? book.throwOut(id);
  }

  private openAnother(window: SharingWindow): string | null {
    const address = this.claim('ten minutes');
    if (address === null) return NO_BROWSER;
    window.say({ say: 'claim', address });
    return null;
  }

  /** From now on a page of this machine needs a key. The one that wanted it gets its own before the others are hung up. */
  private takeThePower(by: SharingWindow | null): void {
    if (this.ports.ports().pages === null) return;
    if (by) giveOwnKey(by, this.ports.book);
    this.changed();
    this.attendance.dismiss(({ listener, guest, kind }) => {
      return listener === 'machine' && guest().device === null && (kind() === 'desk' || kind() === 'remote');
    }, SHARED_NOW);
  }

  /** The coach's pages need no key from now on and stay; the other devices are told why theirs is void. */
  private voidKeys(why: string): Promise<string | null> {
    for (const window of this.tellings.keys()) if (mayLetIn(window.guest())) window.become(THIS_MACHINE);
    this.goodbye = why;
    return this.ports.book.end();
  }

  private tell(window: SharingWindow): SharingTold {
    const { clock, book } = this.ports;
    const now = clock.now();
    const code = this.shower === window ? book.code() : null;
    const address = this.address();
    const guest = window.guest();
    return {
      ...this.place.told(),
      address,
      showing: book.showing(),
      code:
        code && address !== null
          ? {
              role: code.role,
              address: `${address.slice(0, -1)}${JOINING_PAGES[code.role]}#${code.letters}`,
              letters: code.letters,
              left: Math.max(0, Math.round(code.until - now)),
            }
          : null,
      devices: book.devices().map(({ id, role, name, since }): SharedDevice => {
        const latest = this.attendance.latestOf(id);
        const isYours = guest.device === id;
        const isNew = !isYours && since !== null && now - since < NEW_FOR;
        const mayThrowOut = whyNotThrowOut(guest, { id, role }) === null;
        const connected = latest !== null;
        return { id, role, name, connected, clock: latest?.clock() ?? null, isNew, isYours, mayThrowOut };
      }),
      mayLetIn: mayLetIn(guest),
    };
  }

  private changed(): void {
    this.fresh = new Set();
    this.awaitOldness();
    for (const listener of this.listeners) listener();
  }

  /** What is new now will not be in half a minute, and nobody else says so. */
  private awaitOldness(): void {
    const { clock, timers, book } = this.ports;
    if (this.newness) timers.clear(this.newness);
    this.newness = null;
    const now = clock.now();
    const ends = book.devices().flatMap(({ since }) => (since === null ? [] : [since + NEW_FOR - now]));
    const next = Math.min(...ends.filter((left) => left > 0));
    if (next !== Infinity) this.newness = timers.set(() => this.changed(), Math.ceil(next));
  }
}

/** None where the coach's pages have all that there are: then it asks for one as the others do. */
function giveOwnKey(window: SharingWindow, book: DoorBook): void {
  const given = book.ownKey();
  if (typeof given === 'string') return;
  window.say({ say: 'own-key', given });
  window.become({ role: given.role, name: given.name, device: given.id });
}
