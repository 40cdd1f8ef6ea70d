/*
 * What is read across the pool, measured on the wall screen as a real browser draws it: sizes, contrasts, changes of
 * lightness, and the dial.
 */

import type { Browser, Locator, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { launched } from '../../support/system/launched.ts';
import { MovingDeck } from '../../support/host/deck/moving-deck.ts';
import { contrasts, drawnHeight, misplaced, squad } from '../../support/wall/wall-sight.ts';

let browser: Browser;
const open: { close(): Promise<void> }[] = [];

beforeAll(async () => {
  browser = await launched();
});

afterEach(async () => {
  for (const each of open.splice(0)) await each.close();
});

afterAll(() => browser?.close());

/** A wall screen on a host of its own; begin: the host time of the first leaves. */
async function started(text: string, asks = ''): Promise<{ deck: MovingDeck; wall: Page; begin: number }> {
  const deck = await MovingDeck.start();
  const context = await browser.newContext({ viewport: { width: 1920, height: 1080 } });
  open.push(context, deck);
  const begin = await going(deck, text);
  return { deck, wall: await deck.openPage(context, `/display${asks}`), begin };
}

/** Opens a session in the place of any other and starts it; gives the host time of its first leaves. */
async function going(deck: MovingDeck, text: string): Promise<number> {
  await deck.server.host.open({ text, lanesText: null }, { replace: true, clockPhase: 0 });
  const { openedAt } = deck.run();
  const { at } = await deck.server.host.command(`start ${openedAt}`, { do: 'start' });
  return openedAt + Math.ceil(at! / 1000) * 1000 + 10_000;
}

function lane(number: number, on: Page): Locator {
  return on.getByRole('region', { name: `Lane ${number}`, exact: true });
}

function nextLeave(number: number, on: Page): Locator {
  return lane(number, on).getByLabel('Next leave');
}

test('[sizes] digits of leaves as drawn at 1920 x 1080, from one lane to twelve', async () => {
  const { deck, wall } = await started(squad(6, '4 x 50 free @ 1:00'));
  for (const [lanes, share] of [
    [1, 0.26],
    [2, 0.2],
    [3, 0.17],
    [4, 0.13],
    [5, 0.102],
    [7, 0.084],
    [8, 0.084],
    [12, 0.084],
  ] as const) {
    await going(deck, squad(lanes, '4 x 50 free @ 1:00'));
    await expect.poll(() => wall.getByLabel('Next leave').count()).toBe(lanes);
    expect((await drawnHeight(nextLeave(1, wall))) / 1080, `${lanes} lanes`).toBeGreaterThanOrEqual(share);
    const { y } = (await lane(1, wall).boundingBox())!;
    expect(y / 1080, `${lanes} lanes`).toBeLessThanOrEqual(lanes <= 3 ? 0.401 : 0.251);
  }
});

test('[contrast] as drawn, on deck and on water: 7:1 for number, leave and seconds, 4.5:1 for words, in every state', async () => {
  const { deck, wall, begin } = await started(squad(6, '4 x 50 free @ 0:30/0:40/0:50/1:00/1:10/1:20 hold 0:30'));
  await nextLeave(6, wall).waitFor();
  deck.moveTo(begin + 25_000);
  await deck.server.host.command('stop', { do: 'stop', lanes: [6] });
  const seen = new Set<string>();
  await expect
    .poll(
      async () => {
        const found = await contrasts(wall);
        for (const { state } of found) seen.add(state);
        return found.filter(({ ratio, least }) => ratio < least);
      },
      { timeout: 5_000 },
    )
    .toEqual([]);
  await wall.locator('[data-state="leaving"]').first().waitFor({ timeout: 10_000 });
  const leaving = await contrasts(wall);
  for (const { state } of leaving) seen.add(state);
  expect(leaving.filter(({ ratio, least }) => ratio < least)).toEqual([]);
  expect([...seen].sort()).toEqual(['leaving', 'ready', 'stopped', 'waiting']);
});

test('[flicker] over the whole screen at most three changes of look in any second, with twelve lanes at odds', async () => {
  const every = Array.from({ length: 12 }, (_, lane) => `0:10.${lane % 9}`).join('/');
  const { deck, wall, begin } = await started(squad(12, `40 x 25 free @ ${every}`));
  await nextLeave(12, wall).waitFor();
  deck.moveTo(begin + 55_000);
  await wall.waitForTimeout(1_000);
  const changes = await wall.evaluate(async () => {
    const times: number[] = [];
    const strips = Array.from(document.querySelectorAll<HTMLElement>('[data-lane]'));
    let before = '';
    for (const end = performance.now() + 12_000; performance.now() < end;) {
      const now = await new Promise<number>((done) => requestAnimationFrame(done));
      const looks = strips.map(({ dataset }) => dataset['state']).join(' ');
      if (looks !== before) times.push(now);
      before = looks;
    }
    return times.slice(1);
  });
  expect(changes.length).toBeGreaterThan(6);
  // A frame is a sixtieth of a second.
  changes.forEach((time, index) => expect((changes[index + 3] ?? Infinity) - time).toBeGreaterThan(1000 - 20));
});

test("[sweep] a dial with the pool's clock, a mark for every lane, and readings of that clock beside it", async () => {
  const session = squad(6, '4 x 50 free @ 1:00/1:05/1:10/1:15/1:20/1:25');
  const { deck, wall: dial } = await started(session, '?face=sweep&top=00&from=right&order=up');
  await nextLeave(6, dial).waitFor();
  expect(await dial.getByRole('timer', { name: 'Clock' }).textContent()).toMatch(/^:\d\d$/);
  expect(await nextLeave(6, dial).textContent()).toMatch(/^:\d\d$/);
  const numbers = await dial.locator('svg text').allTextContents();
  expect(numbers).toContain('00');
  expect(numbers).toContain('1-6');
  const [first, last] = [(await lane(1, dial).boundingBox())!, (await lane(6, dial).boundingBox())!];
  expect(first.y).toBeGreaterThan(last.y);
  const { x } = (await nextLeave(6, dial).boundingBox())!;
  expect(x).toBeGreaterThan(last.x + last.width / 2);
  expect(await misplaced(dial)).toEqual([]);
  expect(deck.complaints).toEqual([]);
});
