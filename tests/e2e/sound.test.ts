/*
 * The sound as it leaves the page: tapped after everything is mixed and held against the host's leave
 * times; a device that goes and comes back; which of several screens sounds; and the settings.
 */

import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Locator, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { launched } from '../support/system/launched.ts';
import { MovingDeck } from '../support/host/deck/moving-deck.ts';
import { tappedOnsets, tapSound } from '../support/sound/page-sound.ts';

const SESSION = 'start on 1\nlane 1\nlane 2\nSet\n4 x 25 @ 0:03/0:04\n';

const LEAVE = { hertz: 1600, least: 0.2 };
const PIP = { hertz: 1000, least: 0.1 };

/** Half way up its ramp of 15 ms a tone has begun; that is where the finder puts it. */
const RAMP_MIDDLE = 7.5;

let browser: Browser;
let context: BrowserContext;
let deck: MovingDeck;
let ids = 0;

beforeAll(async () => {
  browser = await launched();
});

beforeEach(async () => {
  deck = await MovingDeck.start();
  // The tap is a script of the test's own.
  context = await browser.newContext({ viewport: { width: 1280, height: 800 }, bypassCSP: true });
});

afterEach(async () => {
  await context?.close();
  await deck?.close();
  expect(deck.complaints).toEqual([]);
});

afterAll(() => browser?.close());

async function open(text = SESSION): Promise<void> {
  const opened = await deck.server.host.open({ text, lanesText: null }, { replace: true, clockPhase: 0 });
  expect(opened).toMatchObject({ ok: true });
}

async function give(fields: Record<string, unknown>): Promise<number> {
  const answer = await deck.server.host.command(`sound-test-${ids++}`, fields);
  expect(answer.ok).toBe(true);
  return answer.at!;
}

const button = (on: Page, name: string | RegExp): Locator => on.getByRole('button', { name, exact: true });

/** Opens the coach's window and its settings, and switches its sound on there. */
async function soundingDesk(): Promise<Page> {
  const page = await deck.openPage(context, '/');
  await button(page, /^Sound/).click();
  await button(page, 'Sound on this screen: off').click();
  await button(page, 'Sound on').waitFor();
  return page;
}

/** Its switch is there only while somebody moves the pointer. */
async function wallSays(wall: Page, words: string): Promise<Locator> {
  const control = button(wall, words);
  const end = Date.now() + 20_000;
  for (let x = 200; (await control.count()) === 0; x = 500 - x) {
    if (Date.now() > end) throw new Error(`the wall does not say: ${words}`);
    await wall.mouse.move(x, 200);
    await wall.waitForTimeout(50);
  }
  return control;
}

/** The page's clock, in ms, at t = 0 of the run. */
async function zeroOf(page: Page): Promise<number> {
  const { openedAt } = deck.run();
  const looks: { taken: number; zero: number }[] = [];
  for (let look = 0; look < 10; look++) {
    const before = deck.now();
    const there = await page.evaluate(() => performance.now());
    const after = deck.now();
    looks.push({ taken: after - before, zero: there - ((before + after) / 2 - openedAt) });
  }
  return looks.sort((a, b) => a.taken - b.taken)[0]!.zero;
}

test('[R1] every pip and tone leaves the page within 5 ms of its time, none is missing and none too much', async () => {
  await open();
  const page = await soundingDesk();
  await tapSound(page);
  const begin = Math.ceil((await give({ do: 'start' })) / 1000) * 1000 + 10_000;
  // The host's time jumps on to shortly before the first pip: the page measures it anew.
  deck.moveTo(deck.run().openedAt + begin - 5_500);
  const zero = await zeroOf(page);
  const sinceBegin = (): number => deck.now() - deck.run().openedAt - begin;
  await expect.poll(sinceBegin, { timeout: 30_000 }).toBeGreaterThan(4_200);
  // Lane 1 is to leave at 6 and 9 s, lane 2 at 8 and 12 s: it stops, and lane 2 goes on.
  await give({ do: 'stop', lanes: [1] });
  await expect.poll(sinceBegin, { timeout: 30_000 }).toBeGreaterThan(9_500);
  // A machine that is slow to tell what it heard has heard more by then, lane 2 at 12 s for one.
  const seconds = async (pitch: typeof LEAVE): Promise<readonly number[]> =>
    (await tappedOnsets(page, pitch)).map((time) => time - RAMP_MIDDLE - zero - begin).filter((time) => time < 9_500);
  for (const [heard, due] of [
    [await seconds(PIP), [-3000, -2000, -1000]],
    [await seconds(LEAVE), [0, 3000, 4000, 8000]],
  ] as const) {
    expect(heard.map((time) => Math.round(time / 100) * 100 + 0)).toEqual(due);
    heard.forEach((time, index) => expect(Math.abs(time - due[index]!)).toBeLessThan(5));
  }
});

