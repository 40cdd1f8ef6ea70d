/*
 * What this browser keeps for the page: settings of this screen, and the draft. If the browser forbids it, nothing is kept
 * and the page works all the same.
 */

export type OwnStorage = Pick<Storage, 'getItem' | 'setItem'>;

export function ownStorage(): Storage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}

/** The same for this window alone, until it is closed. */
export function windowStorage(): OwnStorage | null {
  try {
    return window.sessionStorage;
  } catch {
    return null;
  }
}
