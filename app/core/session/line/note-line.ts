/*
 * `note: mind the hands` and `kit: paddles, pull buoy`: words for whoever stands or swims there. Nobody waits for them.
 */

import type { Flaw } from '../values/flaw.ts';
import { foldSpaces } from '../text/lines.ts';

export interface NoteLine {
  readonly kind: 'note' | 'kit';
  readonly words: string;
}

const NOTE = /^(note|kit):\s*/i;

/** Whether a line that begins with a letter is a note or kit line. The colon makes it one. */
export function isNote(text: string): boolean {
  return NOTE.test(text);
}

/** Its words, whatever they are; a flaw where there are none. */
export function readNote(text: string): NoteLine | Flaw {
  const found = NOTE.exec(text)!;
  const kind = found[1]!.toLowerCase() as NoteLine['kind'];
  const words = foldSpaces(text.slice(found[0].length));
  const example = kind === 'kit' ? 'paddles, pull buoy' : 'mind the hands';
  if (words === '') return { at: 0, message: `there is nothing after ${kind}: write ${kind}: ${example}` };
  return { kind, words };
}
