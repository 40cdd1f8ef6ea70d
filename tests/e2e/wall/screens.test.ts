/*
 * Two wall screens, set in the coach's window: renamed, turned, told apart, and so again when the host has been killed
 * and started. And the picture of a screen, which counts as none and takes no key from the coach.
 */

import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launched } from '../../support/system/launched.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { ServedHost } from '../../support/host/served-host.ts';

const SESSION = 'Harbour squad\nstart on 1\nlane 1\nlane 2\nlane 3\nMain set\n40 x 50 free @ 1:00\n';

const data = freshDataFolder();
const complaints: string[] = [];
let browser: Browser;
let host: ServedHost;
let coach: Page;
/** In browsers of their own: each keeps its own name. */
let walls: readonly Page[];

beforeAll(async () => {
  host = await ServedHost.start(data, { session: SESSION });
  browser = await launched();
  walls = [await pageOf('/display'), await pageOf('/display?name=Deep+end')];
  coach = await pageOf('/');
  coach.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
});

afterAll(async () => {
  await browser?.close();
  await host?.kill();
});

async function pageOf(path: string): Promise<Page> {
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
  await page.goto(host.origin + path);
  return page;
}

const panel = () => coach.getByRole('region', { name: 'Screens', exact: true });
const boardSide = (page: Page) => page.locator('[data-from]').first().getAttribute('data-from');

test('[screens] the coach renames and turns one of two; the picture is no screen, and Space stays Stop', async () => {
  await coach.getByRole('button', { name: 'Start', exact: true }).waitFor();
  await coach.keyboard.press('w');
  await expect.poll(() => panel().getByRole('listitem').count()).toBe(2);
  await coach.getByRole('button', { name: 'Settings of Screen 1' }).click();
  await coach.getByRole('button', { name: 'Rename Screen 1' }).click();
  await coach.keyboard.type('Shallow end');
  await coach.keyboard.press('Enter');
  await coach.getByRole('heading', { name: 'Shallow end' }).waitFor();
  await coach.getByLabel('Push off').selectOption('at the right');
  await expect.poll(() => boardSide(walls[0]!)).toBe('right');
  expect(await boardSide(walls[1]!)).toBe('left');
  // Its picture is the same page, which has gone along.
  const picture = coach.frameLocator('iframe[title="Shallow end, small"]');
  await expect.poll(() => picture.locator('[data-from]').first().getAttribute('data-from')).toBe('right');
  await coach.getByText('on 2 wall screens').waitFor();

  await coach.getByRole('button', { name: 'Start', exact: true }).click();
  await coach.getByRole('button', { name: 'Stop all lanes' }).waitFor();
  await coach.locator('iframe').first().click({ force: true });
  await coach.getByRole('button', { name: 'Words', exact: true }).click();
  await coach.keyboard.press('Space');
  await coach.getByRole('button', { name: 'Resume', exact: true }).first().waitFor();
  expect(complaints).toEqual([]);
});

test('[screens] which is which: each shows its own name, beside clock and leaves, and no longer than it should', async () => {
  await coach.getByRole('button', { name: 'Show which is which' }).click();
  const cards = [
    walls[0]!.getByRole('status').filter({ hasText: 'Shallow end' }),
    walls[1]!.getByRole('status').filter({ hasText: 'Deep end' }),
  ];
  await Promise.all(cards.map((card) => card.waitFor({ timeout: 4000 })));
  const { bottom, left } = await walls[0]!.evaluate(() => {
    const box = (of: string): DOMRect => document.querySelector(of)!.getBoundingClientRect();
    return {
      bottom: box('.screen-named').bottom <= box('.body').top,
      left: box('.screen-named').left >= box('.clock').right,
    };
  });
  expect([bottom, left]).toEqual([true, true]);
  await Promise.all(cards.map((card) => card.waitFor({ state: 'detached', timeout: 8000 })));
});

/** Whether an element is there to be seen: wholly on the page, and nothing over it. */
function isSeen(element: Element): boolean {
  const { left, right, top, bottom } = element.getBoundingClientRect();
  const points = [
    [(left + right) / 2, top + 3],
    [(left + right) / 2, bottom - 3],
  ] as const;
  return points.every(([x, y]) => element.contains(document.elementFromPoint(x, y)));
}

test.each([
  [1280, 800],
  [1024, 700],
  [390, 844],
])(
  '[accessible] the panel at %i × %i: axe, targets of 48 px, every control by keyboard and in sight',
  async (...size) => {
    await coach.setViewportSize({ width: size[0], height: size[1] });
    await panel().getByRole('heading', { name: 'Screens' }).focus();
    const { violations } = await new AxeBuilder({ page: coach }).include('section[aria-label="Screens"]').analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    const controls = await panel().locator('button, select').all();
    for (const control of controls) {
      await coach.keyboard.press('Tab');
      const found = await control.evaluate((element) => {
        const { width, height } = element.getBoundingClientRect();
        const isWhole = element.scrollWidth <= element.clientWidth + 1;
        return { focused: document.activeElement === element, large: width >= 48 && height >= 48, isWhole };
      });
      const name = (await control.getAttribute('aria-label')) ?? (await control.innerText());
      expect(found, name).toEqual({ focused: true, large: true, isWhole: true });
      expect(await control.evaluate(isSeen), name).toBe(true);
    }
    expect(controls.length).toBeGreaterThan(20);
    // The picture of the open screen and its name stay in sight, however far its settings are scrolled.
    for (const kept of [
      coach.getByTitle('Shallow end, small'),
      panel().getByRole('heading', { name: 'Shallow end' }),
    ]) {
      const isInSight = await kept.evaluate((element) => {
        const { top, bottom } = element.getBoundingClientRect();
        return top >= 0 && bottom <= innerHeight;
      });
      expect(isInSight).toBe(true);
    }
    // No slice of a setting is seen above them.
    const above = await coach.getByTitle('Shallow end, small').evaluate((frame) => {
      const { left, top } = frame.getBoundingClientRect();
      return [2, 6, 10].map(
        (px) => document.elementFromPoint(left + 60, top - px)?.closest('select, button, label') ?? null,
      );
    });
    expect(above).toEqual([null, null, null]);
    expect(await coach.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  },
);

test('[screens] a host that was killed has the names and the settings again', async () => {
  const { port } = new URL(host.origin);
  await host.kill();
  host = await ServedHost.start(data, { port: Number(port) });
  await walls[0]!.reload();
  await expect.poll(() => boardSide(walls[0]!)).toBe('right');
  await expect.poll(() => boardSide(walls[1]!)).toBe('left');
  await coach.reload();
  await coach.getByRole('button', { name: 'Screens', exact: true }).click();
  await coach.getByRole('heading', { name: 'Shallow end' }).waitFor();
  // Which of the two is back first is chance.
  await expect
    .poll(async () => (await panel().getByRole('heading', { level: 3 }).allTextContents()).sort())
    .toEqual(['Deep end', 'Shallow end']);
});
