/*
 * The carrier of a wall screen on the network. With a key from an earlier evening it asks to look; without one it shows
 * digits until the coach has typed them in. To the link, the connection opens when the wall is let in.
 */

import { JOINING_VERSION, type FromJoiner } from '../../../app/wire/sharing/joining.ts';
import { SILENCE, type Carrier, type Connection, type Heard } from '../connection/carrier.ts';
import { goodbye, hearDoor } from './door-message.ts';
import type { Joining } from './joining.ts';
import type { KeptKey } from './kept-key.ts';

interface WallDoor {
  readonly socket: Carrier;
  readonly kept: KeptKey<string>;
  readonly joining: Joining;
  /** This page's own clock, in ms. */
  now(): number;
  /** Calls back once after so many ms; returns what cancels it. */
  after(delay: number, call: () => void): () => void;
}

export function wallCarrier({ socket, kept, joining, now, after }: WallDoor): Carrier {
  let connectedAt = 0;
  // Why it has to show digits again, until it is let in.
  let why: string | null = null;

  function turnedAway(reason: string): void {
    kept.drop();
    why = reason;
  }

  function connect(heard: Heard): Connection {
    let isIn = false;
    const say = (message: FromJoiner): void => connection.send(JSON.stringify(message));
    const comeIn = (): void => {
      isIn = true;
      why = null;
      joining.setState({ step: 'in' }, true);
      heard.opened();
    };
    const hear = (text: string): void => {
      const message = hearDoor(text);
      switch (message?.say) {
        case 'digits':
          return joining.setState({ step: 'shows', digits: message.digits, until: now() + message.left, why }, true);
        case 'let-in':
          kept.keep(message.key);
          return comeIn();
        case 'welcome':
          return comeIn();
        case 'bye':
          if (message.wait !== undefined) return wait(message.why, message.wait);
          if (message.again) turnedAway(message.why);
          return heard.message(goodbye(message.why, message.again));
        case 'prove':
        case 'key':
        case undefined:
          return undefined;
      }
    };
    /** To the link it is one connection until the wall is in. */
    const wait = (reason: string, ms: number): void => {
      connection.close();
      joining.setState({ step: 'waits', why: reason, until: now() + ms }, true);
      cancelWait = after(ms, () => {
        connection = knock();
      });
    };
    let cancelWait = (): void => {};
    const knock = (): Connection =>
      socket.connect({
        opened() {
          const key = kept.now();
          say(
            key === null ? { say: 'show', version: JOINING_VERSION } : { say: 'look', version: JOINING_VERSION, key },
          );
        },
        message: (text) => (isIn ? heard.message(text) : hear(text)),
        closed() {
          // The host has forgotten its digits.
          joining.setState({ step: 'in' }, true);
          heard.closed();
        },
      });
    connectedAt = now();
    let connection = knock();
    return {
      send: (message) => {
        if (isIn) connection.send(message);
      },
      close() {
        cancelWait();
        joining.setState({ step: 'in' }, true);
        connection.close();
      },
    };
  }

  return {
    /** While its digits are shown, or others' are, the host has nothing to answer; new ones come when they are no longer valid. */
    get patience() {
      const state = joining.getState();
      return SILENCE + (state.step === 'shows' || state.step === 'waits' ? state.until - connectedAt : 0);
    },
    longestPause: socket.longestPause,
    connect,
    told(message) {
      if (message.say === 'bye' && message.again) turnedAway(message.why);
      return undefined;
    },
  };
}
