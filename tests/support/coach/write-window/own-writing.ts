/*
 * What is written in a window without a browser: kept in its storage, on the system's timers.
 */

import { Writing } from '../../../../renderer/desk/write/writing.ts';
import type { AskLibrary } from '../../../../renderer/link/requests/library.ts';
import type { AskRecords } from '../../../../renderer/link/requests/records.ts';

/** Never answers. */
export const silentLibrary: AskLibrary = () => new Promise(() => undefined);

/** Never answers. */
export const silentRecords: AskRecords = () => new Promise(() => undefined);

export function ownWriting(ask: AskLibrary = silentLibrary): Writing {
  return new Writing({
    memory: localStorage,
    ask,
    timers: { set: (call, ms) => setTimeout(call, ms), clear: (timer) => clearTimeout(timer as NodeJS.Timeout) },
    wall: () => Date.now(),
  });
}
