/*
 * What carries messages between a page and the host: a WebSocket here, the desktop program's own
 * channel in its windows.
 */

import type { FromHost } from '../../../app/wire/messages.ts';

export interface Carrier {
  /** In ms: a connection on which a question goes unanswered for longer is dead. May change with what is waited for. */
  readonly patience: number;
  /** In ms: the longest pause before it is tried again. */
  readonly longestPause: number;
  /** Begins to connect. Of one connection nothing is heard after `closed`, or after its own `close()`. */
  connect(heard: Heard): Connection;
  /**
   * What the host has said to whoever carries its messages, or to the page as one that was let in. Gives back what is to be
   * said before the host's own words, where this page knows more.
   */
  told?(message: ToCarrier): string | undefined;
}

export type ToCarrier = Extract<FromHost, { say: 'own-key' | 'reply' | 'bye' }>;

export interface Heard {
  opened(): void;
  message(text: string): void;
  /** Also where it could never be opened. */
  closed(): void;
}

export interface Connection {
  send(message: string): void;
  close(): void;
}

/** In ms. The host answers every ping, and there is one at least every two seconds. */
export const SILENCE = 6000;

/**
 * In ms, at most. However long a host on this machine was gone, its screens have the truth within two seconds of its
 * coming back. On a network many wait for the same host, and are woken by the network.
 */
export const LONGEST_PAUSE = { here: 1500, network: 8000 };

const HERE = /^ws:\/\/(127\.\d+\.\d+\.\d+|localhost|\[::1\])[:/]/;

/** To the host that the page came from. */
export function socketCarrier(address: string): Carrier {
  return {
    patience: SILENCE,
    longestPause: HERE.test(address) ? LONGEST_PAUSE.here : LONGEST_PAUSE.network,
    connect(heard) {
      const socket = new WebSocket(address);
      let over = false;
      const unlessOver = (call: () => void) => () => {
        if (!over) call();
      };
      socket.onopen = unlessOver(() => heard.opened());
      socket.onmessage = ({ data }) => {
        if (!over && typeof data === 'string') heard.message(data);
      };
      socket.onclose = unlessOver(() => {
        over = true;
        heard.closed();
      });
      return {
        send(message) {
          if (socket.readyState === WebSocket.OPEN) socket.send(message);
        },
        close() {
          over = true;
          socket.close();
        },
      };
    },
  };
}
