/*
 * What goes from a record into the editor: its session, to be done again, or a pace that a test came to.
 */

import { readDay } from '../../../app/core/day.ts';
import { ratio, roundTo } from '../../../app/core/ratio.ts';
import { plainLane } from '../../../app/core/session/line/lane-line.ts';
import { movedSession } from '../../../app/core/session/text/moved-session.ts';
import { dayOf } from '../../../app/core/session/text/session-day.ts';
import { lanesWritten, textWithLane } from '../../../app/core/session/text/text-with-lane.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import type { CssOffered } from '../afterwards/times-table.tsx';
import { dateOf, movedName, nextDay, today } from '../library/naming/moved-name.ts';
import type { Writing } from '../write/writing.ts';

export interface SessionAgain {
  readonly title: string;
  readonly openedAt: string;
  readonly text: string;
  readonly lanesText: string | null;
}

/** A session goes into the editor for the next day that is the same weekday; what is to be said. `run`: the one open now. */
export function bringAgain(writing: Writing, again: SessionAgain, run: string | null): string {
  const { title, openedAt, text, lanesText } = again;
  const swum = readDay(openedAt.slice(0, 10));
  const day = nextDay(swum, today());
  const planned = dayOf(text);
  const name = movedName(title, planned, day, planned ?? swum);
  writing.put({
    text: movedSession(text, day, null),
    lanesText: lanesText ?? '',
    from: `${name}.txt`,
    during: run,
  });
  return swum ? `${title} as it was swum on ${dateOf(swum)}, for ${dateOf(day)}.` : `${title} as it was swum.`;
}

/** The pace goes into the lane's line in the editor; what is to be said. */
export function bringCss(writing: Writing, { lane, css }: CssOffered, run: string | null): string {
  const { draft, saving } = writing.state();
  const written = lanesWritten(draft.text).lanes.find(({ number }) => number === lane)?.lane ?? plainLane(lane);
  const pace = roundTo(100, ratio(css));
  writing.write({ text: textWithLane(draft.text, { ...written, css: pace }) }, run);
  return `Lane ${lane} has css ${reading(pace)} in ${saving.file?.name ?? 'the session in the editor'}.`;
}
