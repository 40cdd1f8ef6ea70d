/*
 * Tells the main process when the page has been painted. A page that has been loaded proves nothing: the graphics
 * card or the display server may fail. Chromium counts the first frame with content once it has been presented (W3C
 * Paint Timing).
 */

import { ipcRenderer } from 'electron';
import { CHANNELS } from '../../wire/window-bridge.ts';

/** The part of the page's `PerformanceObserver` that is used here; Node's types have another of that name. */
export type PaintObserver = new (seen: (list: { getEntriesByName(name: string): readonly unknown[] }) => void) => {
  observe(options: { readonly type: 'paint'; readonly buffered: true }): void;
};

export function tellWhenPainted(Observer: PaintObserver): void {
  new Observer((list) => {
    if (list.getEntriesByName('first-contentful-paint').length > 0) ipcRenderer.send(CHANNELS.painted);
  }).observe({ type: 'paint', buffered: true });
}

export function pageObserver(): PaintObserver {
  return (globalThis as unknown as { readonly PerformanceObserver: PaintObserver }).PerformanceObserver;
}
