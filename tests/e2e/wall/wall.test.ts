/*
 * The wall screen as it is built, served by the real host to a real browser: what it says, and how
 * large it is as drawn.
 */

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import type { Browser, Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launched } from '../../support/system/launched.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { MovingDeck } from '../../support/host/deck/moving-deck.ts';
import { drawnHeight, misplaced } from '../../support/wall/wall-sight.ts';

const program = fileURLToPath(new URL('../../../dist/lanecall.mjs', import.meta.url));

const SIX_LANES = `Harbour squad
start on 1
lane 1 base 1:20, 5 swimmers
lane 2 base 1:25, 6 swimmers
lane 3 base 1:30, 3 swimmers
lane 4 base 1:35, 4 swimmers
lane 5 base 1:40, 4 swimmers
lane 6 base 1:45, 4 swimmers

Main set
3 rounds
  4 x 50 fast @ base hold 0:36
`;

const WORDS = 'arms long, legs quiet, breathe to both sides and look at the floor of the pool '.repeat(5).trim();
const TEN_LANES = `${Array.from({ length: 10 }, (_, lane) => `lane ${lane + 1} base 1:30, ${1 + lane * 2} swimmers`).join('\n')}

The part with the longest name that anybody has ever written on a whiteboard beside a pool
12 rounds
  12 x 100 ${WORDS} @ base hold 1:15
20 x 50 ${WORDS} @ 1:00
`;

const SIZES = [
  [1920, 1080],
  [1280, 720],
  [1080, 1920],
  [390, 844],
  [844, 390],
] as const;

let browser: Browser;
let host: ChildProcess;
let address: string;
let page: Page;
const complaints: string[] = [];
let ids = 0;

beforeAll(async () => {
  browser = await launched();
  host = spawn(process.execPath, [program, 'serve', '--port', '0', '--data', freshDataFolder()], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const [line] = (await once(host.stdout!, 'data')) as [Buffer];
  address = /http:\/\/127\.0\.0\.1:\d+/.exec(line.toString())![0];
  page = await browser.newPage({ viewport: { width: 1920, height: 1080 } });
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
});

afterAll(async () => {
  await browser?.close();
  host?.kill('SIGKILL');
});

async function ask(path: string, method: string, body: unknown): Promise<unknown> {
  const headers = { 'Content-Type': 'application/json', Origin: address };
  const reply = await fetch(address + path, { method, headers, body: JSON.stringify(body) });
  return reply.json();
}

async function open(text: string): Promise<void> {
  expect(await ask('/session', 'PUT', { text, lanesText: null, replace: true })).toMatchObject({ ok: true });
}

async function command(fields: Record<string, unknown>): Promise<void> {
  const message = { say: 'command', id: `wall-test-${ids++}`, command: fields };
  expect(await ask('/command', 'POST', message)).toMatchObject({ ok: true });
}

function lane(number: number, on = page): Locator {
  return on.getByRole('region', { name: `Lane ${number}`, exact: true });
}

function nextLeave(number: number, on = page): Locator {
  return lane(number, on).getByLabel('Next leave');
}

/** Two frames on, what was asked of the page has been laid out and drawn. */
function drawn(): Promise<unknown> {
  return page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

const clock = (on = page): Locator => on.getByRole('timer', { name: 'Clock' });

test('without a session the screen shows a pace clock and says what it waits for, and where the coach opens one', async () => {
  await page.goto(`${address}/display`);
  const now = await clock().textContent();
  expect(now).toMatch(/^\d?\d:\d\d$/);
  await expect.poll(() => clock().textContent()).not.toBe(now);
  await page.getByText('Waiting for a session').waitFor();
  expect(await page.textContent('body')).toContain(`${address}/`);
});

test('the page has an icon of its own, served as what it is', async () => {
  for (const path of ['/', '/display', '/remote']) {
    const html = await (await fetch(address + path)).text();
    const icon = /<link rel="icon"[^>]* href="([^"]+)"/.exec(html)?.[1] ?? '';
    const reply = await fetch(new URL(icon, address));
    expect(reply.headers.get('content-type'), path).toBe('image/svg+xml');
    expect(await reply.text()).toMatch(/^<svg /);
  }
});

test('a session that is opened stands large, with what every lane swims first', async () => {
  await open(SIX_LANES);
  await page.getByRole('heading', { name: 'Next: Main set' }).waitFor();
  await page.getByText('Each lane starts with 4 × 50 fast').waitFor();
  expect(await lane(1).textContent()).toContain('on 0:40');
  expect(await clock().textContent()).toBe('0:00');
});

