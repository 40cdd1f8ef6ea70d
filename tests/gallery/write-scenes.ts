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

const NAMED = `Harbour squad, by name
lane 1 css 1:20, Ana, Bram, Chidi, Dilek
lane 2 css 1:28, Ewa, Femi, Gül, Hanna, Idris, Jo
lane 3 css 1:40, Konstantin, Lieselotte

Main set
3 rounds
  4 x 50 fast @ 1:10
`;

/** One of each kind of warning. */
const WARNED = `Harbour squad, Friday
finish 19:50
start 19:30
lane 1 css 1:20, 12 swimmers
lane 2 css 1:50, gap 10, 6 swimmers
lane 3, 4 swimmers

Warm-up
300 swim 200 kick
Nothing here

Main set
8 x 100 fast @ 1:25
3 x 75 free @ base
5 x 60 free @ 1:30
6 x 50 free @ 0:45
`;

const MANY_FAULTS = `Harbour squad, Friday
pool 25 miles
lane 1 css 120
lane 2 css 1:28, 6 swimmers

Main set
4 x 50 fast @ 1.10
4 x 50 fast @ 1:10/1:15/1:20
3 rounds
lanes 1-4: 8 x 50 @ 1:00
talk
100 m steady x 4 @ 1:30
lane3 easy
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
  scene(
    'writing, a line under the pointer in ten lanes',
    async (coach) => {
      await coach.getByRole('heading', { name: 'Harbour squad, ten lanes', level: 2 }).waitFor();
      const line = coach.locator('.cm-line', { hasText: 'x 100 steady' });
      await line.hover({ position: { x: 40, y: 12 } });
      // What scrolled under the pointer has not been pointed at.
      await line.hover({ position: { x: 60, y: 12 } });
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
  scene('writing, nothing yet', (coach) => coach.getByText(/^The timetable of every lane/).waitFor(), ''),
  scene(
    'writing, warnings',
    (coach) => coach.getByRole('heading', { name: 'Harbour squad, Friday' }).waitFor(),
    WARNED,
  ),
  scene(
    'writing, faults of every kind',
    (coach) => coach.getByRole('heading', { name: /faults$/ }).waitFor(),
    MANY_FAULTS,
  ),
  scene('writing, lanes of their own', async (coach) => {
    await button(coach, 'Lanes and squads').click();
    await button(coach, 'Lanes for every session').click();
    await editorOn(coach, 'Lanes').fill('lane 1 css 1:20, 5 swimmers\nlane 2 css 128\n');
    await coach.waitForTimeout(800);
  }),
  scene('writing, lanes of their own, the faults', async (coach) => {
    await button(coach, 'Lanes and squads').click();
    await button(coach, 'Lanes for every session').click();
    await editorOn(coach, 'Lanes').fill('lane 1 css 1:20, 5 swimmers\nlane 2 css 128\n');
    await button(coach, 'Lanes and squads').click();
    await coach.waitForTimeout(800);
  }),
  scene(
    'writing, four names in a lane',
    async (coach) => {
      await button(coach, 'Lanes and squads').click();
      await coach.getByRole('textbox', { name: 'Lane 3: gap in seconds' }).waitFor();
    },
    NAMED,
  ),
  scene('writing, the licences', async (coach) => {
    await coach.getByText('Version and licences').click();
    await coach.getByText(/MIT/).first().waitFor();
    await coach.getByText('Version and licences').scrollIntoViewIfNeeded();
  }),
  scene(
    'writing, run refused',
    async (coach) => {
      await coach.waitForTimeout(600);
      await coach.keyboard.press('Control+Enter');
      await coach.waitForTimeout(300);
    },
    MANY_FAULTS,
  ),
  scene('writing, an example put in', async (coach) => {
    await button(coach, 'Notation').click();
    await coach.getByRole('region', { name: 'Notation', exact: true }).getByRole('button').nth(3).click();
    await coach.waitForTimeout(600);
  }),
  {
    ...{ name: 'writing beside a run that waits', session: SAMPLE, commands: [], at: 5 },
    ...{ screens: ['coach'], fresh: true },
    prepare: async (coach) => {
      await button(coach, 'Edit').click();
      await editorOn(coach).press('Control+End');
      await coach.keyboard.type('200 easy');
      await coach.waitForTimeout(800);
    },
  },
  ...(['a fault', 'as it runs'] as const).map((what): Scene => ({
    ...{ name: `edit, ${what}`, session: SAMPLE, commands: [[19, { do: 'start' }]], at: 60 },
    ...{ screens: ['coach'], fresh: true },
    prepare: async (coach) => {
      await button(coach, 'Edit').click();
      await editorOn(coach).press('Control+End');
      await coach.keyboard.type(what === 'a fault' ? '\n4 x 50 fast @ 1.10\n' : '\n4 x 50 fast @ 1:10\n');
      await coach.waitForTimeout(900);
    },
  })),
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
