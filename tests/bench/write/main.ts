/*
 * `npm run bench:write`: how long a key takes in the editor, in a real Chromium, from the key's own time until the
 * letter stands there and all that it sets off at once is done, with sessions and lanes open beside it. Keys come 90 ms
 * apart with a pause after every fifth, of 0.3 s and of a second in turn, so that what is read and drawn after a pause is met
 * in the midst of it. Then as many keys again, traced: the processor time of the task that takes a key, and of the longest task
 * besides, which may hold up the next key. Beside it the text area that stood there before; `-- --without-before` leaves that out.
 */

import { cpus, loadavg } from 'node:os';
import { chromium, type Page } from 'playwright';
import { browserPath, findBrowser } from '../../support/system/browser.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { buildBefore } from './build-before.ts';
import { serve } from './serve.ts';
import { tasksDuring, type Tasks } from './tasks.ts';
import { longText, TEXTS } from './texts.ts';

const KEYS = 120;
const APART = 90;
const PAUSES = [300, 1000] as const;

declare global {
  interface Window {
    keyTimes?: number[];
  }
}

const before = process.argv.includes('--without-before') ? null : buildBefore();
const programs = [{ name: 'now', dist: 'dist' }, ...(before === null ? [] : [{ name: 'before', dist: before }])];
process.stdout.write(
  `${cpus().length} cores, load ${loadavg()[0]!.toFixed(1)} before; ms a key: p50, p99, most; of the processor's, traced\n`,
);
const browser = await chromium.launch({ executablePath: findBrowser() ?? browserPath(), args: ['--no-sandbox'] });
try {
  for (const { name: size, lines } of TEXTS) {
    for (const { name, dist } of programs) {
      const host = await serve(dist, freshDataFolder());
      try {
        const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
        await page.goto(host.origin);
        const times = await typed(page, longText(lines));
        const tasks = await tasksDuring(page, () => press(page));
        process.stdout.write(`${size.padEnd(19)} ${name.padEnd(6)} ${figures(times)};${taskFigures(tasks)}\n`);
        await page.close();
      } finally {
        host.stop();
      }
    }
  }
} finally {
  await browser.close();
}

async function typed(page: Page, text: string): Promise<readonly number[]> {
  const box = page.getByRole('textbox', { name: 'Session', exact: true });
  await box.waitFor();
  await paste(page, text);
  // The program of before has no such panel, or another.
  const lanes = page.getByRole('button', { name: 'Lanes and squads', exact: true });
  if (await lanes.isVisible()) await lanes.click();
  await page.waitForTimeout(6000);
  await box.press('Control+End');
  await page.keyboard.press('Enter');
  await page.waitForTimeout(2000);
  await page.evaluate(() => {
    window.keyTimes = [];
    let pressed = 0;
    window.addEventListener('keydown', ({ timeStamp }) => (pressed = timeStamp), true);
    // Behind all that listens in the page, and what that has React draw at once.
    window.addEventListener('input', () => window.keyTimes?.push(performance.now() - pressed));
  });
  await press(page);
  return page.evaluate(() => window.keyTimes ?? []);
}

async function press(page: Page): Promise<void> {
  for (let key = 0; key < KEYS; key++) {
    await page.keyboard.press('abcdefghij '.charAt(key % 11));
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
