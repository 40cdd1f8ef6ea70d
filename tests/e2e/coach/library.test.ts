/*
 * A coach writes a session, leaves, finds it again next week and goes on from it, in a real browser.
 */

import { AxeBuilder } from '@axe-core/playwright';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launched } from '../../support/system/launched.ts';
import { DeskPage } from '../../support/coach/desk-page.ts';
import { editorOn, textOn, writeOn } from '../../support/coach/write-window/written-page.ts';

const TUESDAY = 'Tuesday\n# for Tuesday 24 November 2026\nstart 19:30\nMain set\n8 x 50 fast @ 1:00\n';

let browser: Browser;

beforeAll(async () => {
  browser = await launched();
});

afterAll(async () => {
  await browser?.close();
});

test('what was written is found again, opened, undone, copied for next week, and not lost to another program', async () => {
  const desk = await DeskPage.open(browser);
  const { page, deck } = desk;
  const { library } = deck.server;
  const isThere = async (name: string, text: string): Promise<void> => {
    await expect
      .poll(async () => {
        const read = await library.ask<'read'>({ do: 'read', kind: 'session', name });
        return read.ok ? read.text : read.why;
      })
      .toBe(text);
  };
  try {
    // Written, and saved without a word.
    await writeOn(page, TUESDAY);
    await isThere('Tuesday', TUESDAY);
    expect(await new AxeBuilder({ page }).analyze().then(({ violations }) => violations.map(({ id }) => id))).toEqual(
      [],
    );
    // Another one, from a sample; then the first is found by the keyboard alone.
    await desk.button('Samples').click();
    await desk.button(/^Start from Sprint/).click();
    await page.keyboard.press('Control+o');
    await page.keyboard.type('tuesday fast');
    await expect.poll(() => page.getByRole('list', { name: 'Sessions found' }).getByRole('listitem').count()).toBe(1);
    await page.keyboard.press('Enter');
    await page.getByText('Opened Tuesday.').waitFor();
    expect(await textOn(page)).toBe(TUESDAY);
    // Opening is undone by its button, and done again by the key, where the keyboard is nowhere.
    await desk.button('Undo').click();
    await expect.poll(() => textOn(page)).toMatch(/^Sprint and turns\n/);
    await page.keyboard.press('Control+Shift+Z');
    expect(await textOn(page)).toBe(TUESDAY);
    // Next week's, with its hour moved.
    await desk.button('More for Tuesday').click();
    await desk.button('Tuesday for another day').click();
    await page.getByLabel('Day', { exact: true }).fill('2026-12-01');
    await page.getByLabel('Start', { exact: true }).fill('18:00');
    await desk.button('Make it for Tuesday 1 December 2026').click();
    const next = TUESDAY.replace('24 November', '1 December').replace('19:30', '18:00');
    await isThere('Tuesday 1 December', next);
    expect(await textOn(page)).toBe(next);
    // Another program writes into its file while it is open.
    const read = await library.ask<'read'>({ do: 'read', kind: 'session', name: 'Tuesday 1 December' });
    if (!read.ok) throw new Error(read.why);
    const theirs = next.replace('8 x', '6 x');
    await library.ask<'save'>({ ...read, do: 'save', kind: 'session', text: theirs });
    await desk.button('Keep both').click();
    await isThere('Tuesday 1 December (2)', next);
    await isThere('Tuesday 1 December', theirs);
    // A file that is dropped on the text is one session more, and nothing is put into this one.
    await editorOn(page).evaluate((element) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(['Dropped\nSet\n50 @ 1:00\n'], 'dropped.txt', { type: 'text/plain' }));
      element.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
    });
    await isThere('dropped', 'Dropped\nSet\n50 @ 1:00\n');
    expect(await textOn(page)).toBe('Dropped\nSet\n50 @ 1:00\n');
    expect(deck.complaints).toEqual([]);
  } finally {
    await desk.close();
  }
});
