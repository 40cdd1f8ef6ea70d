/*
 * Tells the main process when the page has been painted: that it has been loaded proves nothing where a graphics
 * card or a display server refuses. The engine counts its first frame with content once that has been presented
 * (W3C Paint Timing).
 */

import { ipcRenderer } from 'electron';
import { CHANNELS } from '../../wire/window-bridge.ts';

/** As much of the page's `PerformanceObserver` as is needed; Node's types know another. */
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
