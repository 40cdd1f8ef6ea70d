/*
 * What a session is called in the library, where nobody has named it: as its title says, or by the day.
 */

import { titleOf as titleWritten } from '../../../../app/core/session/parse.ts';
import { contentOf } from '../../../../app/core/session/text/lines.ts';
import { MONTHS } from '../../../../app/core/day.ts';
import type { Draft } from '../draft.ts';

/** Below these nobody looks for a title. */
const LINES_READ = 60;

/** null where there is none yet: a first line alone may still be on its way to one. */
export function titleOf(text: string): string | null {
  const begin = text.split('\n', LINES_READ);
  const written = begin.filter((line) => contentOf(line) !== '');
  return written.length > 1 ? titleWritten(begin.join('\n')) : null;
}

/** "Session 27 November". `at`: in ms since 1970. */
export function untitled(at: number): string {
  const date = new Date(at);
  return `Session ${date.getDate()} ${MONTHS[date.getMonth()]}`;
}

/** The name of the file that a draft came from; null for one that came from none. */
export function newNameOf({ from }: Pick<Draft, 'from'>): string | null {
  return from === null ? null : (/^(.+)\.(?:txt|lanecall)$/i.exec(from)?.[1] ?? null);
}