test('a start counts its last 10 s down, then the clock runs and every lane shows its next leave', async () => {
  const deck = await MovingDeck.start();
  const context = await browser.newContext({ viewport: { width: 1920, height: 1080 } });
  const wall = await deck.openPage(context, '/display');
  await deck.server.host.open({ text: SIX_LANES, lanesText: null }, { replace: true, clockPhase: 0 });
  const { at } = await deck.server.host.command('start', { do: 'start' });
  await wall.getByText('starts in').waitFor();
  expect(await clock(wall).textContent()).toMatch(/^0:(10|0[1-9])$/);
  expect(await nextLeave(6, wall).textContent()).toBe('0:00');
  const begin = Math.ceil(at! / 1000) * 1000 + 10_000;
  deck.moveTo(deck.run().openedAt + begin + 1_500);
  await wall.getByText('starts in').waitFor({ state: 'hidden', timeout: 15_000 });
  await expect.poll(() => clock(wall).textContent(), { timeout: 10_000 }).toBe('0:03');
  const leaves = await Promise.all([1, 2, 3, 4, 5, 6].map((number) => nextLeave(number, wall).textContent()));
  expect(leaves).toEqual(['0:40', '0:45', '0:45', '0:50', '0:50', '0:55']);
  // Swimmers 2 to 5 wait for that rep.
  expect(await lane(1, wall).textContent()).toMatch(/1 of 4.*2 at 0:05/);
  expect(deck.complaints).toEqual([]);
  await context.close();
  await deck.close();
});

test('the design case: digits of leaves are at least 10.2 % of the height as drawn, and three quarters of the strip', async () => {
  await command({ do: 'start' });
  for (const [width, height] of [
    [1920, 1080],
    [1280, 720],
    [3840, 2160],
  ] as const) {
    await page.setViewportSize({ width, height });
    await expect.poll(() => nextLeave(4).count()).toBe(1);
    await page.evaluate(() => document.fonts.ready);
    let drawn = 0;
    const share = async (): Promise<number> => (drawn = await drawnHeight(nextLeave(4))) / height;
    await expect.poll(share, { message: `${height} lines`, timeout: 5000 }).toBeGreaterThanOrEqual(0.102);
    const strip = (await lane(4).boundingBox())!.height;
    expect(drawn / strip, `${height} lines`).toBeGreaterThanOrEqual(0.75);
    expect(await drawnHeight(clock())).toBeGreaterThan(drawn);
    const lanes = (await lane(1).boundingBox())!.y;
    expect(lanes).toBeLessThanOrEqual(height / 4 + 1);
  }
});

test('a stopped lane says so in a word, and has no next leave', async () => {
  await page.setViewportSize({ width: 1920, height: 1080 });
  await command({ do: 'stop', lanes: [2] });
  await lane(2).getByText('stopped').waitFor();
  expect(await nextLeave(2).isVisible()).toBe(false);
  expect(await nextLeave(1).isVisible()).toBe(true);
});

test('some lanes only, where the address asks for them', async () => {
  await page.goto(`${address}/display?lanes=1,3`);
  await nextLeave(3).waitFor();
  const names = await page.getByRole('region').evaluateAll((all) => all.map((each) => each.getAttribute('aria-label')));
  expect(names).toEqual(['Lane 1', 'Lane 3']);
});

test('the sound of this screen is off and not loaded; a switch for it, and the cursor, appear when somebody is there', async () => {
  const sound = page.getByRole('button', { name: /sound/i });
  const scripts = (): Promise<number> =>
    page.evaluate(() => performance.getEntriesByType('resource').filter(({ name }) => /\.js|\.wav/.test(name)).length);
  const cursor = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).cursor);
  const before = await scripts();
  expect([await sound.count(), await cursor()]).toEqual([0, 'none']);
  await page.mouse.move(200, 200);
  await page.mouse.move(240, 220);
  expect(await sound.textContent()).toBe('Sound on this screen: off');
  await expect.poll(cursor).toBe('default');
  await sound.waitFor({ state: 'hidden', timeout: 10_000 });
  await expect.poll(cursor).toBe('none');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await expect.poll(() => sound.textContent()).toMatch(/^Sound on this screen: (starting|on)$/);
  expect(await scripts()).toBeGreaterThan(before);
  // Looking at a page counts as a tap to the browser: not before the page has asked to sound, as it does ahead of its sounds.
  const asked = page.waitForRequest(/\.wav$/);
  await page.reload();
  await asked;
  await page.getByText('Sound is blocked by the browser: tap this screen once').waitFor();
  await page.mouse.click(600, 300);
  await expect.poll(() => sound.textContent()).toMatch(/^Sound on this screen: (starting|on)$/);
  await sound.click();
  await expect.poll(() => sound.textContent()).toBe('Sound on this screen: off');
  await page.reload();
  await nextLeave(3).waitFor();
  expect(await sound.count()).toBe(0);
});

