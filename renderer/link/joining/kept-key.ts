/*
 * The key by which this page was let in, kept by its browser for the next time. Where the browser keeps nothing, or
 * gives back what is no key, the page has it for as long as it is open.
 */

export interface KeptKey<Key> {
  now(): Key | null;
  keep(key: Key): void;
  drop(): void;
}

type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** `read`: null for what is no key. `shelf`: where it is kept; may throw, as browsers do that forbid it. */
export function keptKey<Key>(name: string, read: (kept: unknown) => Key | null, shelf: () => Shelf): KeptKey<Key> {
  let key: Key | null = null;
  surviving(() => {
    key = read(JSON.parse(shelf().getItem(name) ?? 'null'));
  });
  return {
    now: () => key,
    keep(given) {
      key = given;
      surviving(() => shelf().setItem(name, JSON.stringify(given)));
    },
    drop() {
      key = null;
      surviving(() => shelf().removeItem(name));
    },
  };
}

/** Storage that is full, forbidden or tampered with is as good as none. */
function surviving(act: () => void): void {
  try {
    act();
  } catch {
    return;
  }
}
