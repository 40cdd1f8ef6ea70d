/*
 * The kit and the note in force where a stretch stands: the last of each above what is swum next, in its part.
 */

import type { Plan } from '../../app/core/plan/plan.ts';
import type { RunView } from '../../app/core/run/view.ts';

/** Their words; '' where there is none. */
export interface NotesNow {
  readonly kit: string;
  readonly note: string;
}

export function notesNow({ plan, stretch, lanes }: RunView): NotesNow {
  const swum = lanes.map(({ next, last }) => (next ?? last)?.rep.set.line).filter((line) => line !== undefined);
  const at = stretch.kind === 'swim' ? Math.min(...swum) : stretch.line;
  return notesAt(plan, stretch.partIndex, at);
}

/** In force at a line of a part. */
export function notesAt({ session }: Plan, partIndex: number, line: number): NotesNow {
  const words = (kind: keyof NotesNow): string => {
    const above = session.notes.filter(
      (note) => note.kind === kind && note.partIndex === partIndex && note.line < line,
    );
    return above.length === 0 ? '' : above[above.length - 1]!.words;
  };
  return { kit: words('kit'), note: words('note') };
}
