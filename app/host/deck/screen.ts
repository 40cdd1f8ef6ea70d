/*
 * One connected screen, whatever carries its messages: it says hello, gets each session text once and
 * then the latest snapshot whenever it can take one, and has its pings and commands answered. A screen
 * that says anything else, or too much, is hung up on; nobody else notices.
 */

import { hearScreen, WIRE_VERSION, type FromHost, type FromScreen } from '../../wire/messages.ts';
import type { Clock } from '../time/clock.ts';
import type { DeckHost, ScreenKind } from './deck-host.ts';
import { TokenBucket } from '../web/token-bucket.ts';

/** What carries messages to one screen. */
export interface ScreenChannel {
  /** Bytes handed over and not yet sent. */
  waiting(): number;
  /** Hands a message over; calls back when it has gone or failed. */
  send(text: string, sent: () => void): void;
  /** Hangs up, politely or at once. */
  close(why: string): void;
  terminate(): void;
}

export interface Screen {
  receive(text: string): void;
  /** Something came that carries no message, and counts as one. */
  nudged(): void;
  /** Whether it has said hello, and is not gone again. */
  isGreeted(): boolean;
  /** The carrier is gone, from whichever side. */
  gone(): void;
  /** Says goodbye and hangs up. */
  dismiss(why: string): void;
}

/** Beyond so many bytes waiting a screen gets no snapshot until they are gone: the latest is all it needs. */
const SKIP_ABOVE = 64 * 1024;

/** Beyond so many it does not read at all. */
const GIVE_UP_ABOVE = 1024 * 1024;

/** Messages a second, and how many may come at once: eight pings on connecting, and a coach's quickest taps. */
const MESSAGE_RATE = { perSecond: 20, burst: 40 };

/** Either way the program has the page that goes with it. */
const PAGE_IS_OLDER = 'This page is older than the program: reload it.';
const PAGE_IS_NEWER = 'This page is newer than the program: reload it.';

export function connectScreen(host: DeckHost, clock: Clock, carrier: ScreenChannel): Screen {
  const bucket = new TokenBucket(MESSAGE_RATE, clock.now());
  const textsSent = new Set<string>();
  let leave: (() => void) | null = null;
  let kind: ScreenKind | null = null;
  let fallSilent: (() => void) | null = null;
  let unsubscribe: (() => void) | null = null;
  let sentN = -1;
  let over = false;

  const send = (message: FromHost): void => {
    if (over) return;
    if (carrier.waiting() > GIVE_UP_ABOVE) {
      gone();
      carrier.terminate();
    } else carrier.send(JSON.stringify(message), pump);
  };

  /** Sends what the screen lacks, as far as it keeps up; called again whenever something has gone. */
  const pump = (): void => {
    if (leave === null) return;
    for (const text of host.texts()) {
      if (textsSent.has(text.hash)) continue;
      if (carrier.waiting() > SKIP_ABOVE) return;
      textsSent.add(text.hash);
      send(text);
    }
    if (over || carrier.waiting() > SKIP_ABOVE) return;
    const snapshot = host.snapshot();
    if (snapshot.n === sentN) return;
    sentN = snapshot.n;
    send(snapshot);
  };

  const gone = (): void => {
    over = true;
    unsubscribe?.();
    fallSilent?.();
    leave?.();
    unsubscribe = fallSilent = leave = null;
  };

  const hangUp = (why: string): void => {
    send({ say: 'bye', why, version: WIRE_VERSION });
    gone();
    carrier.close(why);
  };

  const hello = ({ screen }: Extract<FromScreen, { say: 'hello' }>): void => {
    unsubscribe = host.onChange(pump);
    leave = host.join(screen);
    kind = screen;
    pump();
  };

  const sound = ({ id, n, status, asked, more }: Extract<FromScreen, { say: 'sound' }>): void => {
    if (!kind) return;
    const forgetEarlier = fallSilent;
    fallSilent = host.sound(kind, { id, n, status, asked, more });
    // One page sounds as one: under another id it is not kept a second time.
    forgetEarlier?.();
  };

  const command = async ({
    id,
    command: fields,
    seen,
    run,
    madeFrom,
  }: Extract<FromScreen, { say: 'command' }>): Promise<void> => {
    const answer = await host.command(id, fields, seen, run, madeFrom);
    send({ say: 'answer', id, ...answer });
  };

  const isTooMuch = (now: number): boolean => {
    if (over || bucket.take(now)) return over;
    hangUp('Too many messages.');
    return true;
  };

  return {
    receive(text) {
      // Before anything else: what a screen works out from a ping is as good as this moment.
      const t2 = clock.now();
      if (isTooMuch(t2)) return;
      const heard = hearScreen(text);
      if (heard.kind === 'other version') return hangUp(heard.newer ? PAGE_IS_NEWER : PAGE_IS_OLDER);
      if (heard.kind === 'unknown') return hangUp(PAGE_IS_NEWER);
      if (heard.kind === 'no message') return hangUp('That was no message of a screen.');
      const { message } = heard;
      if ((message.say === 'hello') === (leave !== null)) return hangUp('A screen says hello first, and once.');
      if (message.say === 'hello') return hello(message);
      if (message.say === 'command') return void command(message);
      if (message.say === 'sound') return sound(message);
      const { n, t1 } = message;
      send({ say: 'pong', n, t1, t2, t3: clock.now(), epoch: clock.epoch() });
    },
    nudged: () => void isTooMuch(clock.now()),
    isGreeted: () => leave !== null,
    gone,
    dismiss(why) {
      if (!over) hangUp(why);
    },
  };
}
