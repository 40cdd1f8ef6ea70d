/*
 * A rehearsal in a real browser: the wall in its frame follows the buttons, nothing of it reaches the host or another
 * screen, and Write is afterwards as it was.
 */

import { AxeBuilder } from '@axe-core/playwright';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launched } from '../../support/system/launched.ts';
import { DeskPage } from '../../support/coach/desk-page.ts';
import { editorOn, textOn, writeOn } from '../../support/coach/write-window/written-page.ts';

const SESSION = `Harbour squad
start on 1
lane 1 base 1:30, 3 swimmers
lane 2 base 1:40

Main set
10 x 75 free @ 1:20
`;

let browser: Browser;
let desk: DeskPage;

beforeAll(async () => {
  browser = await launched();
  desk = await DeskPage.open(browser);
});

afterAll(async () => {
  await desk?.close();
  await browser?.close();
});

test('a session rehearsed at 60 times the speed: on a wall of its own, without a flash, a record or a trace', async () => {
  const { page } = desk;
  const display = await desk.openPage('/display');
  await page.bringToFront();
  // What is typed in Write is kept and saved as always.
  const stored = (): Promise<readonly string[]> => page.evaluate(() => Object.keys(localStorage).sort());
  await writeOn(page, SESSION);
  for (const key of ['Control+Home', 'ArrowDown', 'End']) await editorOn(page).press(key);
  await page.getByRole('heading', { name: 'Harbour squad', level: 2 }).waitFor();
  // Both are written a moment after the last key.
  const before = ['lanecall.draft', 'lanecall.drafts.unsaved', 'lanecall.screen'];
  await expect.poll(stored).toEqual(before);
  await desk.button('Rehearse').click();
  await page.getByRole('main', { name: /^Rehearsal/ }).waitFor();
  const wall = page.frameLocator('[title="The wall in the rehearsal"]');

  await desk.button('Start').click();
  await desk.said('Started');
  await desk.button('60 times the speed').click();
  await wall
    .getByRole('region', { name: 'Lane 1' })
    .getByText(/\d of 10/)
    .waitFor();
  // A busy machine may draw late: it is looked at until something has changed twice.
  const { changes, steps } = await wall.locator('.board').evaluate(async (board) => {
    const begun = performance.now();
    let now = begun;
    let drawn = board.outerHTML;
    let count = 0;
    while (now < begun + 2400 || count < 2) {
      now = await new Promise<number>((resolve) => requestAnimationFrame(() => resolve(performance.now())));
      if (board.outerHTML !== drawn) count++;
      drawn = board.outerHTML;
    }
    return { changes: count, steps: (now - begun) / 600 };
  });
  expect(changes).toBeLessThanOrEqual(Math.floor(steps) + 1);

  await desk.button('Stop all lanes').click();
  await wall.getByText('stopped', { exact: true }).first().waitFor();
  expect(await desk.button('1 times the speed').getAttribute('aria-pressed')).toBe('true');
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
  }
  await display.getByText(/^Waiting for a session/).waitFor();
  expect(desk.deck.server.host.current()).toBeNull();

  await page.keyboard.press('Escape');
  await page.keyboard.type('!');
  expect(await textOn(page)).toBe(SESSION.replace('start on 1', 'start on 1!'));
  await page.keyboard.press('Control+z');
  await expect.poll(stored).toEqual(before);
  expect(desk.deck.complaints).toEqual([]);
});