interface HeardCue {
  readonly kind: string;
  readonly heardAt: number;
}

test('pips and the tone of the first leave are scheduled ahead, at the right time of the page', async () => {
  await context.addInitScript(() => {
    const cues: unknown[] = [];
    Object.assign(window, { heardCues: cues });
    window.addEventListener('lanecall:cue-scheduled', (event) => cues.push((event as CustomEvent<unknown>).detail));
  });
  await open();
  const page = await soundingDesk();
  const begin = Math.ceil((await give({ do: 'start' })) / 1000) * 1000 + 10_000;
  deck.moveTo(deck.run().openedAt + begin - 5_500);
  const cues = (): Promise<HeardCue[]> =>
    page.evaluate(() => (window as unknown as { heardCues: HeardCue[] }).heardCues);
  await expect.poll(async () => (await cues()).length, { timeout: 20_000 }).toBeGreaterThanOrEqual(4);
  const [first, second, third, leave] = await cues();
  expect([first, second, third, leave].map((cue) => cue?.kind)).toEqual(['pip', 'pip', 'pip', 'leave']);
  const apart = [second!.heardAt - first!.heardAt, third!.heardAt - second!.heardAt, leave!.heardAt - third!.heardAt];
  for (const gap of apart) expect(Math.abs(gap - 1000)).toBeLessThan(10);
  expect(leave!.heardAt).toBeGreaterThan((await page.evaluate(() => performance.now())) - 2_500);
});

test('a device that goes is said, and when it is back the sound is too, by itself', async () => {
  await open();
  const page = await soundingDesk();
  await page.evaluate(() => {
    const { prototype } = BaseAudioContext;
    const time = Object.getOwnPropertyDescriptor(prototype, 'currentTime')!;
    const output = { kind: 'audiooutput' } as MediaDeviceInfo;
    const listed = (...devices: MediaDeviceInfo[]): void => {
      navigator.mediaDevices.enumerateDevices = () => Promise.resolve(devices);
    };
    listed(output);
    Object.assign(window, {
      standsStill: () => Object.defineProperty(prototype, 'currentTime', { configurable: true, get: () => 7 }),
      movesAgain: () => Object.defineProperty(prototype, 'currentTime', time),
      isUnplugged: () => listed(),
      isPluggedIn: () => listed(output),
    });
  });
  const device = (what: string) =>
    page.evaluate((name) => void (window as unknown as Record<string, () => void>)[name]!(), what);
  // Its time stands still; or it goes on as if nothing were wrong, with nothing there that plays.
  for (const [goes, comes] of [
    ['standsStill', 'movesAgain'],
    ['isUnplugged', 'isPluggedIn'],
  ] as const) {
    await page.waitForTimeout(1_200);
    await device(goes);
    await button(page, 'Sound no device').waitFor({ timeout: 10_000 });
    await page.getByText('No device plays it. It is tried again every few seconds.').waitFor();
    await device(comes);
    await button(page, 'Sound on').waitFor({ timeout: 20_000 });
  }
  await tapSound(page);
  await button(page, 'Test tone').click();
  await expect.poll(async () => (await tappedOnsets(page, LEAVE)).length).toBe(1);
});

