/*
 * Lanes and squads beside the session that is written, in a real browser: by accessible names and by keys alone.
 */

import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { deskForEach } from '../../support/coach/desk-for-each.ts';
import type { DeskPage } from '../../support/coach/desk-page.ts';
import { editorOn, textOn, writeOn } from '../../support/coach/write-window/written-page.ts';

const TEXT = `Harbour
lane 1 base 1:30, 5 swimmers # quick
lane 2 base 1:40, Ana, Bram

4 x 100 free @ base
`;
const TUESDAY = 'Tuesday\n4 x 50 @ 1:00\n';
const KEEP_AS = 'Keep these lanes as a squad called';

let desk: DeskPage;
deskForEach((opened) => (desk = opened));

/** A session in the editor, and the panel beside it. */
async function open(): Promise<void> {
  const { page } = desk;
  await writeOn(page, TEXT);
  await desk.button('Lanes and squads').click();
  await page.getByRole('table', { name: 'Lanes' }).waitFor();
}

test('[lanes] table and text are one; a css test, a squad, another session with it, and back, all by keys', async () => {
  const { page } = desk;
  const { keyboard } = page;
  await open();
  const base = page.getByRole('textbox', { name: 'Lane 1: base per 100' });
  await base.focus();
  await keyboard.press('Control+a');
  await keyboard.type('95');
  await keyboard.press('Tab');
  expect(await base.inputValue()).toBe('1:35');
  await desk.button('Lane 1: CSS from a test').press('Enter');
  await page.getByRole('textbox', { name: 'Time of swim 1' }).fill('6:00');
  await page.getByRole('textbox', { name: 'Time of swim 2' }).fill('2:50');
  await keyboard.press('Enter');
  await page.getByRole('textbox', { name: KEEP_AS }).fill('Harbour');
  await keyboard.press('Enter');
  await desk.button('Use Harbour').waitFor();
  const changed = TEXT.replace('base 1:30', 'css 1:35, base 1:35');
  expect(await textOn(page)).toBe(changed);

  await writeOn(page, TUESDAY);
  await desk.button('Use Harbour').press('Enter');
  await page.getByText('Harbour swims this session.').waitFor();
  const withSquad = 'Tuesday\nlane 1 css 1:35, base 1:35, 5 swimmers\nlane 2 base 1:40, Ana, Bram\n4 x 50 @ 1:00\n';
  expect(await textOn(page)).toBe(withSquad);
  await editorOn(page).press('Control+z');
  await expect.poll(() => textOn(page)).toBe(TUESDAY);

  // Another window of the coach's has it too; a wall screen that shows this run never heard of those names.
  const other = await desk.openPage('/');
  await other.getByRole('button', { name: 'Lanes and squads' }).click();
  await other.getByRole('button', { name: 'Use Harbour', exact: true }).waitFor();
  const frames: string[] = [];
  await editorOn(page).press('Escape');
  await desk.button('Run this session').click();
  await desk.button('Start').waitFor();
  page
    .context()
    .on('page', (opened) =>
      opened.on('websocket', (socket) => socket.on('framereceived', ({ payload }) => void frames.push(`${payload}`))),
    );
  const wall = await desk.openPage('/display');
  await wall.getByText('Tuesday').first().waitFor();
  expect(frames.join('')).toContain('Tuesday');
  expect(frames.join('')).not.toContain('Bram');
});

test('[accessible] lanes and squads at three sizes, light and dark: axe, targets of 48 px, every control by Tab', async () => {
  const { page } = desk;
  await open();
  await page.getByRole('textbox', { name: KEEP_AS }).fill('Harbour');
  await page.keyboard.press('Enter');
  await desk.button('Use Harbour').waitFor();
  await desk.button('Lane 2: CSS from a test').click();
  await page.getByRole('textbox', { name: 'Lane 1: gap in seconds' }).fill('90');
  const panel = page.getByRole('region', { name: 'Lanes and squads' });
  const controls = panel.locator('button, input');
  for (const [width, height, colorScheme] of [
    [1280, 800, 'light'],
    [1024, 700, 'dark'],
    [390, 844, 'light'],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme });
    const { violations } = await new AxeBuilder({ page }).include('section[aria-label="Lanes and squads"]').analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    const odd = await controls.evaluateAll((elements) =>
      elements
        .filter((element) => {
          const { width: wide, height: high, right } = element.getBoundingClientRect();
          return wide < 48 || high < 48 || right > innerWidth;
        })
        .map(({ outerHTML }) => outerHTML),
    );
    expect(odd, `${width} × ${height}`).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  }
  await panel.getByRole('heading', { name: 'Lanes and squads' }).focus();
  const all = await controls.all();
  for (const control of all) {
    await page.keyboard.press('Tab');
    expect(await control.evaluate((element) => element === document.activeElement)).toBe(true);
  }
  expect(all.length).toBeGreaterThan(20);
});
