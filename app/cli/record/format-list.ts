/*
 * All runs, a line each: for people, programs and a spreadsheet.
 */

import { csvText, wordsCell } from '../../core/csv.ts';
import { ENDED } from '../../core/record/ended-words.ts';
import type { ListedRun } from '../../host/records/run-list.ts';

/** The widest a title may make its column; a longer one goes beyond it. */
const WIDEST_TITLE = 40;

export function listText(runs: readonly ListedRun[]): string {
  const widest = (texts: readonly string[]): number => texts.reduce((most, { length }) => Math.max(most, length), 0);
  const ids = widest(runs.map(({ run }) => run));
  const titles = Math.min(WIDEST_TITLE, widest(runs.map(({ title }) => title)));
  return runs
    .map(({ run, openedAt, title, ended }) => {
      const [day, time] = [openedAt.slice(0, 10), openedAt.slice(11, 16)];
      return `${run.padEnd(ids)}  ${day} ${time}  ${title.padEnd(titles)}  ${ENDED[ended]}\n`;
    })
    .join('');
}

export function listJson(runs: readonly ListedRun[]): string {
  const list = runs.map(({ run, title, openedAt, ended }) => ({ run, title, openedAt, ended }));
  return `${JSON.stringify(list, null, 2)}\n`;
}

export function listCsv(runs: readonly ListedRun[]): string {
  const rows = runs.map(({ run, title, openedAt, ended }) => [wordsCell(run), openedAt, wordsCell(title), ended]);
  return csvText([['run', 'opened at', 'title', 'ended'], ...rows]);
}
