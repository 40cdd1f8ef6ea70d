/*
 * What is to lie ready at the pool: the kit of a session, by its `kit` lines, in the order in which it is needed.
 */

import type { Session } from '../../../app/core/session/session.ts';

/** "fins for Warm-up; paddles, pull buoy for Main set"; what a part names again stands there once. null without kit. */
export function neededKit({ notes, parts }: Session): string | null {
  const kit = notes
    .filter(({ kind }) => kind === 'kit')
    .map(({ words, partIndex }) => (partIndex === null ? words : `${words} for ${parts[partIndex]!.name}`));
  return kit.length === 0 ? null : [...new Set(kit)].join('; ');
}
