/** A real Chromium without a window, as the tests drive it: it asks nothing of the internet. */

import { chromium, type Browser } from 'playwright';
import { browserPath } from './browser.ts';

const ARGS = ['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

/** further: command-line switches besides those of every test */
export function launched(...further: readonly string[]): Promise<Browser> {
  return chromium.launch({ executablePath: browserPath(), args: [...ARGS, ...further] });
}