test('one screen sounds, until it goes, and no wall screen takes that from the coach; more where it is wanted', async () => {
  await open();
  const desk = await soundingDesk();
  await desk.getByText('Only this screen sounds.').waitFor();
  const wall = await deck.openPage(context, '/display');
  await wallSays(wall, 'Sound on this screen: off').then((control) => control.click());
  await wallSays(wall, 'Sound on this screen: off, another screen sounds');
  await button(desk, 'Sound on this screen: on').click();
  await button(desk, 'Sound off').waitFor();
  await wallSays(wall, 'Sound on this screen: off, another screen sounds').then((control) => control.click());
  await wallSays(wall, 'Sound on this screen: on');
  await button(desk, 'Sound on the wall screen').waitFor();
  await desk.getByText('The wall screen sounds.').waitFor();
  await wall.close();
  await button(desk, 'Sound off').waitFor();
  await desk.getByText('No screen sounds.').waitFor();

  // The host has the last word on it, so it is ticked a moment after the click.
  const more = desk.getByRole('checkbox', { name: 'More than one screen may sound' });
  await more.click();
  await expect.poll(() => more.isChecked()).toBe(true);
  await button(desk, 'Sound on this screen: off').click();
  await button(desk, 'Sound on').waitFor();
  // The wall remembers that it is to sound, and wants one tap for it.
  const again = await deck.openPage(context, '/display');
  await wallSays(again, 'Sound is blocked by the browser: tap this screen once');
  await again.mouse.click(600, 300);
  await wallSays(again, 'Sound on this screen: on');
  await button(desk, 'Sound on 2 screens').waitFor();
  await more.click();
  await button(desk, 'Sound on').waitFor();
  await wallSays(again, 'Sound on this screen: off, another screen sounds');
});

test('its settings are kept by the screen, worked by the keyboard, and without fault in both lights and on a phone', async () => {
  await open('start on 1\nlane 1\nlane 2\nSet\n4 x 25 @ 0:30\n');
  const page = await soundingDesk();
  const panel = page.getByRole('group', { name: 'Sound', exact: true });
  await page.getByText('What sounds').click();
  await page.getByText('Where it comes out').click();
  await page.getByRole('combobox', { name: 'Three pips' }).selectOption('before every leave');
  await page.getByRole('checkbox', { name: 'A pitch for each lane' }).check();
  await button(page, 'Lane 2 sounds').click();
  await page.getByRole('combobox', { name: 'Through' }).selectOption('a television, by HDMI');
  const slider = page.getByRole('slider', { name: 'Sent earlier or later' });
  await slider.focus();
  for (let press = 0; press < 12; press++) await page.keyboard.press('ArrowLeft');
  await page.getByText('Sent 120 ms earlier').waitFor();
  await button(page, 'Flash and beep').click();
  await page.getByText('Move the slider until you see the flash and hear the beep together.').waitFor();

  for (const light of ['light', 'dark']) {
    await page.evaluate((to) => document.documentElement.setAttribute('data-light', to), light);
    for (const [width, height] of [
      [1280, 800],
      [390, 844],
    ] as const) {
      await page.setViewportSize({ width, height });
      const { violations } = await new AxeBuilder({ page }).include('[aria-label="Sound"]').analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      // Whatever is set there, the lanes can be stopped at once.
      await button(page, /^(?:Start|Stop all lanes)$/).click({ trial: true });
      const box = (await panel.boundingBox())!;
      expect([box.x >= 0, box.y >= 0, box.x + box.width <= width, box.y + box.height <= height]).not.toContain(false);
      for (const control of await panel.locator('button, select, input[type="range"], summary, label').all()) {
        expect((await control.boundingBox())!.height, await control.innerText()).toBeGreaterThanOrEqual(48);
      }
    }
  }
  await page.setViewportSize({ width: 1280, height: 800 });

  // Nothing but leaves while a session goes.
  await give({ do: 'start' });
  await page.getByTitle('A session is going: this would be taken for a leave.').first().click({ force: true });
  await page.getByText('A session is going: this would be taken for a leave.').first().waitFor();
  await expect.poll(() => page.locator('[data-part="flash"]').count()).toBe(0);
  await slider.focus();
  await page.keyboard.press('Escape');
  await panel.waitFor({ state: 'hidden' });
  // Space is Stop again, not the button that opens the panel.
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('BODY');

  await page.reload();
  await button(page, /^Sound (tap to hear it|on|starting)$/).click();
  await page.getByText('What sounds').click();
  await page.getByText('Where it comes out').click();
  await page.getByText('Sent 120 ms earlier').waitFor();
  await button(page, 'Lane 2 silent').waitFor();
  expect(await page.getByRole('combobox', { name: 'Three pips' }).inputValue()).toBe('always');
});
