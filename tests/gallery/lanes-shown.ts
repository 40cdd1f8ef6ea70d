/*
 * Lanes and squads beside the text, for the gallery: the table, a css test of a lane, and a squad being kept.
 */

import type { Page } from 'playwright';
import { button } from '../support/coach/coach-hand.ts';

/** Lanes by names and by numbers, one too full, one without a pace, one with a fault. */
const SQUAD = `Harbour squad, Thursday
pool 25 m
start 19:30
finish 20:30
lane 1 css 1:20, base 1:30, Ada, Ben, Cem, Dot, Eva
lane 2 css 1:28, 12 swimmers
lane 3 css 1:36, base 1:50, 5 swimmers
lane 4 base 2:00, 3 swimmers, gap 10
lane 5

Main set
3 rounds
  100 steady @ base
  4 x 50 fast @ 0:50/0:55/1:00/1:05/1:10
8 x 75 free, odds fast @ 2:00
`;

const JUNIORS = `Juniors
lane 1 base 2:10, Mia, Ned, Oda
lane 2 base 2:30, 6 swimmers

8 x 25 kick @ 1:00
`;

const KEEP_AS = 'Keep these lanes as a squad called';

export interface LanesShown {
  readonly name: string;
  readonly prepare: (coach: Page) => Promise<void>;
}

export const LANES_SHOWN: readonly LanesShown[] = [
  { name: 'writing, lanes', prepare: showLanes },
  { name: 'writing, a css test', prepare: testOfLane2 },
  { name: 'writing, a squad kept', prepare: toTheEnd },
];

async function showLanes(coach: Page): Promise<void> {
  const text = coach.getByRole('textbox', { name: 'Session', exact: true });
  await button(coach, 'Lanes and squads').click();
  const lane = (number: number) => coach.getByRole('textbox', { name: `Lane ${number}: gap in seconds` });
  for (const [name, session, lanes] of [
    ['Harbour, Thursday', SQUAD, 5],
    ['Juniors', JUNIORS, 2],
  ] as const) {
    await text.fill(session);
    // The table follows once typing has paused.
    await lane(lanes).waitFor();
    await lane(lanes + 1).waitFor({ state: 'detached' });
    await coach.getByLabel(KEEP_AS).fill(name);
    await coach.getByLabel(KEEP_AS).press('Enter');
    await button(coach, `Use ${name}`).waitFor();
  }
  await text.fill(SQUAD.replace('lane 5\n', 'lane 5\nlane 6 base 220, 4 swimmers\n'));
  await coach
    .getByText(/^220 is not a time/)
    .first()
    .waitFor();
  await coach.getByRole('heading', { name: 'Lanes and squads' }).scrollIntoViewIfNeeded();
}

async function testOfLane2(coach: Page): Promise<void> {
  await showLanes(coach);
  await button(coach, 'Lane 2: CSS from a test').click();
  await coach.getByLabel('Time of swim 1').fill('6:12.4');
  await coach.getByLabel('Time of swim 2').fill('2:58.8');
  await button(coach, 'Use it for lane 2').waitFor();
}

async function toTheEnd(coach: Page): Promise<void> {
  await showLanes(coach);
  await coach.getByLabel(KEEP_AS).fill('juniors');
}
