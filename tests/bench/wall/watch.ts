/*
 * What a page tells of its own frames while it is watched: which they were, when each began, how long the main thread was
 * at it, and when the seconds of its clock changed. It is put into the page before anything else, so that its callback is the
 * first of every frame.
 */

import type { Page } from 'playwright';

/** Times in ms since the epoch, durations in ms. */
export interface Watched {
  /** When each frame was begun. */
  readonly frames: readonly number[];
  /** The time of each, by the screen's rhythm: the same however late it was begun. */
  readonly ticks: readonly number[];
  /** Of each frame, from its beginning until its script, style, layout and paint were done. */
  readonly busy: readonly number[];
  /** When the clock showed another second. */
  readonly seconds: readonly number[];
}

declare global {
  interface Window {
    watched: { frames: number[]; ticks: number[]; busy: number[]; seconds: number[] };
  }
}

export async function watch(page: Page): Promise<void> {
  // tsx gives functions their names by a helper of its own, which pages have not.
  await page.addInitScript({ content: 'self.__name = (named) => named;' });
  await page.addInitScript(() => {
    const watched = (window.watched = { frames: [], ticks: [], busy: [], seconds: [] } as Window['watched']);
    const { timeOrigin } = performance;
    const after = new MessageChannel();
    let begun = 0;
    after.port1.onmessage = () => void watched.busy.push(performance.now() - begun);
    const frame = (tick: number): void => {
      requestAnimationFrame(frame);
      begun = performance.now();
      watched.ticks.push(tick);
      watched.frames.push(timeOrigin + begun);
      after.port2.postMessage(null);
    };
    requestAnimationFrame(frame);
    const changed = (changes: MutationRecord[]): void => {
      const isClock = changes.some(({ target }) => {
        const element = target instanceof Element ? target : target.parentElement;
        return element?.closest("[role='timer']");
      });
      if (isClock) watched.seconds.push(timeOrigin + performance.now());
    };
    new MutationObserver(changed).observe(document, { childList: true, characterData: true, subtree: true });
  });
}

/** What was seen since the last time this was asked. */
export function watchedSince(page: Page): Promise<Watched> {
  return page.evaluate(() => {
    const { frames, ticks, busy, seconds } = window.watched;
    return { frames: frames.splice(0), ticks: ticks.splice(0), busy: busy.splice(0), seconds: seconds.splice(0) };
  });
}
