/*
 * The text in the coach's editor in a real browser: read and written by the keyboard and the clipboard, as a coach would.
 */

import type { Locator, Page } from 'playwright';

export function editorOn(page: Page, name = 'Session'): Locator {
  return page.getByRole('textbox', { name, exact: true });
}

/** What would be copied: the browser has only the lines in sight. */
export async function textOn(page: Page, name = 'Session'): Promise<string> {
  const box = editorOn(page, name);
  await box.press('Control+a');
  return box.evaluate((element) => {
    const clipboardData = new DataTransfer();
    element.dispatchEvent(new ClipboardEvent('copy', { clipboardData, bubbles: true, cancelable: true }));
    return clipboardData.getData('text/plain');
  });
}

/**
 * Writes this in place of what is there. What Playwright puts into a text may come twice, into a bare text area too, when
 * the browser is busy: it is read and put there again.
 */
export async function writeOn(page: Page, text: string): Promise<void> {
  for (let tries = 0; tries < 5; tries++) {
    await editorOn(page).fill(text);
    if ((await textOn(page)) === text) return;
  }
  throw new Error(`the editor does not take: ${text}`);
}
