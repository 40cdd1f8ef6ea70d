/*
 * The library in the coach's window: what was written before, the bin, and a file that another program has changed.
 */

import type { Page } from 'playwright';
import { SAMPLES } from '../../renderer/desk/library/first-steps/samples.ts';
import { button } from '../support/coach/coach-hand.ts';
import type { Scene } from './scene.ts';

const [HARBOUR, SPRINT, THRESHOLD] = SAMPLES.map(({ text }) => text) as [string, string, string];

const SHELF = [
  ['Long aerobic', 'Long aerobic\n# for Thursday 12 November 2026\nMain set\n10 x 200 @ 3:20\n'],
  ['Half written', 'Half written\nMain set\n10 x 200 @ 3.20\n8 x 50 fast @ 1.00\n'],
  ['Threshold, two lanes', THRESHOLD],
  ['Sprint and turns', SPRINT],
  ['Harbour squad, Thursday', HARBOUR.replace('\n', '\n# for Thursday 26 November 2026\n')],
] as const;

export const LIBRARY_SCENES: readonly Scene[] = [
  scene('library, first start', () => Promise.resolve()),
  scene('library, nothing yet', openSessions),
  scene('library', async (coach) => {
    await fill(coach);
    await openSessions(coach);
    await button(coach, /^Harbour squad/).click();
  }),
  scene('library, more', async (coach) => {
    await fill(coach);
    await openSessions(coach);
    await button(coach, 'More for Harbour squad, Thursday').click();
    await button(coach, 'Harbour squad, Thursday for another day').click();
  }),
  scene('library, samples', async (coach) => {
    await openSessions(coach);
    await button(coach, 'Samples').click();
  }),
  scene('library, a kept set put in', async (coach) => {
    await fill(coach);
    await openSessions(coach);
    await button(coach, 'More for Kick ladder').click();
    await button(coach, /^Put in Kick ladder/).click();
    await coach
      .locator('footer')
      .getByText(/Kick ladder/)
      .waitFor();
    await openSessions(coach);
    await button(coach, 'More for Kick ladder').scrollIntoViewIfNeeded();
  }),
  scene('library, duplicated', async (coach) => {
    await fill(coach);
    await openSessions(coach);
    await button(coach, 'More for Sprint and turns').click();
    await button(coach, 'Duplicate Sprint and turns').click();
    await coach.waitForTimeout(600);
  }),
  scene('library, a file brought in', async (coach) => {
    await openSessions(coach);
    const file = { name: 'From the club.txt', mimeType: 'text/plain', buffer: Buffer.from(SPRINT) };
    await coach.locator('input[type=file]').setInputFiles(file);
    await coach.getByText(/is a session of its own now/).waitFor();
  }),
  scene('library, nothing found', async (coach) => {
    await fill(coach);
    await openSessions(coach);
    await coach.getByRole('searchbox').fill('butterfly');
    await coach.getByText(/^No session has all these words/).waitFor();
  }),
  scene('library, bin', async (coach) => {
    await fill(coach);
    await ask(coach, { do: 'discard', kind: 'session', name: 'Half written' });
    await openSessions(coach);
    await button(coach, 'Bin').click();
    await button(coach, /^Put back/).waitFor();
  }),
  scene('library, changed elsewhere', async (coach) => {
    await fill(coach);
    await openSessions(coach);
    await button(coach, /^Long aerobic/).click();
    const { version } = await ask(coach, { do: 'read', kind: 'session', name: 'Long aerobic' });
    const text = SHELF[0][1].replace('10 x 200', '8 x 200').replace('Main set', 'Warm-up\n200 easy\n\nMain set');
    await ask(coach, { do: 'save', kind: 'session', name: 'Long aerobic', text, version });
    await button(coach, 'Keep both').waitFor();
  }),
];

function scene(name: string, prepare: (coach: Page) => Promise<void>): Scene {
  return { name, session: null, commands: [], at: 1, screens: ['coach'], fresh: true, prepare };
}

async function fill(coach: Page): Promise<void> {
  for (const [name, text] of SHELF) await ask(coach, { do: 'create', kind: 'session', name, text });
  await ask(coach, {
    do: 'create',
    kind: 'piece',
    name: 'Kick ladder',
    text: 'Kick ladder\n100-200-300 kick @ base\n',
  });
}

async function openSessions(coach: Page): Promise<void> {
  const shelf = coach.getByRole('region', { name: 'Sessions' });
  if (await shelf.isVisible()) await button(coach, 'Sessions').click();
  await coach.keyboard.press('Control+o');
  await shelf.waitFor();
}

function ask(coach: Page, asked: object): Promise<{ readonly version?: string }> {
  return coach.evaluate(async (body) => {
    const headers = { 'Content-Type': 'application/json' };
    return (await fetch('/library', { method: 'POST', headers, body })).json();
  }, JSON.stringify(asked));
}
