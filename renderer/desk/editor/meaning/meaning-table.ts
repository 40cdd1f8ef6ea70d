/*
 * What a line means in each lane, as a table to look at and as sentences to hear.
 */

import { capital, commaed } from '../../../../app/core/words/phrase.ts';
import type { LaneMeaning, LineMeaning } from '../../timetable/line-meaning.ts';
import styles from './meaning-table.module.css';

type Column = Exclude<keyof LaneMeaning, 'lane'>;

const COLUMNS: readonly (readonly [key: Column, head: string])[] = [
  ['swims', 'swims'],
  ['interval', 'on'],
  ['target', 'holds'],
  ['leaves', 'leaves at'],
  ['takes', 'takes'],
];

export function meaningTable(meaning: LineMeaning): HTMLElement {
  const { words, note, lanes } = meaning;
  const whole = element('div', styles.meaning);
  whole.append(element('b', undefined, words));
  if (lanes.length > 0) {
    const columns = COLUMNS.filter(([key]) => lanes.some((lane) => lane[key] !== ''));
    const table = element('table', styles.table);
    const head = element('tr');
    head.append(...['lane', ...columns.map(([, name]) => name)].map((name) => element('th', undefined, name)));
    table.append(head, ...lanes.map((lane) => row(lane, columns)));
    whole.append(table);
  }
  if (note !== '') whole.append(element('p', undefined, note));
  return whole;
}

function row(lane: LaneMeaning, columns: typeof COLUMNS): HTMLElement {
  const made = element('tr');
  made.append(element('th', undefined, `${lane.lane}`));
  if (lane.swims === '') {
    const sits = element('td', undefined, 'sits it out') as HTMLTableCellElement;
    sits.colSpan = columns.length;
    made.append(sits);
  } else {
    made.append(...columns.map(([key]) => element('td', key === 'leaves' ? styles.leaves : undefined, lane[key])));
  }
  return made;
}

function element(name: string, look?: string, text = ''): HTMLElement {
  const made = document.createElement(name);
  if (look !== undefined) made.className = look;
  made.textContent = text;
  return made;
}

/** "4 x 50 fast. Lane 1: 4 x 50, on 0:50, leaves at 0:00, 0:50, takes 3:20. …" */
export function meaningText({ words, note, lanes }: LineMeaning): string {
  const said = lanes.map((lane) => {
    const values = COLUMNS.map(([key, head]) =>
      lane[key] === '' ? '' : key === 'swims' ? lane[key] : `${head} ${lane[key]}`,
    );
    return `Lane ${lane.lane}: ${lane.swims === '' ? 'sits it out' : commaed(...values)}.`;
  });
  return [`${capital(words)}.`, ...said, note].filter((each) => each !== '').join(' ');
}
