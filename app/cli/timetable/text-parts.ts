/*
 * The middle of the text timetable: a block for each part with its stretches and their starts. Under every set are the
 * leaves of each lane, as readings of a clock that starts with the stretch.
 */

import type { Plan, Stretch } from '../../core/plan/plan.ts';
import type { PlannedTime } from '../../core/plan/schedule.ts';
import type { PartTotal } from '../../core/plan/totals.ts';
import type { Session } from '../../core/session/session.ts';
import { about } from '../../core/words/time/estimate.ts';
import { capital } from '../../core/words/phrase.ts';
import { reading } from '../../core/words/time/reading.ts';
import { roundText } from '../../core/words/round.ts';
import { pauseText } from '../../core/words/stretch.ts';
import { timeOfDayAfter } from '../../core/words/time/time-of-day.ts';
import type { StretchPassage } from './passages.ts';
import { setLabel } from './set-label.ts';
import { columns, ends, leaveRows, wrapped, type Sheet } from './sheet.ts';

/** A plan, with what is worked out once for the whole sheet. */
export interface Timetable {
  readonly plan: Plan;
  readonly times: readonly PlannedTime[];
  readonly passages: (stretch: Stretch) => readonly StretchPassage[];
  /** The index of the first stretch whose start is based on an estimate, see `estimatedFrom`. */
  readonly estimatedFrom: number;
}

/** The row with the names of the lanes, one in each column. */
export function laneNames(plan: Plan, sheet: Sheet): string {
  return columns(
    plan.session.lanes.slice(sheet.from, sheet.to).map(({ number }) => `Lane ${number}`),
    sheet,
  );
}

/** The block of one part. */
export function partLines(table: Timetable, part: PartTotal, sheet: Sheet): readonly string[] {
  const { plan } = table;
  const blocks = [
    ends(part.name, startText(table, part.first), sheet.width, '─'),
    noteLines(plan.session, part.partIndex, sheet.width),
  ];
  for (let index = part.first; index <= part.last; index++) {
    const stretch = plan.stretches[index]!;
    const start = index > part.first ? startText(table, index) : '';
    if (stretch.kind !== 'swim') {
      blocks.push([''], inset(capital(pauseText(stretch)), start, sheet.width));
      continue;
    }
    if (index > part.first) blocks.push([''], inset('Swim, clock from 0:00', start, sheet.width));
    blocks.push([laneNames(plan, sheet)], swimLines(table, stretch, sheet));
  }
  return blocks.flat();
}

/** "note: …", "kit: …" of a part, or of the session above its parts (null). */
export function noteLines({ notes }: Session, partIndex: number | null, width: number): readonly string[] {
  return notes
    .filter((note) => note.partIndex === partIndex)
    .flatMap(({ kind, words }) => wrapped(`${kind}: ${words}`, width, '  ', '    '));
}

/** When a stretch is planned to start and whether it waits for the coach. */
function startText({ plan, times, estimatedFrom }: Timetable, index: number): string {
  const { start, waits } = times[index]!;
  const { startsAt } = plan.session;
  const when = startsAt === null ? `${reading(start)} in` : timeOfDayAfter(startsAt, start);
  return `${about(index >= estimatedFrom)}${when}, ${waits === 'call' ? "on the coach's word" : 'by itself'}`;
}

/** A line within a part, with its start at the far end. */
function inset(left: string, right: string, width: number): readonly string[] {
  return ends(left, right, width - 2).map((line) => `  ${line}`);
}

function swimLines({ passages }: Timetable, stretch: Stretch, sheet: Sheet): readonly string[] {
  const lines: string[] = [];
  let rounds = '';
  for (const { set, line, lanes } of passages(stretch)) {
    const here = capital(roundText(set.rounds));
    if (here !== '' && here !== rounds) lines.push(`  ${here}`);
    rounds = here;
    lines.push(...wrapped(setLabel(line, lanes), sheet.width, '  ', '    '));
    if (lanes.slice(sheet.from, sheet.to).some((reps) => reps.length > 0)) lines.push(...leaveRows(lanes, sheet));
    else lines.push(columns(['–'], sheet));
  }
  return lines;
}
