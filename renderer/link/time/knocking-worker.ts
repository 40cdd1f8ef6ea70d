/*
 * In the worker: sends a message every so many ms, as told; null ends it.
 */

let timer = 0;

self.onmessage = ({ data }: MessageEvent<number | null>) => {
  self.clearInterval(timer);
  if (data !== null) timer = self.setInterval(() => self.postMessage(null), data);
};

// Makes this file a module of its own.
export {};
