/*
 * Other screens on the pool's network, in a real browser over plain http: a wall is let in by its digits, a phone by the
 * code, and both are thrown out.
 */

import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launched } from '../../support/system/launched.ts';
import { sharingHost, type SharingHost } from '../../support/host/sharing/sharing-host.ts';

const SESSION = 'start on 1\nlane 1, Ann and Bea\nlane 2\nMain set\n8 x 50 fast @ 1:00\n';

let browser: Browser;
let host: SharingHost;
let desk: Page;
const complaints: string[] = [];

beforeAll(async () => {
  host = await sharingHost(SESSION);
  const named = `--host-resolver-rules=MAP pool.example ${host.network}`;
  browser = await launched(named);
  const context = await device(1280, 800);
  // The page looks at the history by itself. A question that is on its way when sharing begins is refused first, and
  // asked again by the key that comes; the browser complains of that.
  const history = context.waitForEvent('response', (response) => response.url().endsWith('/records'));
  desk = await open(context, `${host.origin}/`);
  await history;
});

afterAll(async () => {
  await browser?.close();
  await host?.end();
});

function device(width: number, height: number, isMobile = false): Promise<BrowserContext> {
  return browser.newContext({ viewport: { width, height }, isMobile, hasTouch: isMobile });
}

async function open(context: BrowserContext, address: string): Promise<Page> {
  const page = await context.newPage();
  page.on('console', (message) => (message.type() === 'error' ? complaints.push(message.text()) : undefined));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(address);
  return page;
}

const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
const faults = async (page: Page): Promise<string[]> =>
  (await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id);

test('[sharing] a wall and a phone of the network are let in, the phone skips a rep, and both are thrown out', async () => {
  await button(desk, 'Screens').click();
  await button(desk, 'Share with other screens').click();
  await desk.getByRole('group', { name: 'Televisions' }).waitFor();
  const address = await desk.getByText(/^http:\/\/[\d.]+:\d+\/$/).innerText();
  expect(address).toContain(host.network);

  // The wall, without a secure context: digits, then the session without the names in it.
  const wall = await open(await device(1280, 720), address);
  const digits = wall.getByRole('img', { name: /^Digits/ });
  await digits.waitFor();
  if (host.network !== '127.0.0.2') expect(await wall.evaluate(() => window.isSecureContext)).toBe(false);
  await desk
    .getByLabel('Type the digits that the screen shows')
    .fill(await digits.innerText().then((all) => all.replace(/\D/g, '')));
  await button(desk, 'Let the screen in').click();
  await wall.getByRole('region', { name: 'Lane 2' }).waitFor();
  expect(await wall.evaluate(() => document.body.innerText)).not.toMatch(/Ann|Bea/);

  // The phone, by the address that the code has: ten seconds at the most, and nothing of it is left in the address.
  await button(desk, 'Let a phone in').click();
  const letters = await desk.getByText(/^[0-9A-Z]{5}( [0-9A-Z]{5}){3}$/).innerText();
  expect(await faults(desk)).toEqual([]);
  const phone = await open(await device(390, 844, true), `${address}remote#${letters.replace(/ /g, '')}`);
  await button(phone, 'Start').waitFor();
  expect(phone.url()).toBe(`${address}remote`);
  await desk
    .getByRole('status', { name: 'New devices' })
    .getByText(/^A phone is in/)
    .waitFor();
  expect(await faults(phone)).toEqual([]);
  await phone.reload();
  await button(phone, 'Start').tap();
  await button(phone, 'Skip rep').tap();
  await phone.getByText(/^Skipped 50 fast/).waitFor();
  await desk.getByText(/^Remote 1: Skipped 50 fast/).waitFor();
  await wall.getByRole('region', { name: 'Lane 2' }).getByLabel('Next leave').waitFor();

  // Out again: what was thrown out says so, and asks anew.
  const devices = desk.getByRole('group', { name: 'Devices' });
  for (const name of await devices.getByRole('button', { name: /^Throw out/ }).evaluateAll(namesOf)) {
    await devices.getByRole('button', { name, exact: true }).click();
  }
  await phone.getByLabel('The 20 characters').waitFor();
  await digits.waitFor();
  await phone.reload();
  await phone.getByLabel('The 20 characters').waitFor();
  expect(await faults(phone)).toEqual([]);
  expect(await faults(wall)).toEqual([]);
  expect(complaints).toEqual([]);
}, 60_000);

test('[sharing] pages of elsewhere, and of this machine without a key, get nothing out of the host', async () => {
  const { port } = new URL(host.origin);
  const network = `${host.network}:${port}`;
  const page = await (await device(800, 600)).newPage();
  // A name that points at the host's address.
  expect((await page.goto(`http://pool.example:${port}/`))?.status()).toBe(403);

  const stranger = createServer((_, response) => {
    response.setHeader('Content-Type', 'text/html').end(`<iframe src="${host.origin}/"></iframe>
      <iframe src="http://${network}/coach"></iframe><form method="post" action="http://${network}/command"></form>`);
  });
  await new Promise<void>((resolve) => stranger.listen(0, '127.0.0.3', resolve));
  const elsewhere = `http://127.0.0.3:${(stranger.address() as AddressInfo).port}/`;
  try {
    await page.goto(elsewhere);
    const frames = (): string[] =>
      page
        .frames()
        .slice(1)
        .map((frame) => frame.url());
    await expect.poll(frames).toEqual(['chrome-error://chromewebdata/', 'chrome-error://chromewebdata/']);
    expect(await page.evaluate(opens, `ws://${network}/deck`)).toBe(false);
    expect(await page.evaluate(opens, `ws://127.0.0.1:${port}/deck`)).toBe(false);
    const posted = page.waitForResponse(`http://${network}/command`);
    await page.locator('form').evaluate((form: HTMLFormElement) => form.submit());
    expect((await posted).status()).toBe(405);
    await page.waitForURL(`http://${network}/command`);
  } finally {
    stranger.close();
    stranger.closeAllConnections();
  }

  await page.goto(`${host.origin}/`);
  await page
    .getByText(/a page here needs a key: open the address that was printed/)
    .first()
    .waitFor();
  await page.close();
}, 60_000);

/** Whether a page can open a socket. */
function opens(address: string): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = new WebSocket(address);
    socket.onopen = () => resolve(true);
    socket.onerror = () => resolve(false);
  });
}

function namesOf(buttons: readonly Element[]): string[] {
  return buttons
    .map((each) => each.getAttribute('aria-label') ?? '')
    .filter((name) => !name.includes('Coach’s window'));
}
