/*
 * The coach's window and the remote as they are built, on the real host in a real browser, used by
 * their accessible roles and names, by keys and by a clicker.
 */

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Locator, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { launched } from '../../support/system/launched.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { MovingDeck } from '../../support/host/deck/moving-deck.ts';
import { TWO_LANES } from '../../support/coach/desk-page.ts';
import { editorOn, textOn, writeOn } from '../../support/coach/write-window/written-page.ts';

const program = fileURLToPath(new URL('../../../dist/lanecall.mjs', import.meta.url));

const SESSION = `${TWO_LANES}
Swim-down
4 x 50 easy @ 1:10
`;

let browser: Browser;
let host: ChildProcess;
let address: string;
let context: BrowserContext;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  browser = await launched();
});

afterAll(async () => {
  await browser?.close();
});

// Each test has a host of its own: a run is over only when it is finished.
beforeEach(async () => {
  host = spawn(process.execPath, [program, 'serve', '--port', '0', '--data', freshDataFolder()], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const [line] = (await once(host.stdout!, 'data')) as [Buffer];
  address = /http:\/\/127\.0\.0\.1:\d+/.exec(line.toString())![0];
  context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  complaints = [];
  page = await openPage('/');
});

afterEach(async () => {
  await context?.close();
  host?.kill('SIGKILL');
  expect(complaints).toEqual([]);
});

async function openPage(path: string): Promise<Page> {
  const opened = await context.newPage();
  opened.on('console', (message) => (message.type() === 'error' ? complaints.push(message.text()) : undefined));
  opened.on('pageerror', (error) => complaints.push(error.message));
  await opened.goto(address + path);
  return opened;
}

const button = (name: string | RegExp, on = page): Locator => on.getByRole('button', { name, exact: true });

function shownLight(): Promise<string | null> {
  return page.evaluate(() => document.documentElement.getAttribute('data-light'));
}

/** Whether nothing lies over the middle of it. */
function onTop(what: Locator): Promise<boolean> {
  return what.evaluate((element) => {
    const { left, top, width, height } = element.getBoundingClientRect();
    return element.contains(document.elementFromPoint(left + width / 2, top + height / 2));
  });
}

async function axeFaults(on = page, rules?: string): Promise<string[]> {
  const all = new AxeBuilder({ page: on });
  const { violations } = await (rules === undefined ? all : all.withRules(rules)).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`);
}

async function run(text: string): Promise<void> {
  await writeOn(page, text);
  await button('Run this session').click();
  await button('Start').waitFor();
}

/** Waits until what is said begins so, and gives all of it. */
async function said(start: string, on = page): Promise<string> {
  const line = on.getByText(start).last();
  await line.waitFor({ timeout: 5_000 });
  return (await line.textContent()) ?? '';
}

test('a session is written, run, stopped, resumed, shortened and undone by its buttons alone', async () => {
  await run(SESSION);
  expect(await page.getByRole('timer', { name: 'Clock' }).textContent()).toBe('0:00');
  await button('Start').click();
  await said('Started Main set');
  await expect.poll(() => page.getByLabel('Next leave').first().textContent()).toBe('0:00');

  await button('Stop all lanes').click();
  await said('Stopped all lanes.');
  await button('Resume').click();
  // Less than 10 s were left: the leaves move on by whole seconds, so that everyone is warned.
  const next = /next leave 0:0\d\.$/.exec(await said('Resumed all lanes'))![0];
  await expect.poll(() => page.getByLabel('Next leave').first().textContent()).toBe(next.slice(11, -1));
  await button('Skip rep').click();
  expect(await said('Skipped 50 fast')).toBe(`Skipped 50 fast in all lanes: ${next}`);
  await page.getByText('50 fast, 2 of 4').first().waitFor();
  await button('Undo').click();
  await said('Undid Skip rep.');
  await page.getByText('50 fast, 1 of 4').first().waitFor();
});

test('per-lane actions are for their lane, and each says whom it was for', async () => {
  await run(SESSION);
  await button('Start').click();
  await said('Started');
  await button('Stop lane 2').click();
  await said('Stopped lane 2.');
  await button('Resume lane 2').waitFor();
  await button('+5 s lane 1').click();
  await said('5 s later in lane 1: next leave 0:05.');
  await button('Lane 2…').click();
  await button('+1 s a rep lane 2').click();
  await said('50 fast on 1:01, was 1:00, in lane 2: still stopped.');
  await button('Lane 2 out').click();
  await said('Lane 2 is out.');
});

test('keys and a clicker do what stands on the buttons, and nothing while typing', async () => {
  await run(SESSION);
  await page.keyboard.press('Space');
  expect(await said('The run is waiting for Start')).toMatch(/no lead is due to leave/);
  await page.keyboard.press('PageDown');
  await said('Started');
  await page.keyboard.press('2');
  await page.keyboard.press('o');
  await said('Sat out 50 fast in lane 2');
  await page.keyboard.press('.');
  await said('Stopped all lanes.');
  await page.keyboard.press('b');
  await said('Stopped. Resume works 1 s after a Stop');
  await expect.poll(() => button('Resume').getAttribute('aria-disabled')).toBeNull();
  await page.keyboard.press('b');
  await said('Resumed all lanes');
  await page.keyboard.press('m');
  await page.getByRole('textbox', { name: 'For the record' }).waitFor();
  await page.keyboard.type('sore U S B.');
  await page.keyboard.press('Enter');
  await said('Marked: sore U S B.');
  await page.keyboard.press('m');
  await page.keyboard.type('never');
  await page.keyboard.press('Escape');
  expect(await page.getByRole('textbox', { name: 'For the record' }).count()).toBe(0);
});

test('what ends something wants to be held, and what cannot be done says why', async () => {
  await run(SESSION);
  expect(await button('Restart').getAttribute('aria-disabled')).toBe('true');
  // The test library would wait for it to be enabled; a coach taps it as it is.
  await button('Repeat').click({ force: true });
  await said('The run is waiting for Start');
  await button('Move on').click();
  await said('Hold Move on for 0.6 s.');
  await button('Move on').click({ delay: 700 });
  await said('Moved on to Swim-down, 50 easy: waits for Start.');
  await button('Finish').click({ delay: 700 });
  await page.getByRole('heading', { name: 'Harbour squad: done' }).waitFor();
  const saved = page.waitForEvent('download');
  await button('Save as a table').click();
  expect((await saved).suggestedFilename()).toMatch(/^Harbour squad \d{4}-\d\d-\d\d\.csv$/);
  expect(readFileSync(await (await saved).path(), 'utf8')).toMatch(/^what,time of day,/);
  await button('Write the next session').click();
  expect(await textOn(page)).toBe(SESSION.slice(SESSION.indexOf('start'), SESSION.indexOf('\n\n') + 1));
});

test('rounds are cut and what is to come is written anew in one step', async () => {
  await run(SESSION);
  await button('Start').click();
  await said('Started');
  await page.getByRole('button', { name: /^3 rounds/ }).click();
  await button('Cut 1 round').click();
  await said('Cut 1 of 3 rounds, ends 4:00 sooner.');
  await page.keyboard.press('e');
  const text = editorOn(page);
  await text.press('Control+Home');
  await text.press('x');
  await said('Lines 1 to 8 have begun: they stay as they are.');
  expect(await textOn(page)).toBe(SESSION);
  await text.fill(SESSION.replace('4 x 50 easy', '2 x 50 easy'));
  await button('Use from now on').click();
  await said('Rewrote what is to come, ends 2:20 sooner.');
});

test('while it is written one tap cuts the session to its hour, and one takes the cut back', async () => {
  const text = editorOn(page);
  const long = SESSION.replace('start on 1', 'start 19:30\nfinish 20:02\nstart on 1').replace('10 x 75', '12 x 75');
  await text.fill(long);
  const late = page.getByRole('region', { name: 'If you run late' });
  await expect.poll(() => late.textContent()).toContain('is enough:');
  await late.getByRole('button', { name: /^Cut 2 of 12 x 75/ }).click();
  expect(await textOn(page)).toBe(long.replace('12 x 75', '10 x 75'));
  await expect.poll(() => late.textContent()).not.toContain('is enough');
  await late.getByRole('button', { name: 'Undo the cut' }).click();
  expect(await textOn(page)).toBe(long);
});

test('a run that is going is not lost to another session opened by mistake', async () => {
  await run(SESSION);
  await button('Start').click();
  await said('Started');
  const reply = await fetch(`${address}/session`, {
    method: 'PUT',
    headers: { 'Content-Type': 'application/json', Origin: address },
    body: JSON.stringify({ text: SESSION, lanesText: null }),
  });
  expect(reply.status).toBe(409);
  await button('Stop all lanes').waitFor();
});

test('the remote stops, and the window says that it did', async () => {
  await run(SESSION);
  await button('Start').click();
  await said('Started');
  const remote = await openPage('/remote');
  await remote.setViewportSize({ width: 390, height: 844 });
  await button('Stop', remote).click();
  await said('Stopped all lanes.', remote);
  await said('The remote on this machine: Stopped all lanes.');
  await button('Lane 2', remote).click();
  await button('Resume lane 2', remote).click();
  await said('Resumed lane 2', remote);
  // The big one is for all lanes, whichever it looks after.
  await button('Stop', remote).click();
  await said('Stopped', remote);
});

test('a fault is underlined where its words stand, and said beside them', async () => {
  const text = editorOn(page);
  await text.fill('Set\n4 x 50 back @ 1.30');
  await page.getByRole('heading', { name: 'One line cannot be read' }).waitFor();
  const marked = page.locator('u');
  expect(await marked.allTextContents()).toEqual(['1.30']);
  const [box, area] = [await marked.boundingBox(), await text.boundingBox()];
  // Half way down the second line.
  expect(box!.y + box!.height / 2 - area!.y).toBeCloseTo(12 + 1.5 * 26, -0.5);
  expect(await text.getAttribute('aria-invalid')).toBe('true');
  const list = (await text.getAttribute('aria-describedby'))!;
  expect(await page.locator(`[id="${list}"]`).textContent()).toMatch(/^line 2\s*1\.30 is not a time: write 1:30/);
  await button('line 2').click();
  expect(await page.evaluate(() => getSelection()?.toString())).toBe('1.30');
  await text.fill('Set\n4 x 50 back @ 1:30');
  await expect.poll(() => marked.count()).toBe(0);
  await expect.poll(() => text.getAttribute('aria-describedby')).toBeNull();
});

test('the window is light or dark as the system, or as chosen here and kept', async () => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await expect.poll(shownLight).toBe('dark');
  const colours = page.getByRole('combobox', { name: 'Colours' });
  await colours.selectOption('light');
  expect(await shownLight()).toBe('light');
  await page.reload();
  await colours.waitFor();
  expect([await shownLight(), await colours.inputValue()]).toEqual(['light', 'light']);
  await colours.selectOption('as the system');
  expect(await shownLight()).toBe('dark');
});

test('while the last set is swum to its end, the one action is to finish, with a long press', async () => {
  const deck = await MovingDeck.start();
  page = await deck.openPage(context, '/');
  await run('Harbour squad\nstart on 1\nlane 1 base 1:30\n\nSwim-down\n200 easy');
  await button('Start').click();
  await button('Stop all lanes').waitFor();
  deck.moveTo(deck.now() + 12_000);
  await page.getByText('in by ≈').waitFor({ timeout: 20_000 });
  expect(await button('Start').count()).toBe(0);
  await button('Finish').click();
  await said('Hold Finish for 0.6 s.');
  await button('Finish').click({ delay: 700 });
  await page.getByRole('heading', { name: 'Harbour squad: done' }).waitFor();
  expect(deck.complaints).toEqual([]);
  await page.close();
  await deck.close();
});

test('on a phone what opens below comes into view, clear of the head and the actions', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await run(SESSION);
  await button('Mark').click();
  await expect.poll(() => onTop(page.getByRole('textbox', { name: 'For the record' }))).toBe(true);
  expect(await onTop(button('Mark it'))).toBe(true);
  await button('Close').click();
  await button('Lane 2…').click();
  await expect.poll(() => onTop(button('Lane 2 out'))).toBe(true);
  expect(await onTop(button('One more lane 2'))).toBe(true);
});

test('at 1280 × 800 and 1024 × 700 all that can be done to a lane is seen at once', async () => {
  await run(SESSION);
  await button('Lane 2…').click();
  await button('10 s apart lane 2').waitFor();
  const side = page.getByRole('complementary', { name: 'Session' });
  for (const [width, height] of [
    [1280, 800],
    [1024, 700],
  ] as const) {
    await page.setViewportSize({ width, height });
    const tooHigh = (): Promise<number> => side.evaluate((column) => column.scrollHeight - column.clientHeight);
    await expect.poll(tooHigh, { message: `${width} × ${height}` }).toBeLessThanOrEqual(0);
  }
});

test('no accessibility rule is broken in any state, by day or in the dark', async () => {
  // Only colours are others then.
  const inTheDark = async (): Promise<void> => {
    await page.emulateMedia({ colorScheme: 'dark' });
    await expect.poll(shownLight).toBe('dark');
    expect(await axeFaults(page, 'color-contrast')).toEqual([]);
    await page.emulateMedia({ colorScheme: 'light' });
    await expect.poll(shownLight).toBe('light');
  };
  await writeOn(page, 'Set\n4 x 50 @ 1.00');
  await page.getByRole('heading', { name: 'One line cannot be read' }).waitFor();
  expect(await axeFaults()).toEqual([]);
  await writeOn(page, SESSION);
  await page.getByRole('heading', { name: 'Harbour squad', level: 2 }).waitFor();
  expect(await axeFaults()).toEqual([]);
  await run(SESSION);
  expect(await axeFaults()).toEqual([]);
  await inTheDark();
  await button('Start').click();
  await said('Started');
  await button('Stop lane 2').click();
  await said('Stopped lane 2.');
  expect(await axeFaults()).toEqual([]);
  await inTheDark();
  const remote = await openPage('/remote');
  await button('Undo', remote).waitFor();
  expect(await axeFaults(remote)).toEqual([]);
}, 120_000);

test('on every screen nothing is too wide, targets are 48 px, and Edit keeps leaves and answers in sight', async () => {
  await run(SESSION);
  await button('Start').click();
  await said('Started');
  for (const [width, height] of [
    [1280, 800],
    [1024, 700],
    [390, 844],
  ] as const) {
    await page.setViewportSize({ width, height });
    const found = await page.evaluate(() => {
      const small = Array.from(document.querySelectorAll('button, select, input')).filter((element) => {
        const { width: across, height: down } = element.getBoundingClientRect();
        return across > 0 && (across < 48 || down < 48);
      });
      return { wide: document.documentElement.scrollWidth > innerWidth, small: small.map((each) => each.outerHTML) };
    });
    expect(found, `${width} × ${height}`).toEqual({ wide: false, small: [] });
    await button('Edit').click();
    await button('Stop all lanes').click();
    const leaves = await page.getByRole('region', { name: 'Next leaves' }).getByRole('listitem').all();
    const kept = [page.getByText('Stopped all lanes.'), button('Resume'), button('Undo'), button('Use from now on')];
    for (const what of [...leaves, ...kept]) expect(await onTop(what), `${width} × ${height}: ${what}`).toBe(true);
    expect(await axeFaults(), `${width} × ${height}`).toEqual([]);
    await button('Back to the lanes').click();
    await expect.poll(() => button('Resume').getAttribute('aria-disabled')).toBeNull();
    await button('Resume').click();
    await said('Resumed all lanes');
  }
});
