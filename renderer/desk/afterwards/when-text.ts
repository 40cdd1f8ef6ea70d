/*
 * When a run was.
 */

import { readDay, weekdayOf } from '../../../app/core/day.ts';
import type { HistoryRun } from '../../../app/core/record/history/history-run.ts';
import { commaed } from '../../../app/core/words/phrase.ts';
import { dateOf } from '../library/naming/moved-name.ts';

/** "Thursday 26 November 2026, 19:30 to 20:28". */
export function whenText({ openedAt }: Pick<HistoryRun, 'openedAt'>, until: string): string {
  const day = readDay(openedAt.slice(0, 10));
  const words = day ? `${weekdayOf(day)} ${dateOf(day)} ${day.year}` : '';
  return commaed(words, `${openedAt.slice(11, 16)} to ${until}`);
}
