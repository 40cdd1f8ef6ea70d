/*
 * Where a browser keeps touches that the host has not taken: each under a key of its own, so that two pages of one
 * browser never write over each other. A lane, two times and an id: no names.
 */

import type { SentTouch } from '../../../link/link.ts';

export type TouchStorage = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

export interface TouchMemory {
  /** In the order in which they were tapped. */
  all(): readonly SentTouch[];
  keep(touch: SentTouch): void;
  forget(id: string): void;
}

const PREFIX = 'lanecall.touch.';

interface Kept {
  readonly touch: SentTouch;
  /** In ms since 1970, then by the page's count: touches of one rep are sent in their order. */
  readonly tapped: readonly [number, number];
}

/** Where the browser keeps nothing, or has no room, touches live as long as the page. */
export function touchMemory(storage: TouchStorage | null, wall: () => number): TouchMemory {
  let count = 0;
  return {
    all() {
      const keys = Array.from({ length: storage?.length ?? 0 }, (_, index) => storage?.key(index) ?? '');
      const kept = keys.filter((key) => key.startsWith(PREFIX)).flatMap((key) => keptIn(storage?.getItem(key) ?? ''));
      kept.sort((a, b) => a.tapped[0] - b.tapped[0] || a.tapped[1] - b.tapped[1]);
      return kept.map(({ touch }) => touch);
    },
    keep(touch) {
      const kept: Kept = { touch, tapped: [wall(), count++] };
      try {
        storage?.setItem(PREFIX + touch.id, JSON.stringify(kept));
      } catch {
        // It is sent all the same.
      }
    },
    forget: (id) => storage?.removeItem(PREFIX + id),
  };
}

/** None for what this program has not written. */
function keptIn(text: string): readonly Kept[] {
  try {
    const { touch, tapped } = JSON.parse(text) as Kept;
    const { id, run, lane, at, watch } = touch;
    const numbers = [lane, at, watch ?? 0, tapped[0], tapped[1]];
    const isKept = typeof id === 'string' && typeof run === 'string' && numbers.every(Number.isFinite);
    return isKept ? [{ touch: { id, run, lane, at, watch }, tapped }] : [];
  } catch {
    return [];
  }
}
