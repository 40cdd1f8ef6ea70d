/*
 * One connected screen, whatever carries its messages. It says hello, gets each session text once and then the latest
 * snapshot whenever it can take one, and gets answers to its pings and commands. If it says anything else, or too
 * much, the host hangs up; no other screen notices.
 */

import {
  hearScreen,
  MAY_SAY,
  WIRE_VERSION,
  type FromHost,
  type FromScreen,
  type ScreenKind,
} from '../../../wire/messages.ts';
import type { ClockQuality } from '../../../wire/sharing/sharing.ts';
import type { Clock } from '../../time/clock.ts';
import { isStop, MESSAGE_RATE } from '../answers/device-pace.ts';
import { ALONE, type Company, type SharingWindow } from './company.ts';
import type { DeckHost } from '../deck-host.ts';
import { outflow, runReader, type RunReader } from './outflow.ts';
import type { ConnectedScreen, OwnSettings } from '../../screens/screen-book.ts';
import { mayBe, mayCommand, THIS_MACHINE, type Guest } from '../../sharing/doors/guest.ts';
import { TokenBucket } from '../../web/limits/token-bucket.ts';

/** What carries messages to one screen. */
export interface ScreenChannel {
  /** Whether it leads to a window of this program, which nobody else can open. */
  readonly isOwnWindow: boolean;
  /** How many bytes are handed over and not yet sent. */
  waiting(): number;
  /** Hands a message over; calls back when it has gone or failed. */
  send(text: string, sent: () => void): void;
  /** Hears how good the screen's clock is, for whoever lists screens. */
  heardClock?(quality: ClockQuality): void;
  /** Hears what a wall screen is called, at once and whenever that changes. */
  heardName?(name: string): void;
  /** Hangs up with a reason. */
  close(why: string): void;
  terminate(): void;
}

/** `again`: the key that the screen has is void. `ended`: it keeps its key, and shows no leaves until it is let in with it. */
export type Further = 'again' | 'ended';

export interface Screen {
  receive(text: string): void;
  /** To be called when something arrives that is not a message but counts as one. */
  nudged(): void;
  /** Whether it has said hello and is still connected. */
  isGreeted(): boolean;
  guest(): Guest;
  /** As what it has introduced itself; null before that. */
  kind(): ScreenKind | null;
  /** To be called when the connection has ended, whichever side ended it. */
  gone(): void;
  /** Says goodbye and hangs up. */
  dismiss(why: string, further?: Further): void;
}

/** Either way, reloading gives the page that belongs to this program. */
const PAGE_IS_OLDER = 'This page is older than the program: reload it.';
const PAGE_IS_NEWER = 'This page is newer than the program: reload it.';

const NOT_SHARED = 'Nothing can be shared from here.';
const NOT_FOR_REMOTE = 'A remote cannot do that: use the coach’s window.';
const TOO_MANY_COMMANDS = 'Too many commands at once: wait a second.';

