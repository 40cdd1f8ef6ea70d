/*
 * The coach's window for each test of a file, in one browser; no test may leave a complaint of the page.
 */

import type { Browser } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect } from 'vitest';
import { launched } from '../system/launched.ts';
import { DeskPage } from './desk-page.ts';

/** use: gets the window before each test. */
export function deskForEach(use: (desk: DeskPage) => void): void {
  let browser: Browser | undefined;
  let desk: DeskPage | undefined;

  beforeAll(async () => {
    browser = await launched();
  });

  afterAll(async () => {
    await browser?.close();
  });

  beforeEach(async () => {
    desk = await DeskPage.open(browser!);
    use(desk);
  });

  afterEach(async () => {
    await desk?.close();
    expect(desk?.deck.complaints).toEqual([]);
  });
}
