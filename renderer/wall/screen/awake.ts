/*
 * Keeps the screen awake where the browser lets a page ask for it, which it does for pages of the machine's own
 * address and for encrypted ones only.
 */

/** What of the browser's screen lock is used here. */
export interface AwakePorts {
  /** null where the browser has none for this page. */
  readonly lock: {
    request(type: 'screen'): Promise<{ addEventListener(type: 'release', tell: () => void): void }>;
  } | null;
  isSeen(): boolean;
  /** Tells when the page is shown again: a page that was hidden has lost its lock. */
  onSeen(tell: () => void): void;
}

/** tell: whether the screen is kept awake, at first and on every change. */
export function keepAwake({ lock, isSeen, onSeen }: AwakePorts, tell: (kept: boolean) => void): void {
  if (!lock) return tell(false);
  const ask = (): void => {
    if (!isSeen()) return;
    lock.request('screen').then(
      (held) => {
        held.addEventListener('release', () => tell(false));
        tell(true);
      },
      () => tell(false),
    );
  };
  onSeen(ask);
  ask();
}

export function browserAwake(): AwakePorts {
  return {
    lock: window.isSecureContext && 'wakeLock' in navigator ? navigator.wakeLock : null,
    isSeen: () => document.visibilityState === 'visible',
    onSeen: (tell) => document.addEventListener('visibilitychange', tell),
  };
}
