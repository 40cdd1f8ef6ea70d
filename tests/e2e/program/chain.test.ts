/*
 * The whole chain from a session to two screens, and a real host process that comes and goes.
 */

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { launched } from '../../support/system/launched.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { freePort } from '../../support/host/free-port.ts';
import { MovingDeck } from '../../support/host/deck/moving-deck.ts';

const program = fileURLToPath(new URL('../../../dist/lanecall.mjs', import.meta.url));
const SESSION =
  'Harbour squad\nstart on 1\nlane 1\nlane 2, 3 swimmers\nMain set\n8 x 50 free @ 0:40/0:45\nSwim-down\n100 easy';

let browser: Browser;
let port: number;
let host: ChildProcess | null = null;

beforeAll(async () => {
  browser = await launched();
  port = await freePort();
});

afterEach(() => stopHost());

afterAll(() => browser?.close());

async function startHost(session: string | null): Promise<void> {
  const args = ['serve', ...(session === null ? [] : ['-']), '--port', String(port), '--data', freshDataFolder()];
  host = spawn(process.execPath, [program, ...args], { stdio: ['pipe', 'pipe', 'inherit'] });
  host.stdin!.end(session ?? '');
  await once(host.stdout!, 'data');
}

async function stopHost(): Promise<void> {
  if (!host || host.exitCode !== null) return;
  const gone = once(host, 'exit');
  host.kill('SIGKILL');
  await gone;
  host = null;
}

const open = async (path: string): Promise<Page> => {
  const page = await browser.newPage();
  await page.goto(`http://127.0.0.1:${port}${path}`);
  return page;
};

const clockOf = (page: Page) => page.getByRole('timer', { name: 'Clock' });

const nextLeave = (wall: Page, lane: number) =>
  wall.getByRole('region', { name: `Lane ${lane}`, exact: true }).getByLabel('Next leave');

test('two screens are in step: the same clock at the same moment, the same leaves', async () => {
  const deck = await MovingDeck.start();
  expect(await deck.server.host.open({ text: SESSION, lanesText: null }, { replace: false })).toMatchObject({
    ok: true,
  });
  const context = await browser.newContext();
  const [first, second] = [await deck.openPage(context, '/display'), await deck.openPage(context, '/display')];
  const desk = await deck.openPage(context, '/');
  await desk.getByRole('button', { name: 'Start', exact: true }).click();
  await expect.poll(() => deck.run().commands.length).toBe(1);
  // Both have to find the host's clock again by themselves.
  deck.moveTo(deck.now() + 9000);
  await expect.poll(() => nextLeave(first, 1).textContent()).toBe('0:40');
  await expect.poll(() => nextLeave(second, 1).textContent()).toBe('0:40');
  let together = 0;
  for (let look = 0; look < 20; look++) {
    const [a, b] = await Promise.all([clockOf(first).textContent(), clockOf(second).textContent()]);
    if (a === b) together++;
    for (const lane of [1, 2]) {
      const [one, other] = await Promise.all([
        nextLeave(first, lane).textContent(),
        nextLeave(second, lane).textContent(),
      ]);
      expect(one).toBe(other);
    }
  }
  // Reading two pages takes some milliseconds, so a look may fall on the turn of a second.
  expect(together).toBeGreaterThanOrEqual(16);
  expect(deck.complaints).toEqual([]);
  await context.close();
  await deck.close();
});

test('a page whose host was not there yet, or is restarted, connects by itself and shows the truth', async () => {
  await startHost(null);
  const wall = await open('/display');
  await expect.poll(() => wall.locator('body').textContent()).toContain('Waiting for a session');
  await stopHost();
  await startHost(SESSION);
  await expect.poll(() => wall.locator('body').textContent()).toContain('Main set');
  const desk = await open('/');
  await desk.getByRole('button', { name: 'Start', exact: true }).click();
  await expect.poll(() => nextLeave(wall, 2).textContent()).toBe('0:00');
  await desk.getByRole('button', { name: 'Stop all lanes', exact: true }).click();
  await expect.poll(() => wall.getByRole('region', { name: 'Lane 1', exact: true }).textContent()).toContain('stopped');
  await Promise.all([wall, desk].map((page) => page.close()));
});
