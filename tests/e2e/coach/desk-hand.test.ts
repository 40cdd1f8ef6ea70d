/*
 * Fingers, keys and clickers on the coach's window, with a browser's own events: whom the big button is for, and what
 * comes too fast.
 */

import { expect, test } from 'vitest';
import { BOUNCE_TIME } from '../../../renderer/ui/coach/commands/bounce.ts';
import { deskForEach } from '../../support/coach/desk-for-each.ts';
import type { DeskPage } from '../../support/coach/desk-page.ts';
import { editorOn, textOn } from '../../support/coach/write-window/written-page.ts';

const SESSION = `Harbour squad
start on 1
lane 1 base 1:30, 3 swimmers
lane 2 base 1:40

Main set
3 rounds
  4 x 50 fast @ 0:50/1:00
10 x 75 free @ 1:20
`;

let desk: DeskPage;
deskForEach((opened) => (desk = opened));

test('Stop, Space and the clicker are for all lanes, whichever are chosen', async () => {
  await desk.start(SESSION);
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
  await desk.start(SESSION);
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
  await box.fill(SESSION);
  expect(await typed()).toBe(SESSION + more);
  await box.fill('');
  await desk.start(SESSION);
  await desk.button('Edit').click();
  expect(await typed()).toBe(SESSION + more);
  await desk.page.waitForTimeout(200);
  expect(await textOn(desk.page)).toBe(SESSION + more);
});
