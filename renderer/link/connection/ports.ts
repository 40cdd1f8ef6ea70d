/*
 * What a link needs of the browser, handed in so that tests can hand in their own time.
 */

import type { OwnClock } from '../time/host-clock.ts';
import { pageAlarms } from '../time/knocker.ts';
import { reloadOnce } from '../misread.ts';
import { askHost, onWoken } from './own-window.ts';

export interface Ports extends OwnClock {
  /** Calls back once after so many ms; returns what cancels it. */
  after(delay: number, call: () => void): () => void;
  /** 0 up to 1. */
  random(): number;
  newId(): string;
  /** Posts a command that is too large for a message; gives the answer, or rejects. */
  post(message: string): Promise<unknown>;
  /** Calls whenever the network or the page is back; returns what ends that. */
  onWake(call: () => void): () => void;
  /** Loads the page anew, if it has not done so for this cause before. */
  reloadOnce(): void;
}

export function browserPorts(): Ports {
  return {
    now: () => performance.now(),
    wall: () => Date.now(),
    after: (delay, call) => pageAlarms().after(delay, call),
    random: () => Math.random(),
    newId,
    post: async (body) => {
      const reply = await askHost('POST', '/command', body);
      return JSON.parse(reply.body) as unknown;
    },
    onWake,
    reloadOnce: () =>
      reloadOnce(
        () => window.sessionStorage,
        () => location.reload(),
      ),
  };
}

/** 128 bits of chance: pages without a secure context have no `randomUUID`. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => (byte + 256).toString(16).slice(1)).join('');
}

function onWake(call: () => void): () => void {
  const whenVisible = (): void => {
    if (document.visibilityState === 'visible') call();
  };
  window.addEventListener('online', call);
  window.addEventListener('pageshow', call);
  document.addEventListener('visibilitychange', whenVisible);
  const stopHearing = onWoken(call);
  return () => {
    stopHearing();
    window.removeEventListener('online', call);
    window.removeEventListener('pageshow', call);
    document.removeEventListener('visibilitychange', whenVisible);
  };
}
