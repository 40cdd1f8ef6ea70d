/*
 * `npm run bench:write`: how long a key takes in the editor, in a real Chromium, from the key's own time until the
 * letter stands there and all that it sets off at once is done. First words are typed beside the lanes, then sets beside the
 * timetable: they stand half written most of the time, so that faults come and go and the timetable is drawn anew. Keys come
 * 90 ms apart with a pause after every fifth, of 0.3 s and of a second in turn, so that what is read and drawn after a pause is
 * met in the midst of it. Then sets once more, traced: the processor time of the task that takes a key, and of the longest task
 * besides, which may hold up the next key. Before all that, a search among a thousand sessions. Beside it the text area that stood there before; `-- --without-before` leaves that out.
 */

import { cpus, loadavg } from 'node:os';
import { chromium, type Locator, type Page } from 'playwright';
import { browserPath, findBrowser } from '../../support/system/browser.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { SESSIONS, thousandSessions } from '../thousand-sessions.ts';
import { buildBefore } from './build-before.ts';
import { searchTimes } from './search.ts';
import { serve } from './serve.ts';
import { tasksDuring, type Tasks } from './tasks.ts';
import { longText, TEXTS } from './texts.ts';

const KEYS = 120;
const APART = 90;
const PAUSES = [300, 1000] as const;
const WORDS = [...'abcdefghij '];
const SETS = [...'4 x 50 free @ 1:00', 'Enter'];

declare global {
  interface Window {
    keyTimes?: number[];
  }
}

const before = process.argv.includes('--without-before') ? null : buildBefore();
const programs = [{ name: 'now', dist: 'dist' }, ...(before === null ? [] : [{ name: 'before', dist: before }])];
process.stdout.write(`${cpus().length} cores, load ${loadavg()[0]!.toFixed(1)} before; ms a key: p50, p99, most\n`);
const browser = await chromium.launch({ executablePath: findBrowser() ?? browserPath(), args: ['--no-sandbox'] });
try {
  await search();
  for (const { name: size, lines } of TEXTS) {
    for (const { name, dist } of programs) {
      const host = await serve(dist, freshDataFolder());
      try {
        const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
        await page.goto(host.origin);
        await open(page, longText(lines));
        const say = (what: string, said: string): boolean =>
          process.stdout.write(`${size.padEnd(19)} ${name.padEnd(6)} ${what.padEnd(22)} ${said}\n`);
        say('words beside the lanes', figures(await times(page, WORDS)));
        await closeLanes(page);
        say('sets', figures(await times(page, SETS)));
        say('sets, processor time', taskFigures(await tasksDuring(page, () => press(page, SETS))));
        await page.close();
      } finally {
        host.stop();
      }
    }
  }
} finally {
  await browser.close();
}

async function search(): Promise<void> {
  const data = freshDataFolder();
  thousandSessions(data);
  const host = await serve('dist', data);
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(host.origin);
    const { first, fewer, more, whole, quiet } = await searchTimes(page);
    const say = (what: string, said: string): boolean => process.stdout.write(`${what.padEnd(50)} ${said}\n`);
    say(`search among ${SESSIONS} sessions, rows in sight`, figures([...fewer, ...more]));
    say('the first key after opening', figures([first]));
    say('from many rows to fewer', figures(fewer));
    say('from few rows to more', figures(more));
    say('until all rows are there', figures(whole));
    say('longest task of 11 s without a key', `${quiet.toFixed(1)} of processor time`);
    await page.close();
  } finally {
    host.stop();
  }
}

/** The program of before has no such panel, or another. */
function lanesButton(page: Page): Locator {
  return page.getByRole('button', { name: 'Lanes and squads', exact: true });
}

async function closeLanes(page: Page): Promise<void> {
  if (await lanesButton(page).isVisible()) await lanesButton(page).click();
  await page.waitForTimeout(1000);
  await page.getByRole('textbox', { name: 'Session', exact: true }).press('Control+End');
  await page.keyboard.press('Enter');
  await page.waitForTimeout(2000);
}

async function open(page: Page, text: string): Promise<void> {
  const box = page.getByRole('textbox', { name: 'Session', exact: true });
  await box.waitFor();
  await paste(page, text);
  if (await lanesButton(page).isVisible()) await lanesButton(page).click();
  await page.waitForTimeout(6000);
  await box.press('Control+End');
  await page.keyboard.press('Enter');
  await page.waitForTimeout(2000);
  await page.evaluate(() => {
    let pressed = 0;
    window.addEventListener('keydown', ({ timeStamp }) => (pressed = timeStamp), true);
    // Behind all that listens in the page, and what that has React draw at once.
    window.addEventListener('input', () => window.keyTimes?.push(performance.now() - pressed));
  });
}

/** One for each key but Enter, which is no input. */
async function times(page: Page, keys: readonly string[]): Promise<readonly number[]> {
  await page.evaluate(() => (window.keyTimes = []));
  await press(page, keys);
  return page.evaluate(() => window.keyTimes ?? []);
}

async function press(page: Page, keys: readonly string[]): Promise<void> {
  for (let key = 0; key < KEYS; key++) {
    await page.keyboard.press(keys[key % keys.length]!);
    await page.waitForTimeout(key % 5 === 4 ? PAUSES[key % 2]! : APART);
  }
}

/** As from the clipboard: into a text area by its value, which knows no pasting by script. */
async function paste(page: Page, text: string): Promise<void> {
  await page.getByRole('textbox', { name: 'Session', exact: true }).evaluate((element, given) => {
    (element as HTMLElement).focus();
    if (element instanceof HTMLTextAreaElement) {
      document.execCommand('insertText', false, given);
      return;
    }
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', given);
    element.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, text);
}

function taskFigures({ keys, others }: Tasks): string {
  return `${figures(keys)}, longest besides ${Math.max(...others).toFixed(1)}`;
}

function figures(times: readonly number[]): string {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): string => (sorted[Math.ceil(sorted.length * share) - 1] ?? NaN).toFixed(1).padStart(7);
  return `${at(0.5)} ${at(0.99)} ${at(1)}  (${times.length} keys)`;
}
