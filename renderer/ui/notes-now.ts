/*
 * The kit and the note in force where a stretch stands: the last of each above what is swum next, in its part.
 */

import type { RunView } from '../../app/core/run/view.ts';

/** Their words; '' where there is none. */
export interface NotesNow {
  readonly kit: string;
  readonly note: string;
}

export function notesNow({ plan, stretch, lanes }: RunView): NotesNow {
  const swum = lanes.map(({ next, last }) => (next ?? last)?.rep.set.line).filter((line) => line !== undefined);
  const at = stretch.kind === 'swim' ? Math.min(...swum) : stretch.line;
  const words = (kind: 'kit' | 'note'): string => {
    const above = plan.session.notes.filter(
      (note) => note.kind === kind && note.partIndex === stretch.partIndex && note.line < at,
    );
    return above.length === 0 ? '' : above[above.length - 1]!.words;
  };
  return { kit: words('kit'), note: words('note') };
}
