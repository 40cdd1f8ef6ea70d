/*
 * What helps while a session is written: what could come next, what a line means, and the notation.
 */

import type { Page } from 'playwright';
import { SAMPLES } from '../../renderer/desk/library/first-steps/samples.ts';
import { button } from '../support/coach/coach-hand.ts';
import { editorOn } from '../support/coach/write-window/written-page.ts';
import type { Scene } from './scene.ts';

export const WRITE_SCENES: readonly Scene[] = [
  scene('writing, what could come next', async (coach) => {
    await editorOn(coach).press('Control+End');
    await coach.keyboard.type('4 x 50 easy @ ');
    await coach.getByRole('listbox').getByRole('option').first().waitFor();
    await coach.keyboard.press('ArrowDown');
  }),
  scene('writing, what a line means', async (coach) => {
    await coach.getByRole('heading', { name: 'Harbour squad, Thursday', level: 2 }).waitFor();
    await coach.locator('.cm-line', { hasText: '4 x 50 fast' }).click();
    await button(coach, 'What this line means').click();
    await coach.getByRole('table').filter({ hasText: 'leaves at' }).waitFor();
  }),
  scene('writing, a wrong hour', async (coach) => {
    await editorOn(coach).fill(SAMPLES[0]!.text.replace(/^finish .*$/m, 'finish 8:30'));
    await coach.getByText(/is an hour wrong/).waitFor();
  }),
  scene('writing, the notation', async (coach) => {
    await button(coach, 'Notation').click();
    await coach.getByRole('region', { name: 'Notation', exact: true }).waitFor();
  }),
];

function scene(name: string, prepare: (coach: Page) => Promise<void>): Scene {
  return {
    name,
    session: null,
    commands: [],
    at: 1,
    screens: ['coach'],
    fresh: true,
    async prepare(coach) {
      await editorOn(coach).fill(SAMPLES[0]!.text);
      await prepare(coach);
    },
  };
}
