/*
 * Writing in a real browser, under the policy that the host sends: what is read in a worker, offered, explained and put in.
 */

import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launched } from '../../support/system/launched.ts';
import { DeskPage } from '../../support/coach/desk-page.ts';
import { editorOn, textOn, writeOn } from '../../support/coach/write-window/written-page.ts';

const TEXT = 'Tuesday\nlane 1 css 1:20\nlane 2 base 1:40\n\nMain set\n8/6 x 50 back and free by 25 @ 1:00/1:10\n';

let browser: Browser;

beforeAll(async () => {
  browser = await launched();
});

afterAll(async () => {
  await browser?.close();
});

const violations = async (page: Page): Promise<readonly string[]> =>
  (await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id);

test('[write] by keys alone: a line goes on as it was offered, is explained, and an example of the notation is put in', async () => {
  const desk = await DeskPage.open(browser);
  const { page, deck } = desk;
  try {
    await writeOn(page, TEXT);
    await page.getByRole('heading', { name: 'Tuesday', level: 2 }).waitFor();
    expect(page.workers().length).toBeGreaterThan(0);
    await editorOn(page).press('Control+End');
    await page.keyboard.type('4 x 50 ba');
    const offered = page.getByRole('listbox');
    await offered.getByRole('option').first().waitFor();
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Tab');
    await page.keyboard.type(' @ ');
    await offered.waitFor();
    // Escape closes the list and leaves the keyboard where it is; Enter is a new line.
    await page.keyboard.press('Escape');
    await page.keyboard.type('1:15');
    await page.keyboard.press('Enter');
    expect(await textOn(page)).toBe(`${TEXT}4 x 50 back and free by 25 @ 1:15\n`);
    await page.getByText('4 x 50 back and free by 25', { exact: true }).last().waitFor();
    await editorOn(page).press('Control+Home');
    for (let line = 1; line < 6; line++) await page.keyboard.press('ArrowDown');
    await page.keyboard.press('F2');
    const meaning = page.getByRole('table').filter({ hasText: 'leaves at' });
    await meaning.waitFor();
    expect(await meaning.getByRole('row').last().innerText()).toMatch(
      /^2\s+6 x 50\s+1:10\s+0:00, 1:10, 2:20 to 5:50\s+7:00$/,
    );
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('F1');
    await page.keyboard.type('ladder');
    await page.getByText('Press an example').waitFor();
    await expect.poll(() => page.getByRole('button', { name: /^Put in/ }).count()).toBe(1);
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await desk.said('Put in on line 7.');
    expect(await textOn(page)).toContain('@ 1:00/1:10\n100-200-300-200-100 @ base\n4 x 50');
    // What only a screen reader reads makes the page no longer than the window.
    expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBe(800);
    expect(deck.complaints).toEqual([]);
  } finally {
    await desk.close();
  }
});
