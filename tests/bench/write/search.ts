/*
 * A search among a thousand sessions in the panel beside the text: how long from a key until a frame with the rows that it
 * finds has been painted, as many as are in sight.
 */

import type { Page } from 'playwright';
import type { LibraryAnswer } from '../../../app/wire/library.ts';
import { longestTask } from './tasks.ts';

/** Each goes back letter by letter: from many rows to a few, and from a few to many. */
const SEARCHED = ['kick', 'thu', '77', 'n 777'];

/** As many rows as a window of 800 px can show. */
const IN_SIGHT = 12;
const APART = 250;
/** In ms: the list is looked up twice in that time. */
const QUIET = 11_000;

export interface SearchTimes {
  /** In ms, of the first letter after the page was opened; it finds something else. */
  readonly first: number;
  /** Of each later key that changed what is in sight: rows that were taken away, and rows that came. */
  readonly fewer: readonly number[];
  readonly more: readonly number[];
  /** Until all rows were there, also those that are out of sight. */
  readonly whole: readonly number[];
  /** The longest task while nobody typed, in ms of the processor. */
  readonly quiet: number;
}

interface Found {
  readonly rows: number;
  readonly inSight: string;
}

export async function searchTimes(page: Page): Promise<SearchTimes> {
  const field = page.getByRole('searchbox');
  await page.locator('[aria-label="Sessions found"] li:nth-child(200)').waitFor();
  const quiet = await longestTask(page, () => page.waitForTimeout(QUIET));
  const first: number[] = [];
  const times = { fewer: [] as number[], more: [] as number[], whole: [] as number[] };
  const before = await found(page, '');
  // Each answer is known before, so that asking is no part of what is measured.
  const known = new Map<string, Found>([['', before]]);
  for (const text of SEARCHED) {
    for (let n = 1; n <= text.length; n++) known.set(text.slice(0, n), await found(page, text.slice(0, n)));
  }
  await field.focus();
  await page.waitForTimeout(APART);
  for (const text of SEARCHED) {
    let shown = '';
    for (let key = 0; key < 2 * text.length; key++) {
      const next = key < text.length ? text.slice(0, key + 1) : shown.slice(0, -1);
      const is = known.get(next)!;
      const was = known.get(shown)!;
      const watch = await page.evaluateHandle(watchKey, { ...is, count: IN_SIGHT });
      await page.keyboard.press(key < text.length ? text[key]! : 'Backspace');
      const { inSight, whole } = await watch.evaluate(({ painted }) => painted);
      if (is.inSight !== was.inSight) {
        if (text === SEARCHED[0] && key === 0) first.push(inSight);
        else times[is.rows < was.rows ? 'fewer' : 'more'].push(inSight);
        times.whole.push(whole);
      }
      shown = next;
      await page.waitForTimeout(APART);
    }
  }
  return { first: first[0] ?? NaN, ...times, quiet };
}

/** What the library answers. */
async function found(page: Page, find: string): Promise<Found> {
  const answer = await page.evaluate(async (words) => {
    const body = JSON.stringify({ do: 'list', find: words, most: 200 });
    const headers = { 'Content-Type': 'application/json' };
    const response = await fetch('/library', { method: 'POST', headers, body });
    return (await response.json()) as LibraryAnswer<'list'>;
  }, find);
  if (!answer.ok) throw new Error(answer.why);
  const names = answer.sessions.map(({ name }) => name);
  return { rows: names.length, inSight: names.slice(0, IN_SIGHT).join('\n') };
}

interface Awaited extends Found {
  readonly count: number;
}

interface Painted {
  readonly inSight: number;
  readonly whole: number;
}

/** In the page: from the next key until a frame with those rows has been painted. Functions there can have no names. */
function watchKey(awaited: Awaited): { readonly painted: Promise<Painted> } {
  const pressed = new Promise<number>((done) =>
    window.addEventListener('keydown', ({ timeStamp }) => done(timeStamp), { capture: true, once: true }),
  );
  const painted = pressed.then(async (from) => {
    const list = document.querySelector('[aria-label="Sessions found"]')!;
    const times: number[] = [];
    while (times.length < 2) {
      await new Promise((next) => requestAnimationFrame(next));
      const names = [...list.children].slice(0, awaited.count).map((row) => row.querySelector('b')!.textContent);
      const isWhole = list.childElementCount === awaited.rows;
      if (names.join('\n') !== awaited.inSight || (times.length === 1 && !isWhole)) continue;
      await new Promise((done) => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = done;
        port2.postMessage(null);
      });
      const time = performance.now() - from;
      times.push(...(isWhole ? [time, time] : [time]));
    }
    return { inSight: times[0]!, whole: times[times.length - 1]! };
  });
  return { painted };
}