export function connectScreen(
  host: DeckHost,
  clock: Clock,
  carrier: ScreenChannel,
  met: Guest = THIS_MACHINE,
  { ask: put, sharing }: Company = ALONE,
): Screen {
  let guest = met;
  const bucket = new TokenBucket(MESSAGE_RATE, clock.now());
  let leave: (() => void) | null = null;
  let kind: ScreenKind | null = null;
  let fallSilent: (() => void) | null = null;
  let wall: ConnectedScreen | null = null;
  let unsubscribe: (() => void)[] = [];
  let soundId: string | null = null;
  let window: SharingWindow | null = null;
  let reader: RunReader | null = null;
  const sentNews = new Map<string, string>();
  let isNewsHeldUp = false;
  let over = false;

  const out = outflow(
    carrier,
    host.dispatch.timers,
    () => {
      if (reader?.isBehind()) host.dispatch.news();
      if (isNewsHeldUp) pumpNews();
    },
    () => {
      gone();
      carrier.terminate();
    },
  );

  const send = (message: FromHost): void => out.send(JSON.stringify(message));

  /** What is new beside the run. The coach alone is told of other screens. */
  const pumpNews = (): void => {
    if (leave === null || kind === null) return;
    isNewsHeldUp = !out.hasRoom();
    if (isNewsHeldUp) return;
    if (kind === 'desk') {
      sendNews({ say: 'screens', screens: [...host.screenBook.latest()] });
      sendNews({ say: 'presence', screens: host.presence.latest() });
      if (sharing && window) sendNews({ say: 'sharing', sharing: sharing.toldTo(window) });
    }
    sendNews({ say: 'sound', ...host.soundArbiter.toldTo(kind, soundId) });
    const times = kind === 'wall' ? null : host.touchBook.latest();
    if (times) sendNews(times);
  };

  const sendNews = (news: FromHost): void => {
    const text = JSON.stringify(news);
    if (sentNews.get(news.say) === text) return;
    sentNews.set(news.say, text);
    out.send(text);
  };

  const gone = (): void => {
    over = true;
    out.end();
    for (const stop of unsubscribe) stop();
    fallSilent?.();
    wall?.leave();
    leave?.();
    if (window) sharing?.gone(window);
    unsubscribe = [];
    fallSilent = wall = leave = window = null;
  };

  const hangUp = (why: string, further?: Further): void => {
    send({ say: 'bye', why, version: WIRE_VERSION, ...(further ? { [further]: true } : {}) });
    gone();
    carrier.close(why);
  };

  const hello = ({ screen, wall: introduction }: Extract<FromScreen, { say: 'hello' }>): void => {
    const { screenBook } = host;
    kind = screen;
    const tellOwn = (own: OwnSettings): void => {
      send({ say: 'screen', ...own });
      carrier.heardName?.(own.name);
    };
    if (kind === 'wall') wall = screenBook.join(introduction, tellOwn, carrier.isOwnWindow);
    if (kind === 'desk') for (const part of [screenBook, host.presence]) unsubscribe.push(part.onNews(pumpNews));
    if (kind !== 'wall') unsubscribe.push(host.touchBook.onNews(pumpNews));
    unsubscribe.push(host.soundArbiter.onChange(pumpNews));
    if (kind !== 'remote') unsubscribe.push(screenBook.onWhich(() => send({ say: 'which' })));
    leave = host.presence.join(screen);
    if (kind === 'desk' && sharing) {
      window = { guest: () => guest, say: send, become: (other) => void (guest = other) };
      unsubscribe.push(sharing.onNews(pumpNews));
    }
    // Anybody may open a wall screen.
    reader = runReader(host.streams[kind === 'wall' && !carrier.isOwnWindow ? 'open' : 'whole'], out);
    unsubscribe.push(host.dispatch.join(kind, reader));
    pumpNews();
  };

  const pong = ({ n, t1 }: Extract<FromScreen, { say: 'ping' }>, t2: number): void => {
    send({ say: 'pong', n, t1, t2, t3: clock.now(), epoch: clock.epoch() });
  };

  /** The coach's wish, answered in a sentence where it cannot be. */
  const wish = ({ id, name, wish: wanted }: Extract<FromScreen, { say: 'screen' }>): void => {
    const why = host.screenBook.carryOut(name, wanted);
    send({ say: 'answer', id, ok: why === null, at: null, why });
  };

  const share = async ({ id, wish: wanted }: Extract<FromScreen, { say: 'sharing' }>): Promise<void> => {
    const why = window && sharing ? await sharing.wish(window, id, wanted) : NOT_SHARED;
    send({ say: 'answer', id, ok: why === null, at: null, why });
  };

  const ask = async ({ id, method, path, body }: Extract<FromScreen, { say: 'ask' }>): Promise<void> => {
    if (!put) return hangUp('Ask that by HTTP.');
    send({ say: 'reply', id, ...(await put({ method, path, body }, guest)) });
  };

  const sound = ({ id, n, status, asked, more }: Extract<FromScreen, { say: 'sound' }>): void => {
    if (!kind) return;
    const forgetEarlier = fallSilent;
    soundId = id;
    const forget = host.soundArbiter.take(kind, { id, n, status, asked, more });
    // What it is told then may be too much for it, and it is gone.
    if (over) return forget();
    fallSilent = forget;
    // One page has one report: a new id replaces the report under its earlier id.
    forgetEarlier?.();
  };

  const command = async ({
    id,
    command: fields,
    run: meantFor,
    ...seen
  }: Extract<FromScreen, { say: 'command' }>): Promise<void> => {
    if (kind === null || kind === 'wall') return;
    const why = whyNot(fields);
    const answer =
      why === null
        ? await host.command(id, fields, { ...seen, by: { ...guest, kind }, meantFor })
        : { ok: false, at: null, why };
    send({ say: 'answer', id, ...answer });
  };

  const touch = async (touched: Extract<FromScreen, { say: 'touch' }>): Promise<void> => {
    const why = await host.touchBook.take(touched);
    send({ say: 'answer', id: touched.id, ok: why === null, at: null, why });
  };

  /** A sentence where this guest may not give the command, or not yet; a Stop never waits. */
  const whyNot = (fields: Readonly<Record<string, unknown>>): string | null => {
    if (!mayCommand(guest, fields)) return NOT_FOR_REMOTE;
    return host.devicePace.mayGive(guest, fields, clock.now()) ? null : TOO_MANY_COMMANDS;
  };

  const isTooMuch = (isFine: boolean): boolean => {
    if (!over && !isFine) hangUp('Too many messages.');
    return over;
  };

  /** Of a device's connections together. */
  const isTooMuchOfDevice = (now: number): boolean => isTooMuch(over || host.devicePace.maySend(guest, now));

  return {
    receive(text) {
      // Taken before anything else: the screen's clock is only as good as this time.
      const t2 = clock.now();
      if (isTooMuch(over || bucket.take(t2))) return;
      const heard = hearScreen(text);
      if (heard.kind === 'other version') return hangUp(heard.newer ? PAGE_IS_NEWER : PAGE_IS_OLDER);
      if (heard.kind === 'unknown') return hangUp(PAGE_IS_NEWER);
      if (heard.kind === 'no message') return hangUp('That was not a message of a screen.');
      const { message } = heard;
      const isExempt = message.say === 'command' && isStop(message.command);
      if (!isExempt && isTooMuchOfDevice(t2)) return;
      if ((message.say === 'hello') === (leave !== null))
        return hangUp('A screen must say hello first, and only once.');
      if (kind && !MAY_SAY[message.say].includes(kind)) return hangUp('This screen may not say that.');
      switch (message.say) {
        case 'hello':
          return mayBe(guest, message.screen) ? hello(message) : hangUp('This device was let in as another screen.');
        case 'ping':
          return pong(message, t2);
        case 'command':
          return void command(message);
        case 'sound':
          return sound(message);
        case 'whole':
          reader?.startAnew();
          return host.dispatch.news();
        case 'clock':
          return carrier.heardClock?.(message.quality);
        case 'room':
          return wall?.room(message.room);
        case 'screen':
          return wish(message);
        case 'touch':
          return void touch(message);
        case 'which':
          return host.screenBook.which();
        case 'sharing':
          return void share(message);
        case 'ask':
          return void ask(message);
      }
    },
    nudged() {
      const now = clock.now();
      if (!isTooMuch(over || bucket.take(now))) isTooMuchOfDevice(now);
    },
    isGreeted: () => leave !== null,
    guest: () => guest,
    kind: () => kind,
    gone,
    dismiss(why, further) {
      if (!over) hangUp(why, further);
    },
  };
}
