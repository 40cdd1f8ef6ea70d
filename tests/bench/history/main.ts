/*
 * `npm run bench:history`: how long the coach's window takes with a thousand runs, in a real Chromium, from a click until
 * what it asks for has been painted. Each round starts the program and the browser anew; a window that has just been
 * opened is given three seconds, as long as it takes to find the button. The first time of a round is told apart from
 * the times after it. About two minutes, on a quiet machine; `-- 5` measures five rounds, `-- 3 DIST` another build.
 */

import { cpus, loadavg } from 'node:os';
import { chromium, type Locator, type Page } from 'playwright';
import { browserPath } from '../../support/system/browser.ts';
import { button } from '../../support/coach/coach-hand.ts';
import { serve } from '../write/serve.ts';
import { row, tableText } from '../table.ts';
import { RUNS, thousandEvenings, workedOut } from './thousand-evenings.ts';

const ROUNDS = Number(process.argv[2] ?? 3);
const DIST = process.argv[3] ?? 'dist';

/** In ms. */
const SETTLED = 3000;
const AGAIN = 5;

const WEEKS = ['Distance by week, planned and swum', 'Load and strain by week'];
const LANES = ['Distance by lane, planned and swum'];

/** By what was opened, in ms. */
const times = new Map<string, number[]>();

const data = thousandEvenings();
await workedOut(data);
process.stdout.write(`${cpus().length} cores, load ${loadavg()[0]!.toFixed(1)} before; ${RUNS} runs\n`);
for (let round = 0; round < ROUNDS; round++) await measureRound();
process.stdout.write(tableText([...times].map(([what, all]) => row(what, figures(all)))));
process.stdout.write(`load ${loadavg()[0]!.toFixed(1)} after; ms: median, most\n`);

async function measureRound(): Promise<void> {
  const host = await serve(DIST, data);
  const browser = await chromium.launch({ executablePath: browserPath(), args: ['--no-sandbox'] });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(host.origin);
    await page.getByRole('textbox', { name: 'Session', exact: true }).waitFor();
    await page.waitForTimeout(SETTLED);
    const history = button(page, 'History');
    const rows = { what: `the list, in ${RUNS} runs`, is: ['[aria-label="Runs found"] li:nth-child(60)'] };
    const record = { what: 'a record', is: ['main[aria-label="The record"] table'] };
    await opened(page, 'first', history, [rows, record]);
    for (let n = 1; n <= AGAIN; n++) await opened(page, 'again', runRow(page, n), [record]);
    for (let n = 0; n <= AGAIN; n++) {
      const time = n === 0 ? 'first' : 'again';
      await opened(page, time, button(page, /^Weeks/), [{ what: 'weeks drawn', is: WEEKS.map(drawn) }]);
      await opened(page, time, button(page, /^Lanes/), [{ what: 'lanes drawn', is: LANES.map(drawn) }]);
    }
    await button(page, 'Back to writing').click();
    await page.getByRole('textbox', { name: 'Session', exact: true }).waitFor();
    await page.waitForTimeout(SETTLED);
    await opened(page, 'again', history, [rows, record]);
  } finally {
    await browser.close();
    host.stop();
  }
}

interface Awaited {
  readonly what: string;
  /** What stands there then, as selectors. */
  readonly is: readonly string[];
}

async function opened(page: Page, time: 'first' | 'again', at: Locator, awaited: readonly Awaited[]): Promise<void> {
  const measured = awaited.map(async ({ what, is }) => {
    const ms = await page.evaluate(paintedAfterClick, is);
    const name = `${what}, ${time === 'first' ? 'the first time after a start' : 'again'}`;
    times.set(name, [...(times.get(name) ?? []), ms]);
  });
  await at.click();
  await Promise.all(measured);
  // What goes on behind it is no part of the next.
  await page.waitForTimeout(500);
}

/** In the page: from the next click until a frame with all of it has been painted. */
function paintedAfterClick(selectors: readonly string[]): Promise<number> {
  return new Promise((resolve) => {
    const painted = new MessageChannel();
    void new Promise<number>((clicked) =>
      window.addEventListener('click', ({ timeStamp }) => clicked(timeStamp), { capture: true, once: true }),
    ).then(async (clicked) => {
      do await new Promise((frame) => requestAnimationFrame(frame));
      while (!selectors.every((selector) => document.querySelector(selector)));
      painted.port1.onmessage = () => resolve(performance.now() - clicked);
      painted.port2.postMessage(null);
    });
  });
}

function drawn(label: string): string {
  return `svg[role="img"][aria-label="${label}"]`;
}

function runRow(page: Page, n: number): Locator {
  return page.locator('[aria-label="Runs found"] button').nth(n);
}

function figures(all: readonly number[]): string {
  const sorted = [...all].sort((a, b) => a - b);
  const at = (share: number): string => (sorted[Math.ceil(sorted.length * share) - 1] ?? NaN).toFixed(0).padStart(6);
  return `${at(0.5)} ${at(1)}  (${all.length})`;
}
