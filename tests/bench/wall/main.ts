/*
 * `npm run bench:wall`: ten lanes on the built wall screen in a real Chromium, a minute at the machine's own speed and
 * a minute at a sixth of it, beside the naive way and a page with nothing in it. It says how many frames were drawn, how
 * many the screen went without and how many were begun late, how long the main thread was at each, how late the second
 * changed against the host's clock, and what it took of the processor. A browser that is slowed down begins frames late
 * whatever the page does: the empty page says how many, and each page's own work how many it is to blame for. About seven minutes, on a quiet machine; `-- 20` measures for
 * 20 s each.
 */

import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium, type Browser, type Page } from 'playwright';
import { findBrowser } from '../../support/system/browser.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { asPage, ServedHost } from '../../support/host/served-host.ts';
import { row, tableText, type Row } from '../table.ts';
import { virtualScreen } from '../virtual-screen.ts';
import { serveNaive } from './naive-page.ts';
import { traceWork } from './own-work.ts';
import { watch, watchedSince } from './watch.ts';

const SECONDS = Number(process.argv[2] ?? 60);

/** A frame of a screen with 60 Hz, and one that is late: the one before stood for longer than it should. */
const FRAME = 1000 / 60;
const LATE = 20;

/** A television's engine beside a desk's. */
const SLOWER = 6;

/** Of the system's own clock, a second: by them it counts a process's time. */
const TICKS = 100;

const LANES = Array.from({ length: 10 }, (_, lane) => lane + 1);

const SESSION = `start on 1
${LANES.map((lane) => `lane ${lane} base 1:30, ${2 + (lane % 5)} swimmers`).join('\n')}

Main set
40 x 4 x 25 fast @ ${LANES.map((lane) => `0:${20 + lane}`).join('/')} hold 0:16
`;

/** What was measured of a page. */
interface Measured {
  readonly frames: number;
  /** That the screen had to go without. */
  readonly missed: number;
  /** Begun more than `LATE` after the one before. */
  readonly late: number;
  /** For which the main thread's own work alone took longer than a frame: those the page is to blame for. */
  readonly overworked: number;
  /** That work, of each frame in ms. */
  readonly own: Spread;
  readonly busy: Spread;
  /** Mean of script, style and layout, by the browser's own account. */
  readonly work: number;
  /** Of the second's change, in frames after the host's clock. */
  readonly second: Spread;
  /** Of one core, in per cent. */
  readonly pageLoad: number;
  readonly hostLoad: number;
}

interface Spread {
  readonly p50: number;
  readonly p99: number;
  readonly max: number;
}

const absent = spawnSync('which', ['Xvfb']).status !== 0 ? 'Xvfb' : findBrowser() === null ? 'chromium' : null;
if (absent !== null) {
  process.stderr.write(
    `Missing: ${absent}. On Debian, as root: apt-get install --no-install-recommends chromium xvfb\n`,
  );
  process.exit(1);
}
process.stdout.write(await bench());

