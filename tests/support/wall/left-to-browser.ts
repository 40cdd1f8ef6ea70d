/*
 * What a page leaves to the browser to move: in a document without a browser nothing does.
 */

import { vi } from 'vitest';

export interface Left {
  readonly element: Element;
  readonly frames: unknown;
  readonly timing: unknown;
  /** On the page's clock, in ms. */
  startTime: number | null;
  isCancelled: boolean;
}

/** From now on, until the mocks are restored. */
export function leftToBrowser(): readonly Left[] {
  const all: Left[] = [];
  vi.spyOn(Element.prototype, 'animate').mockImplementation(function (this: Element, frames, timing) {
    const left = {
      element: this,
      frames,
      timing,
      startTime: null,
      isCancelled: false,
      cancel: () => void (left.isCancelled = true),
    };
    all.push(left);
    return left as unknown as Animation;
  });
  return all;
}
