/*
 * Fingers, keys and clickers on the coach's window, with a browser's own events: whom the big button is for, and what
 * comes too fast.
 */

import { expect, test } from 'vitest';
import { BOUNCE_TIME } from '../../../renderer/ui/coach/commands/bounce.ts';
import { deskForEach } from '../../support/coach/desk-for-each.ts';
import { TWO_LANES, type DeskPage } from '../../support/coach/desk-page.ts';
import { editorOn, textOn } from '../../support/coach/write-window/written-page.ts';

let desk: DeskPage;
deskForEach((opened) => (desk = opened));

test('Stop, Space and the clicker are for all lanes, whichever are chosen', async () => {
  await desk.start(TWO_LANES);
  for (const stop of [
    () => desk.button('Stop all lanes').click(),
    () => desk.page.keyboard.press('Space'),
    () => desk.page.keyboard.press('b'),
  ]) {
    await desk.button('Lane 2').click();
    await desk.page.getByText('Next command: lane 2').waitFor();
    await stop();
    await desk.said('Stopped all lanes.');
    await desk.page.waitForTimeout(BOUNCE_TIME);
    await desk.button('Resume').click();
    await desk.said('Resumed all lanes');
    await desk.page.waitForTimeout(BOUNCE_TIME);
  }
});

test('a double tap on Stop stops, and Resume in its place does not take the second tap', async () => {
  await desk.start(TWO_LANES);
  await desk.button('Stop all lanes').dblclick({ delay: 60 });
  await desk.said('Stopped all lanes.');
  await desk.page.waitForTimeout(300);
  await desk.button('Resume').waitFor();
  expect(await desk.page.getByRole('status').last().textContent()).toBe('Stopped all lanes.');
});

test('no letter is lost however fast they come, in Write and in Edit', async () => {
  const more = Array.from({ length: 12 }, (_, line) => `4 x 50 back and free by ${line} @ 1:30`).join('\n');
  const box = editorOn(desk.page);
  /** All in one task, as by a macro or a fast machine: React has no time of its own between them. */
  const typed = async (): Promise<string> => {
    await box.press('Control+End');
    await box.evaluate((_, text) => {
      for (const letter of text) document.execCommand('insertText', false, letter);
    }, more);
    return textOn(desk.page);
  };
  await box.fill(TWO_LANES);
  expect(await typed()).toBe(TWO_LANES + more);
  await box.fill('');
  await desk.start(TWO_LANES);
  await desk.button('Edit').click();
  expect(await typed()).toBe(TWO_LANES + more);
  await desk.page.waitForTimeout(200);
  expect(await textOn(desk.page)).toBe(TWO_LANES + more);
});
