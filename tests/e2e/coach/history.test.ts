/*
 * What a coach does with records and paper, in a real browser: the history under the page's policy, drawings, deleting,
 * a session done again, and sheets as PDFs.
 */

import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { swimEightWeeks } from '../../gallery/history-scenes.ts';
import { launched } from '../../support/system/launched.ts';
import { button } from '../../support/coach/coach-hand.ts';
import { DeskPage } from '../../support/coach/desk-page.ts';
import { editorOn, textOn } from '../../support/coach/write-window/written-page.ts';

let browser: Browser;

beforeAll(async () => {
  browser = await launched();
});

afterAll(async () => {
  await browser?.close();
});

const faultsOn = async (page: Page): Promise<readonly string[]> =>
  (await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id);

/** Whether it is in sight in at most two lines, none of it cut off. */
const isWhole = (sentence: Locator): Promise<boolean> =>
  sentence.evaluate((element) => {
    const line = element.closest('[role=status]')!;
    const { bottom, right } = element.getBoundingClientRect();
    const isCut = line.scrollHeight > line.clientHeight || line.scrollWidth > line.clientWidth;
    return !isCut && element.getClientRects().length <= 2 && bottom <= innerHeight && right <= innerWidth;
  });

/** How many pages its print has on a paper. */
async function pagesOn(page: Page, format: 'A4' | 'Letter'): Promise<number> {
  const pdf = (await page.pdf({ format, preferCSSPageSize: false })).toString('latin1');
  return pdf.match(/\/Type \/Page\b(?!s)/g)?.length ?? 0;
}

test('eight weeks are drawn, one run is opened, deleted and done again, and sheets fit on their pages', async () => {
  const desk = await DeskPage.open(browser);
  const { page, deck } = desk;
  try {
    await swimEightWeeks(deck.server);
    await desk.button('History').click();
    await page.getByRole('heading', { name: 'Harbour squad, Thursday' }).waitFor();
    expect(await faultsOn(page)).toEqual([]);
    // Six lanes, with the times of three sets each, and an outage.
    expect(await pagesOn(page, 'A4')).toBeLessThanOrEqual(4);
    await desk.button(/^Weeks/).click();
    await page.getByRole('img', { name: 'Load and strain by week' }).waitFor();
    expect(await faultsOn(page)).toEqual([]);
    await desk.button(/^Lanes/).click();
    await page.getByRole('img', { name: 'CSS of each lane over time' }).waitFor();
    await desk.button(/^Tue 24 November/).click();
    await page.getByRole('heading', { name: 'Harbour squad, Tuesday' }).waitFor();
    await desk.button('Delete this run').click();
    await desk.button('Delete for good').click({ delay: 700 });
    await page.getByText('The run is deleted.').waitFor();
    // The list is asked for anew.
    await expect.poll(() => desk.button(/^Tue 24 November/).count()).toBe(0);
    await desk.button('Do this again').click();
    await editorOn(page).waitFor();
    expect(await textOn(page)).toMatch(/^Harbour squad, Thursday\n# for Thursday /);
    await page.setViewportSize({ width: 1280, height: 800 });
    expect(await isWhole(page.getByText(/^Harbour squad, Thursday as it was swum on 26 November/))).toBe(true);
    // Two taps to paper, and each lane has its page.
    await desk.button('Print').click();
    await desk.button('A sheet a lane').click();
    expect(await faultsOn(page)).toEqual([]);
    expect([await pagesOn(page, 'A4'), await pagesOn(page, 'Letter')]).toEqual([6, 6]);
    await desk.button('Whiteboard').click();
    expect([await pagesOn(page, 'A4'), await pagesOn(page, 'Letter')]).toEqual([1, 1]);
    await desk.button('Back to writing').click();
    await desk.button('Undo').click();
    await expect.poll(() => textOn(page)).not.toMatch(/# for Thursday/);
    expect(deck.complaints).toEqual([]);
  } finally {
    await desk.close();
  }
});

test('touches of the coach’s window and of a remote are one run’s times, on both and after the window was closed', async () => {
  const desk = await DeskPage.open(browser);
  const { deck } = desk;
  try {
    await desk.start('Squad\nlane 1\nlane 2\n\nMain set\n4 x 50 fast @ 1:00 hold 0:40\n');
    deck.moveTo(deck.run().openedAt + 55_000);
    const remote = await desk.openPage('/remote');
    for (const name of ['More', 'Times', 'Touch lane 2']) await button(remote, name).click();
    await desk.button('Times').click();
    await desk.button('Touch lane 1').click();
    await expect.poll(() => desk.button('Touch lane 2').textContent()).toMatch(/0:\d\d\.\d/);
    await expect.poll(() => button(remote, 'Touch lane 1').textContent()).toMatch(/0:\d\d\.\d/);
    expect(await faultsOn(remote)).toEqual([]);
    await desk.page.close();
    const again = await desk.openPage('/');
    await button(again, 'Times').click();
    await expect.poll(() => button(again, 'Touch lane 1').textContent()).toMatch(/0:\d\d\.\d/);
    expect(deck.run().commands.map(({ command }) => command['do'])).toEqual(['start']);
    expect(deck.complaints).toEqual([]);
  } finally {
    await desk.close();
  }
});
