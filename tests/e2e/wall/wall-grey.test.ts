/*
 * Nothing on the wall screen is said by colour alone: every state of a lane is drawn in greys, in every light, and
 * found again by its word or its shape.
 */

import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { SCREEN_CHOICES } from '../../../app/core/screen/screen-settings.ts';
import { launched } from '../../support/system/launched.ts';
import { MovingDeck } from '../../support/host/deck/moving-deck.ts';
import { contrastOf, freeze, greysOf, ground, type Clip } from '../../support/wall/wall-grey.ts';
import { contrasts } from '../../support/wall/wall-sight.ts';

const LANES = [1, 2, 3, 4, 5, 6];

const SESSION = `start on 1
${LANES.map((lane) => `lane ${lane} base 1:30, 4 swimmers`).join('\n')}

Main set
4/4/4/4/4/1 x 50 free @ 0:30/0:38/1:10/1:00/1:00/1:00 hold 0:30
`;

/** Of the lanes, in their order, half a minute after the first leave. */
const STATES = ['leaving', 'ready', 'waiting', 'stopped', 'out', 'finished'];

let browser: Browser;
let deck: MovingDeck;
let wall: Page;

beforeAll(async () => {
  browser = await launched();
  deck = await MovingDeck.start();
  const context = await browser.newContext({ viewport: { width: 1920, height: 1080 } });
  const { host } = deck.server;
  await host.open({ text: SESSION, lanesText: null }, { replace: true, clockPhase: 0 });
  const { at } = await host.command('start', { do: 'start' });
  wall = await deck.openPage(context, '/display');
  await wall.getByRole('region', { name: 'Lane 6' }).getByLabel('Next leave').waitFor();
  deck.moveTo(deck.run().openedAt + Math.ceil(at! / 1000) * 1000 + 10_000 + 26_000);
  await host.command('stop', { do: 'stop', lanes: [4] });
  await host.command('out', { do: 'lane-out', lanes: [5] });
  await wall.locator("[data-state='leaving']").waitFor({ timeout: 10_000 });
  await freeze(wall);
});

afterAll(async () => {
  await browser?.close();
  await deck?.close();
});

/** Of a lane's strip a part, in shares of its width and height. */
async function partOf(lane: number, x: number, y: number, width: number, height: number): Promise<Clip> {
  const box = (await wall.locator(`[data-lane='${lane}']`).boundingBox())!;
  const at = { x: box.x + x * box.width, y: box.y + y * box.height };
  return { ...at, width: Math.max(1, width * box.width), height: Math.max(1, height * box.height) };
}

async function lookIn(light: string): Promise<void> {
  await wall.evaluate((name) => void (document.documentElement.dataset['light'] = name), light);
}

test('[greys] the lanes are in all the states that a lane has while it is swum', async () => {
  const states = await wall
    .locator('[data-lane]')
    .evaluateAll((all) => all.map((strip) => strip.getAttribute('data-state')));
  expect(states).toEqual(STATES);
});

for (const light of SCREEN_CHOICES.light) {
  test(`[greys] each state carries its word or its shape: ${light}`, async () => {
    await lookIn(light);
    const clips: Clip[] = [
      { x: 2, y: 2, width: 20, height: 20 },
      { ...(await partOf(4, 0.7, 0.5, 0.28, 0)), height: 1 },
    ];
    for (const lane of LANES) {
      const number = (await wall.locator(`[data-lane='${lane}'] > .strip-number`).boundingBox())!;
      const { y, height } = await partOf(lane, 0, 0, 1, 1);
      clips.push(
        await partOf(lane, 0.6, 0.15, 0.1, 0.7),
        // Beside the number, inside the plate where there is one; and left of that.
        { x: number.x + number.width * 0.17, y: y + height * 0.45, width: 6, height: height * 0.1 },
        { x: number.x + 2, y: y + height * 0.2, width: 4, height: height * 0.6 },
      );
    }
    const [deckArea = [], hatching = [], ...areas] = await greysOf(wall, clips);
    for (const lane of LANES) {
      const [strip = 0, plate = 0, beside = 0] = areas.slice((lane - 1) * 3, lane * 3).map(ground);
      expect(contrastOf(plate, beside) >= 3, `plate of lane ${lane}`).toBe(lane === 2);
      expect(contrastOf(strip, ground(deckArea)) >= 3, `strip of lane ${lane}`).toBe(lane === 1);
    }
    const text = (lane: number): Promise<string | null> =>
      wall.locator(`[data-lane='${lane}'] .strip-word`).textContent();
    expect(await Promise.all(LANES.map(text))).toEqual(['', '', '', 'stopped', 'out', expect.stringMatching(/^in by/)]);
    expect(await wall.locator("[data-lane='1'] .dot").count()).toBe(4);
    const [row = []] = hatching;
    const [least, most] = [Math.min(...row), Math.max(...row)];
    const stripes = row.filter((grey, x) => x > 0 && grey > (least + most) / 2 !== row[x - 1]! > (least + most) / 2);
    expect(stripes.length, 'edges of hatching').toBeGreaterThanOrEqual(6);
  });

  test(`[accessible] axe finds nothing: ${light}`, async () => {
    await lookIn(light);
    const { violations } = await new AxeBuilder({ page: wall }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  });

  test(`[contrast] as drawn in every state, 7:1 for number, leave and seconds and 4.5:1 for words: ${light}`, async () => {
    await lookIn(light);
    expect((await contrasts(wall)).filter(({ ratio, least }) => ratio < least)).toEqual([]);
  });
}