test('few lanes: nothing overlaps or is cut off, in any state', async () => {
  for (const lanes of [1, 2, 3]) {
    const header = Array.from({ length: lanes }, (_, lane) => `lane ${lane + 1} base 1:30, ${2 + lane * 9} swimmers`);
    await open(`${header.join('\n')}\nMain set\n3 rounds\n  12 x 100 ${WORDS} @ base hold 1:15\n`);
    for (const phase of ['waiting', 'going', 'stopped']) {
      if (phase === 'going') await command({ do: 'start' });
      if (phase === 'stopped') await command({ do: 'stop' });
      await page.waitForTimeout(300);
      for (const [width, height] of SIZES) {
        await page.setViewportSize({ width, height });
        await drawn();
        await expect
          .poll(() => misplaced(page), { message: `${lanes} lanes ${phase} at ${width} x ${height}`, timeout: 5_000 })
          .toEqual([]);
      }
    }
  }
});

test('nothing overlaps or is cut off, with the longest words, on any screen', async () => {
  await page.goto(`${address}/display`);
  await open(TEN_LANES);
  for (const phase of ['waiting', 'going']) {
    if (phase === 'going') {
      await command({ do: 'start' });
      await nextLeave(10).waitFor();
    }
    await page.waitForTimeout(300);
    for (const [width, height] of SIZES) {
      await page.setViewportSize({ width, height });
      await drawn();
      await expect
        .poll(() => misplaced(page), { message: `${phase} at ${width} x ${height}`, timeout: 5_000 })
        .toEqual([]);
    }
  }
  for (const number of [1, 10]) {
    expect(await nextLeave(number).isVisible()).toBe(true);
    expect(await lane(number).getByLabel('Seconds to go').isVisible()).toBe(true);
    expect(await lane(number).textContent()).toMatch(/\d of 12/);
  }
});

test('a television browser of 2018 shows it too: nothing newer is used that is not brought along', async () => {
  const television = await browser.newPage({ viewport: { width: 1280, height: 720 } });
  const faults: string[] = [];
  television.on('pageerror', (error) => faults.push(error.message));
  await television.addInitScript(() => {
    const newer: readonly (readonly [object, readonly string[]])[] = [
      [Object, ['fromEntries', 'hasOwn', 'groupBy']],
      [Array.prototype, ['flat', 'flatMap', 'at', 'findLast', 'findLastIndex', 'toSorted', 'toReversed']],
      [String.prototype, ['replaceAll', 'matchAll', 'at', 'trimStart']],
      [Promise, ['allSettled', 'any', 'withResolvers']],
      [
        window,
        ['AudioContext', 'globalThis', 'queueMicrotask', 'structuredClone', 'reportError', 'scheduler', 'navigation'],
      ],
      [crypto, ['randomUUID']],
    ];
    for (const [owner, names] of newer) for (const name of names) Reflect.deleteProperty(owner, name);
  });
  await television.goto(`${address}/display`);
  await television.getByRole('region', { name: 'Lane 3' }).getByLabel('Next leave').waitFor();
  expect(await television.getByRole('timer', { name: 'Clock' }).textContent()).toMatch(/^\d+:\d\d$/);
  await television.keyboard.press('Enter');
  expect(await television.getByRole('button', { name: /sound/ }).textContent()).toBe('This browser cannot play sound');
  expect(faults).toEqual([]);
  await television.close();
});

test('when the host is gone the screen runs on by itself and says that the link is lost', async () => {
  await page.setViewportSize({ width: 1920, height: 1080 });
  // A second screen has its own time, so that the minute after which it is said large need not be waited for.
  const other = await browser.newPage();
  await other.clock.install();
  await other.goto(`${address}/display`);
  await other.getByRole('region', { name: 'Lane 1', exact: true }).waitFor();
  await other.clock.runFor(2000);
  expect(complaints).toEqual([]);
  host.kill('SIGKILL');
  await page.getByText(/^Link lost for 0:\d\d$/).waitFor({ timeout: 15_000 });
  const before = await clock().textContent();
  await expect.poll(() => clock().textContent(), { timeout: 5000 }).not.toBe(before);
  expect(await nextLeave(1).isVisible()).toBe(true);
  for (const [said, wait] of [
    ['Link lost for 0:', 9000],
    ['Link lost for 1:', 60_000],
  ] as const) {
    await other.clock.runFor(wait);
    for (const [width, height] of SIZES) {
      await other.setViewportSize({ width, height });
      await other.clock.runFor(500);
      await other.getByText(said).first().waitFor();
      const laidOut = async (): Promise<string[]> => {
        await other.clock.runFor(100);
        return misplaced(other);
      };
      await expect.poll(laidOut, { message: `${said} at ${width} x ${height}`, timeout: 5_000 }).toEqual([]);
    }
  }
  await other.close();
});
