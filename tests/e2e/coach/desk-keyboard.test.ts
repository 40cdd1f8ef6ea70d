/*
 * Who has the keyboard on the coach's window, with a browser's own events. These tests mostly wait until the next
 * press counts, so they run at the same time, each on a host and in a window of its own.
 */

import type { Browser, BrowserContextOptions, Locator } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { BOUNCE_TIME } from '../../../renderer/ui/coach/commands/bounce.ts';
import { launched } from '../../support/system/launched.ts';
import { DeskPage, TWO_LANES } from '../../support/coach/desk-page.ts';

let browser: Browser;
const desks: DeskPage[] = [];

beforeAll(async () => {
  browser = await launched();
});

afterAll(async () => {
  for (const desk of desks) await desk.close();
  await browser?.close();
  expect(desks.flatMap(({ deck }) => deck.complaints)).toEqual([]);
});

async function open(options: BrowserContextOptions = {}): Promise<DeskPage> {
  const desk = await DeskPage.open(browser, options);
  desks.push(desk);
  return desk;
}

test.concurrent.for([false, true])(
  'what was used keeps no keyboard (by touch: %s): Space is Stop after each kind of control',
  async (touch, { expect }) => {
    const desk = await open({ hasTouch: touch });
    await desk.start(TWO_LANES);
    await desk.page.keyboard.press('Enter');
    await desk.said('Start was given');
    const use = (what: Locator): Promise<void> => (touch ? what.tap() : what.click());
    const spaceIsStop = async (): Promise<void> => {
      await desk.page.waitForTimeout(BOUNCE_TIME);
      await desk.page.keyboard.press('Space');
      // Not taken at once: a second press in fright still means Stop.
      await expect.poll(() => desk.button('Resume').getAttribute('aria-disabled')).toBeNull();
      await desk.page.waitForTimeout(BOUNCE_TIME);
      await desk.page.keyboard.press('Space');
      await desk.button('Stop all lanes').waitFor();
    };
    // A select: its list is opened and something chosen by pointer or keys; then the same again is chosen.
    const clock = desk.page.getByRole('combobox', { name: 'Which clock' });
    for (const keys of [['ArrowDown', 'Enter'], ['Enter']]) {
      await use(clock);
      for (const key of keys) await desk.page.keyboard.press(key);
      await spaceIsStop();
    }
    await desk.page.keyboard.press('PageDown');
    expect(await clock.inputValue()).toBe('run');
    // A part of the outline, a stepper in it, a panel and its Close.
    await use(desk.page.getByRole('button', { name: /^3 rounds/ }));
    await spaceIsStop();
    await use(desk.button('Rounds to cut: one more'));
    await spaceIsStop();
    await use(desk.button('Lane 2…'));
    await spaceIsStop();
    await use(desk.button('Close'));
    await spaceIsStop();
    // The sound: a switch, a box, a slider, what folds out, and closing it.
    await use(desk.button(/^Sound/));
    await use(desk.page.getByText('What sounds'));
    await spaceIsStop();
    await use(desk.page.getByRole('checkbox', { name: 'Two notes on Stop and Resume' }));
    await spaceIsStop();
    await use(desk.page.getByRole('slider', { name: 'Volume' }));
    await spaceIsStop();
    await desk.page.keyboard.press('Escape');
    expect(await desk.page.getByRole('group', { name: 'Sound' }).count()).toBe(0);
    await use(desk.button(/^Sound/));
    await use(desk.page.getByRole('group', { name: 'Sound' }).getByRole('button', { name: 'Close', exact: true }));
    await spaceIsStop();
    expect(await desk.page.getByRole('group', { name: 'Sound' }).count()).toBe(0);
  },
);

test.concurrent(
  'a control reached by Tab is worked by its keys, and Escape gives the keyboard back',
  async ({ expect }) => {
    const desk = await open();
    await desk.start(TWO_LANES);
    const clock = desk.page.getByRole('combobox', { name: 'Which clock' });
    const hasKeyboard = (): Promise<boolean> => clock.evaluate((select) => select === document.activeElement);
    for (let stops = 0; stops < 60 && !(await hasKeyboard()); stops++) await desk.page.keyboard.press('Tab');
    expect(await hasKeyboard()).toBe(true);
    await desk.page.keyboard.press('ArrowDown');
    expect(await clock.inputValue()).toBe('run');
    const lane = desk.button('Lane 1');
    const laneHasKeyboard = (): Promise<boolean> => lane.evaluate((node) => node === document.activeElement);
    for (let stops = 0; stops < 10 && !(await laneHasKeyboard()); stops++) await desk.page.keyboard.press('Tab');
    await desk.page.keyboard.press('Space');
    await expect.poll(() => lane.getAttribute('aria-pressed')).toBe('true');
    await desk.page.keyboard.press('Escape');
    await expect.poll(() => lane.getAttribute('aria-pressed')).toBe('false');
    await desk.page.waitForTimeout(BOUNCE_TIME);
    await desk.page.keyboard.press('Space');
    await desk.said('Stopped all lanes.');
  },
);
