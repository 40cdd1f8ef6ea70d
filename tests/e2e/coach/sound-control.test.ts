/*
 * The sound's controls: a device that goes and comes back; which of several screens sounds; and the settings.
 */

import { AxeBuilder } from '@axe-core/playwright';
import type { Locator, Page } from 'playwright';
import { expect, test } from 'vitest';
import { tappedOnsets, tapSound } from '../../support/sound/page-sound.ts';
import { button, LEAVE, soundingDeskForEach } from '../../support/sound/sounding-desk.ts';

const desk = soundingDeskForEach();

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

test('a device that goes is said, and when it is back the sound is too, by itself', async () => {
  await desk().openSession();
  const page = await desk().sounding();
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
  await desk().openSession();
  const coach = await desk().sounding();
  await coach.getByText('Only this screen sounds.').waitFor();
  const wall = await desk().deck.openPage(desk().context, '/display');
  await wallSays(wall, 'Sound on this screen: off').then((control) => control.click());
  await wallSays(wall, 'Sound on this screen: off, another screen sounds');
  await button(coach, 'Sound on this screen: on').click();
  await button(coach, 'Sound off').waitFor();
  await wallSays(wall, 'Sound on this screen: off, another screen sounds').then((control) => control.click());
  await wallSays(wall, 'Sound on this screen: on');
  await button(coach, 'Sound on the wall screen').waitFor();
  await coach.getByText('The wall screen sounds.').waitFor();
  await wall.close();
  await button(coach, 'Sound off').waitFor();
  await coach.getByText('No screen sounds.').waitFor();

  // The host has the last word on it, so it is ticked a moment after the click.
  const more = coach.getByRole('checkbox', { name: 'More than one screen may sound' });
  await more.click();
  await expect.poll(() => more.isChecked()).toBe(true);
  await button(coach, 'Sound on this screen: off').click();
  await button(coach, 'Sound on').waitFor();
  // The wall remembers that it is to sound, and wants one tap for it. Looking at a page counts as one to the browser, so
  // the coach says first that the wall has asked for it.
  const again = await desk().deck.openPage(desk().context, '/display');
  await coach.getByText('The wall screen (wants a tap) sounds too.').waitFor();
  await wallSays(again, 'Sound is blocked by the browser: tap this screen once');
  await again.mouse.click(600, 300);
  await wallSays(again, 'Sound on this screen: on');
  await button(coach, 'Sound on 2 screens').waitFor();
  await more.click();
  await button(coach, 'Sound on').waitFor();
  await wallSays(again, 'Sound on this screen: off, another screen sounds');
});

test('its settings are kept by the screen, worked by the keyboard, and without fault in both lights and on a phone', async () => {
  await desk().openSession('start on 1\nlane 1\nlane 2\nSet\n4 x 25 @ 0:30\n');
  const page = await desk().sounding();
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
  await desk().give({ do: 'start' });
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
