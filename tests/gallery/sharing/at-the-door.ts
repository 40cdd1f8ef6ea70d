/*
 * The page of a television on the pool's network: the digits that let it in, and what it says when sharing or the program has ended.
 */

import { join } from 'node:path';
import type { Browser } from 'playwright';
import { button } from '../../support/coach/coach-hand.ts';
import { sharingHost } from '../../support/host/sharing/sharing-host.ts';
import type { Picture } from '../gallery-page.ts';

const SIZES = [
  [1920, 1080],
  [1280, 720],
  [1024, 768],
  [1080, 1920],
  [390, 844],
] as const;

/** Three pictures a size, written into the folder. */
export async function atTheDoor(browser: Browser, folder: string): Promise<readonly Picture[]> {
  const host = await sharingHost('Harbour squad\nlane 1\nlane 2\nMain set\n8 x 50 fast @ 1:00\n');
  const pictures: Picture[] = [];
  const desk = await browser.newPage();
  const wall = await browser.newPage();
  const take = async (name: string): Promise<void> => {
    for (const [width, height] of SIZES) {
      await wall.setViewportSize({ width, height });
      await wall.evaluate(() => document.fonts.ready.then(() => undefined));
      const file = `wall ${name} ${width}x${height}.png`.replace(/[^a-z0-9.]+/g, '-');
      await wall.screenshot({ path: join(folder, file), animations: 'allow' });
      pictures.push({ file, caption: `wall: ${name}, ${width} × ${height}` });
    }
  };
  await desk.goto(`${host.origin}/`);
  await button(desk, 'Screens').click();
  await button(desk, 'Share with other screens').click();
  await wall.goto(await desk.getByText(/^http:\/\/[\d.]+:\d+\/$/).innerText());
  const digits = wall.getByRole('img', { name: /^Digits/ });
  await digits.waitFor();
  await take('sharing, digits');
  await desk.getByLabel('Type the digits that the screen shows').fill((await digits.innerText()).replace(/\D/g, ''));
  await button(desk, 'Let the screen in').click();
  await wall.getByRole('region', { name: 'Lane 2' }).waitFor();
  await button(desk, 'Share with other screens').click();
  await wall
    .getByText(/Sharing has ended/)
    .first()
    .waitFor();
  await take('sharing, ended');
  await button(desk, 'Share with other screens').click();
  await wall.getByRole('region', { name: 'Lane 2' }).waitFor();
  await host.end('The program has ended.');
  await wall
    .getByText(/^This screen shows no leaves/)
    .first()
    .waitFor();
  await take('the program ended');
  await desk.close();
  await wall.close();
  return pictures;
}
