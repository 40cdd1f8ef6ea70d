/*
 * A carrier whose other end is the test: what it was asked to say, and what it hears.
 */

import type { Carrier, Heard } from '../../../../renderer/link/connection/carrier.ts';

export class Line implements Carrier {
  readonly patience = 6000;
  readonly longestPause = 8000;
  readonly said: unknown[] = [];
  connects = 0;
  closes = 0;
  heard: Heard | null = null;

  connect(heard: Heard) {
    this.connects++;
    this.heard = heard;
    return {
      send: (text: string) => void this.said.push(JSON.parse(text)),
      close: () => void this.closes++,
    };
  }

  hear(message: object): void {
    this.heard!.message(JSON.stringify(message));
  }
}

/** What a link hears of its carrier, in order. */
export function listener() {
  const all: string[] = [];
  const heard: Heard = {
    opened: () => all.push('opened'),
    message: (text) => all.push(text),
    closed: () => all.push('closed'),
  };
  return { all, heard };
}

/** A key that this browser keeps, for as long as the test lasts. */
export function ownKey<Key>(key: Key | null) {
  let kept = key;
  return {
    now: () => kept,
    keep: (next: Key) => void (kept = next),
    drop: () => void (kept = null),
  };
}
