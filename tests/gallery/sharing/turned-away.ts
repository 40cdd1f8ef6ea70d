/*
 * Pages of the network that are not let in: what phones, tablets and televisions say then. The door's answers are given in
 * the host's place, word for word as it gives them.
 */

import { join } from 'node:path';
import type { Browser } from 'playwright';
import type { FromDoor } from '../../../app/wire/sharing/joining.ts';
import { sharingHost } from '../../support/host/sharing/sharing-host.ts';
import { button } from '../../support/coach/coach-hand.ts';
import type { Picture } from '../gallery-page.ts';

type Bye = Omit<Extract<FromDoor, { say: 'bye' }>, 'say' | 'version'>;

const CODE = '#K7M2Q9XW4TB3N8R5HCJD';

const OF_CODES: readonly (readonly [name: string, bye: Bye])[] = [
  [
    'code late',
    { why: 'This code has been used by another device, or is too old: ask the coach for a new one.', again: true },
  ],
  ['thrown out', { why: 'This device was thrown out. Ask the coach for a new code.', again: true }],
  [
    'too many',
    {
      why: 'As many devices as there can be are connected: close one of them, then ask for a new code.',
      again: true,
    },
  ],
];

const OF_WALLS: typeof OF_CODES = [
  ['too many', { why: 'Too many screens wait to be let in.', wait: 93_000 }],
  ['all in', { why: 'All 256 screens that can be let in are connected: throw one out first.' }],
];

const PHONES = [
  [390, 844],
  [320, 568],
] as const;

const PAGES = [
  { screen: 'remote', path: `remote${CODE}`, sizes: PHONES, byes: OF_CODES, schemes: ['light', 'dark'] },
  { screen: 'tablet', path: `coach${CODE}`, sizes: [[1024, 768]], byes: OF_CODES, schemes: ['light', 'dark'] },
  { screen: 'wall', path: '', sizes: [[1920, 1080]], byes: OF_WALLS, schemes: ['dark'] },
] as const;

/** A picture for each page, answer, size and scheme, written into the folder. */
export async function turnedAway(browser: Browser, folder: string): Promise<readonly Picture[]> {
  const host = await sharingHost('Harbour squad\nlane 1\nlane 2\nMain set\n8 x 50 fast @ 1:00\n');
  const desk = await browser.newPage();
  await desk.goto(`${host.origin}/`);
  await button(desk, 'Screens').click();
  await button(desk, 'Share with other screens').click();
  const address = await desk.getByText(/^http:\/\/[\d.]+:\d+\/$/).innerText();
  const pictures: Picture[] = [];
  for (const { screen, path, sizes, byes, schemes } of PAGES) {
    for (const [name, bye] of byes) {
      const context = await browser.newContext();
      await context.routeWebSocket(/\/(deck|wall)$/, (page) =>
        page.onMessage(() => page.send(JSON.stringify({ say: 'bye', ...bye }))),
      );
      // What was thrown out had a key; the others come with a code.
      const isKeyed = name === 'thrown out';
      const kept = { id: 'a'.repeat(16), key: 'b'.repeat(64), role: screen, name: 'Remote 1' };
      if (isKeyed) {
        await context.addInitScript(
          ([key, value]) => localStorage.setItem(key!, value!),
          [`lanecall.key.${screen}`, JSON.stringify(kept)],
        );
      }
      const page = await context.newPage();
      await page.goto(address + (isKeyed ? path.replace(CODE, '') : path));
      await page.getByText(bye.why).first().waitFor();
      for (const [[width, height], scheme] of sizes.flatMap((size) => schemes.map((each) => [size, each] as const))) {
        await page.setViewportSize({ width, height });
        await page.emulateMedia({ colorScheme: scheme });
        await page.evaluate(() => document.fonts.ready.then(() => undefined));
        const file = `${screen} sharing ${name} ${width}x${height} ${scheme}.png`.replace(/[^a-z0-9.]+/g, '-');
        await page.screenshot({ path: join(folder, file) });
        pictures.push({ file, caption: `${screen}: turned away, ${name}, ${width} × ${height}, ${scheme}` });
      }
      await context.close();
    }
  }
  await desk.close();
  await host.end();
  return pictures;
}
