/*
 * What helps while a session is written: what could come next, what a line means, and the notation.
 */

import type { Page } from 'playwright';
import { SAMPLES } from '../../renderer/desk/library/first-steps/samples.ts';
import { button } from '../support/coach/coach-hand.ts';
import { editorOn } from '../support/coach/write-window/written-page.ts';
import type { Scene } from './scene.ts';

const SAMPLE = SAMPLES[0]!.text;

const TEN_LANES = `Harbour squad, ten lanes
${Array.from({ length: 10 }, (_, lane) => `lane ${lane + 1} css 1:${20 + 2 * lane}, 4 swimmers`).join('\n')}

Main set
10/10/9/9/8/8/7/7/6/6 x 100 steady @ 1:40/1:42/1:44/1:46/1:48/1:50/1:52/1:54/1:56/1:58
`;

export const WRITE_SCENES: readonly Scene[] = [
  scene('writing, what could come next', async (coach) => {
    await editorOn(coach).press('Control+End');
    await coach.keyboard.type('4 x 50 easy @ ');
    await coach.getByRole('listbox').getByRole('option').first().waitFor();
    await coach.keyboard.press('ArrowDown');
  }),
  scene(
    'writing, what could come next in ten lanes',
    async (coach) => {
      await editorOn(coach).press('Control+End');
      await coach.keyboard.type('4 x 100 easy @ ');
      await coach.getByRole('listbox').getByRole('option').first().waitFor();
    },
    TEN_LANES,
  ),
  scene(
    'writing, what a line means in ten lanes',
    async (coach) => {
      await coach.getByRole('heading', { name: 'Harbour squad, ten lanes', level: 2 }).waitFor();
      await coach.locator('.cm-line', { hasText: 'x 100 steady' }).click();
      await button(coach, 'What this line means').click();
      await coach.getByRole('table').filter({ hasText: 'leaves at' }).waitFor();
    },
    TEN_LANES,
  ),
  scene('writing, what a line means', async (coach) => {
    await coach.getByRole('heading', { name: 'Harbour squad, Thursday', level: 2 }).waitFor();
    await coach.locator('.cm-line', { hasText: '4 x 50 fast' }).first().click();
    await button(coach, 'What this line means').click();
    await coach.getByRole('table').filter({ hasText: 'leaves at' }).waitFor();
  }),
  scene(
    'writing, a wrong hour',
    async (coach) => coach.getByText(/is an hour wrong/).waitFor(),
    SAMPLE.replace(/^finish .*$/m, 'finish 8:30'),
  ),
  scene('writing, the notation', async (coach) => {
    await button(coach, 'Notation').click();
    await coach.getByRole('region', { name: 'Notation', exact: true }).waitFor();
  }),
];

function scene(name: string, prepare: (coach: Page) => Promise<void>, text = SAMPLE): Scene {
  return {
    name,
    session: null,
    commands: [],
    at: 1,
    screens: ['coach'],
    fresh: true,
    async prepare(coach) {
      await editorOn(coach).fill(text);
      await prepare(coach);
    },
  };
}
