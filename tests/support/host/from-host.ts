/*
 * What a host has said, for tests that expect nothing but messages of this version.
 */

import { hearHost, type FromHost } from '../../../app/wire/messages.ts';

/** null for anything that is not one. Never throws. */
export function readFromHost(text: string): FromHost | null {
  const heard = hearHost(text);
  return heard.kind === 'message' ? heard.message : null;
}
