/*
 * Keeps a screen or a phone awake. Browsers let a page ask for that only where it comes from this machine itself or is
 * encrypted, which the wall of a television on the pool's network is not; but they keep a screen awake while it
 * plays a video, so a page that may not ask plays one: a few pixels in a corner, without sound.
 */

/** What of the browser is used here. */
export interface AwakePorts {
  /** The browser's own screen lock; null where it has none for this page. */
  readonly lock: {
    request(type: 'screen'): Promise<{ addEventListener(type: 'release', tell: () => void): void }>;
  } | null;
  /** Plays the small video, or goes on with it; rejects where the browser does not let it. */
  play(): Promise<void>;
  isSeen(): boolean;
  /** Tells when the page is shown again: a page that was hidden has lost its lock, and its video stands. */
  onSeen(tell: () => void): void;
}

/** tell: whether the screen is kept awake, at first and on every change. */
export function keepAwake({ lock, play, isSeen, onSeen }: AwakePorts, tell: (kept: boolean) => void): void {
  const playInstead = (): void => {
    play().then(
      () => tell(true),
      () => tell(false),
    );
  };
  const ask = (): void => {
    if (!isSeen()) return;
    if (!lock) return playInstead();
    lock.request('screen').then((held) => {
      held.addEventListener('release', () => tell(false));
      tell(true);
    }, playInstead);
  };
  onSeen(ask);
  ask();
}

export function browserAwake(): AwakePorts {
  const play = createVideo();
  return {
    lock: window.isSecureContext && 'wakeLock' in navigator ? navigator.wakeLock : null,
    play,
    isSeen: () => document.visibilityState === 'visible',
    onSeen: (tell) => document.addEventListener('visibilitychange', tell),
  };
}

/** Browsers take a video for one that is watched only where some of it is seen. */
const SEEN: Partial<CSSStyleDeclaration> = {
  position: 'fixed',
  right: '0',
  bottom: '0',
  width: '1vmin',
  height: '1vmin',
  opacity: '0.02',
  pointerEvents: 'none',
};

/** Of a canvas that never changes, so that nothing has to be loaded; made when it is first wanted. */
function createVideo(): () => Promise<void> {
  let video: HTMLVideoElement | null = null;
  return async () => {
    if (!video) {
      const canvas = document.createElement('canvas');
      canvas.getContext('2d')?.fillRect(0, 0, canvas.width, canvas.height);
      video = document.createElement('video');
      Object.assign(video.style, SEEN);
      video.muted = true;
      video.setAttribute('playsinline', '');
      video.setAttribute('aria-hidden', 'true');
      video.srcObject = canvas.captureStream(1);
      document.body.appendChild(video);
    }
    await video.play();
  };
}
