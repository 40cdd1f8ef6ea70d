/*
 * What goes out to one screen. A screen that reads slowly is passed over until it has taken what waits for it; one that
 * does not read is given up.
 */

import type { Timer, Timers } from '../../time/timers.ts';
import type { RunStream, Place } from './run-stream.ts';
import type { Reader } from './dispatch.ts';

/** With more bytes than this waiting, a screen gets no snapshot until they are sent: it needs only the latest. */
const SKIP_ABOVE = 64 * 1024;

/** With more bytes than this waiting, it is not reading at all. */
const GIVE_UP_ABOVE = 1024 * 1024;

/** In ms: nor is one that has never taken all that waited for so long. */
const UNDRAINED = 10_000;

/** What carries messages, as far as they go out. */
interface Line {
  /** How many bytes are handed over and not yet sent. */
  waiting(): number;
  /** Hands a message over; calls back when it has gone or failed. */
  send(text: string, sent: () => void): void;
}

export interface Outflow {
  send(text: string): void;
  /** Whether it can take more than answers. */
  hasRoom(): boolean;
  end(): void;
}

/** went: called whenever something has gone or failed; givenUp: called once, when the screen does not read. */
export function outflow(line: Line, timers: Timers, went: () => void, givenUp: () => void): Outflow {
  let timer: Timer | null = null;
  let over = false;

  const end = (): void => {
    over = true;
    if (timer) timers.clear(timer);
    timer = null;
  };

  const giveUp = (): void => {
    end();
    givenUp();
  };

  const sent = (): void => {
    if (over) return;
    if (timer && line.waiting() === 0) {
      timers.clear(timer);
      timer = null;
    }
    went();
  };

  return {
    send(text) {
      if (over) return;
      if (line.waiting() > GIVE_UP_ABOVE) return giveUp();
      line.send(text, sent);
      if (!over && !timer && line.waiting() > 0) timer = timers.set(giveUp, UNDRAINED);
    },
    hasRoom: () => !over && line.waiting() <= SKIP_ABOVE,
    end,
  };
}

/** How a screen is told of the run: each text once, then a snapshot, then commands. */
export interface RunReader extends Reader {
  /** It has missed something: the next snapshot is whole. */
  startAnew(): void;
}

export function runReader(stream: RunStream, { send, hasRoom }: Outflow): RunReader {
  const textsSent = new Set<string>();
  let place: Place | null = null;
  return {
    isBehind: () => hasRoom() && place?.n !== stream.place().n,
    tell() {
      for (const [hash, text] of stream.textMessages()) {
        if (!hasRoom()) return false;
        if (textsSent.has(hash)) continue;
        textsSent.add(hash);
        send(text);
      }
      if (!hasRoom()) return false;
      const message = stream.messageFrom(place);
      place = stream.place();
      send(message);
      return true;
    },
    startAnew() {
      place = null;
    },
  };
}
