/*
 * The wall screen when the host is gone, small at first and large after a minute. The page's own clock
 * is the test library's here, so that the minute does not have to be waited for.
 */

import { join } from 'node:path';
import type { Browser } from 'playwright';
import { MovingDeck } from '../support/host/deck/moving-deck.ts';
import type { Picture } from './gallery-page.ts';
import { SCENES } from './scenes.ts';

const SIZES = [
  [1920, 1080],
  [1280, 720],
  [1024, 768],
  [1080, 1920],
] as const;

const FACES = ['', '?face=sweep'] as const;

/** Two pictures a size and face, written into the folder. */
export async function lostLink(browser: Browser, folder: string): Promise<readonly Picture[]> {
  const pictures: Picture[] = [];
  for (const [width, height, asks] of SIZES.flatMap((size) => FACES.map((face) => [...size, face] as const))) {
    const deck = await MovingDeck.start();
    const context = await browser.newContext({ viewport: { width, height } });
    const page = await context.newPage();
    await page.clock.install();
    const session = SCENES.find(({ name }) => name === 'leaving and ready')?.session ?? '';
    await deck.server.host.open({ text: session, lanesText: null }, { replace: false, clockPhase: 0 });
    await deck.server.host.command('start', { do: 'start' });
    await page.goto(`${deck.server.origin}/display${asks}`);
    await page.getByRole('region', { name: 'Lane 1', exact: true }).waitFor();
    await page.clock.runFor(1500);
    await deck.close();
    for (const [name, wait] of [
      ['small', 9000],
      ['large', 60_000],
    ] as const) {
      await page.clock.runFor(wait);
      await page
        .getByText(/^Link lost for/)
        .first()
        .waitFor();
      const face = asks === '' ? '' : ', sweep';
      const file = `wall link lost ${name}${face} ${width}x${height}.png`.replace(/[^a-z0-9.]+/g, '-');
      await page.screenshot({ path: join(folder, file), animations: 'allow' });
      pictures.push({ file, caption: `wall: link lost, ${name}${face}, ${width} × ${height}` });
    }
    await context.close();
  }
  return pictures;
}
