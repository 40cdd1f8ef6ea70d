/*
 * The loudspeaker is taken away while a screen sounds, and given back: how long until the screen says so,
 * and until a tone is heard again.
 */

import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright';
import { onsetsOf, type Pitch } from '../../support/sound/onsets.ts';
import { row, type Row } from '../table.ts';
import { RATE } from './recording.ts';
import type { Studio } from './studio.ts';

/** Of a screen whose sound is on and that waits for the coach, so that it may give a test tone. */
export async function unplug(studio: Studio, page: Page, tone: Pitch): Promise<Row> {
  const said = async (words: string, since: number): Promise<string> => {
    const control = page.getByRole('button', { name: words, exact: true });
    // The switch is there only while somebody moves the pointer.
    for (let x = 200; (await control.count()) === 0; x = 500 - x) {
      await page.mouse.move(x, 200);
      await pause(100);
    }
    return `${((performance.now() - since) / 1000).toFixed(1)} s`;
  };
  studio.takeLoudspeaker();
  const gone = await said('Sound on this screen: no device plays it', performance.now());
  await pause(8000);
  studio.giveLoudspeaker();
  const back = await said('Sound on this screen: on', performance.now());
  const recorder = studio.record();
  await pause(2000);
  await page.getByRole('button', { name: 'Settings' }).click();
  await page.getByRole('button', { name: 'Test tone' }).click();
  await pause(2000);
  const { samples } = await recorder.stop();
  const heard = onsetsOf(samples, RATE, tone).length;
  return row(
    'loudspeaker taken away and given back',
    `said after ${gone}, on again ${back} after, ${heard} of 1 test tones heard`,
  );
}