async function bench(): Promise<string> {
  const { child: screen, display } = await virtualScreen();
  const host = await ServedHost.start(freshDataFolder());
  const browser = await chromium.launch({
    executablePath: findBrowser()!,
    headless: false,
    env: { ...process.env, DISPLAY: display } as Record<string, string>,
    args: ['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
  const rows: Row[] = [row(`${cpus().length} cores, load`, loadavg()[0]!.toFixed(1))];
  try {
    const session = { text: SESSION, lanesText: null, replace: true, clockPhase: 0 };
    const opened = await asPage(host.origin, 'PUT', '/session', session);
    if (!opened.ok) throw new Error(`the session was not opened: ${await opened.text()}`);
    await host.command('start', { do: 'start' });
    await pause(12_000);
    for (const slower of [1, SLOWER]) {
      const ours = await measure(browser, host, 'ours', slower);
      const naive = await measure(browser, host, 'naive', slower);
      const empty = await measure(browser, host, 'an empty page', slower);
      const speed = slower === 1 ? "at the machine's speed" : `at a ${slower}th of it`;
      rows.push(row(`ten lanes, ${SECONDS} s, ${speed}`, ''), ...rowsOf('ours', ours), ...rowsOf('naive', naive));
      rows.push(framesRow('an empty page', empty));
      const ratio = (ours.work / naive.work).toFixed(2);
      rows.push(row('  ours to naive, script, style and layout a frame', ratio));
    }
  } finally {
    await browser.close();
    await host.kill();
    screen.kill('SIGTERM');
  }
  return tableText(rows);
}

function rowsOf(who: Who, measured: Measured): readonly Row[] {
  const { own, busy, work, second, pageLoad, hostLoad } = measured;
  const text = ({ p50, p99, max }: Spread): string =>
    `p50 ${p50.toFixed(2)}, p99 ${p99.toFixed(2)}, max ${max.toFixed(2)}`;
  return [
    framesRow(who, measured),
    row(`  ${who}: script, style and layout a frame`, `${work.toFixed(3)} ms`),
    row(`  ${who}: the main thread's own work a frame`, `${text(own)} ms`),
    row(`  ${who}: main thread a frame, painting included`, `${text(busy)} ms`),
    row(`  ${who}: the second's change, frames late`, text(second)),
    row(`  ${who}: of a core`, `page ${pageLoad.toFixed(1)} %, host ${hostLoad.toFixed(1)} %`),
  ];
}

function framesRow(who: Who, { frames, missed, late, overworked }: Measured): Row {
  return row(
    `  ${who}: frames`,
    `${frames}, ${(frames / SECONDS).toFixed(1)} a second, ${missed} missed, ${late} late, ${overworked} through its own work`,
  );
}

type Who = 'ours' | 'naive' | 'an empty page';

async function measure(browser: Browser, host: ServedHost, who: Who, slower: number): Promise<Measured> {
  const context = await browser.newContext({ viewport: { width: 1920, height: 1080 } });
  if (who === 'naive') await serveNaive(context);
  const page = await context.newPage();
  await watch(page);
  if (who === 'an empty page') await page.goto('about:blank');
  else await openWall(page, host);
  const control = await context.newCDPSession(page);
  await control.send('Performance.enable');
  await control.send('Emulation.setCPUThrottlingRate', { rate: slower });
  // The clock is in step and what is made once is made.
  await pause(8_000);
  const workBefore = await workOf(page);
  const [pageBefore, hostBefore] = [await pageTime(browser), processTime(host.child.pid!)];
  const traced = await traceWork(browser, page);
  await watchedSince(page);
  await pause(SECONDS * 1000);
  const { frames, ticks, busy, seconds } = await watchedSince(page);
  const [pageAfter, hostAfter] = [await pageTime(browser), processTime(host.child.pid!)];
  const own = await traced();
  const work = (await workOf(page)) - workBefore;
  // As far as the host's clock is ahead of this process's, which has the page's epoch.
  const { snapshot, ahead } = await host.sight();
  const start = startOf(snapshot.run!.commands);
  const lateness = seconds.map((at) => lateBy(at - performance.timeOrigin + ahead - start) / FRAME);
  await context.close();
  const load = (before: number, after: number): number => ((after - before) / SECONDS) * 100;
  return {
    frames: frames.length,
    missed: between(ticks).reduce((sum, gap) => sum + Math.max(0, Math.round(gap / FRAME) - 1), 0),
    late: between(frames).filter((gap) => gap > LATE).length,
    overworked: own.filter((ms) => ms > FRAME).length,
    own: spreadOf(own),
    busy: spreadOf(busy),
    work: (work * 1000) / frames.length,
    second: spreadOf(lateness),
    pageLoad: load(pageBefore, pageAfter),
    hostLoad: load(hostBefore, hostAfter),
  };

  async function workOf(of: Page): Promise<number> {
    await of.evaluate(() => undefined);
    const { metrics } = await control.send('Performance.getMetrics');
    const value = (name: string): number => metrics.find((each) => each.name === name)?.value ?? 0;
    return value('ScriptDuration') + value('LayoutDuration') + value('RecalcStyleDuration');
  }
}

async function openWall(page: Page, host: ServedHost): Promise<void> {
  await page.goto(`${host.origin}/display`);
  await page
    .locator('.strip')
    .nth(LANES.length - 1)
    .waitFor();
}

function between(times: readonly number[]): readonly number[] {
  return times.slice(1).map((at, index) => at - times[index]!);
}

/** Run time of T0: ten seconds after the start, on a whole second of the pool's clock. */
function startOf(commands: readonly { readonly at: number }[]): number {
  return Math.ceil(commands[0]!.at / 1000) * 1000;
}

/** The clock changes on every whole second after T0; a little less than a second late is a little early. */
function lateBy(t: number): number {
  return ((((t + 100) % 1000) + 1000) % 1000) - 100;
}

function spreadOf(values: readonly number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? NaN;
  return { p50: at(0.5), p99: at(0.99), max: sorted[sorted.length - 1] ?? NaN };
}

/** Of all pages of the browser, in s of processor time. */
async function pageTime(browser: Browser): Promise<number> {
  const control = await browser.newBrowserCDPSession();
  const { processInfo } = await control.send('SystemInfo.getProcessInfo');
  await control.detach();
  return processInfo.filter(({ type }) => type === 'renderer').reduce((sum, { cpuTime }) => sum + cpuTime, 0);
}

/** Of a process of this machine, in s: what it has spent itself and in the system. */
function processTime(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
  return (Number(fields[11]) + Number(fields[12])) / TICKS;
}
