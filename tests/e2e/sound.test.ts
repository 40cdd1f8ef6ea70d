/*
 * The sound as it leaves the page: tapped after everything is mixed, and held against the host's leave times.
 */

import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { tappedOnsets, tapSound } from '../support/sound/page-sound.ts';
import { LEAVE, PIP, soundingDeskForEach } from '../support/sound/sounding-desk.ts';

/** Half way up its ramp of 15 ms a tone has begun; that is where the finder puts it. */
const RAMP_MIDDLE = 7.5;

const desk = soundingDeskForEach();

/** The page's clock, in ms, at t = 0 of the run. */
async function zeroOf(page: Page): Promise<number> {
  const { openedAt } = desk().deck.run();
  const looks: { taken: number; zero: number }[] = [];
  for (let look = 0; look < 10; look++) {
    const before = desk().deck.now();
    const there = await page.evaluate(() => performance.now());
    const after = desk().deck.now();
    looks.push({ taken: after - before, zero: there - ((before + after) / 2 - openedAt) });
  }
  return looks.sort((a, b) => a.taken - b.taken)[0]!.zero;
}

test('[R1] every pip and tone leaves the page within 5 ms of its time, none is missing and none too much', async () => {
  await desk().openSession();
  const page = await desk().sounding();
  await tapSound(page);
  const begin = Math.ceil((await desk().give({ do: 'start' })) / 1000) * 1000 + 10_000;
  // The host's time jumps on to shortly before the first pip: the page measures it anew.
  desk().deck.moveTo(desk().deck.run().openedAt + begin - 5_500);
  const zero = await zeroOf(page);
  const sinceBegin = (): number => desk().deck.now() - desk().deck.run().openedAt - begin;
  await expect.poll(sinceBegin, { timeout: 30_000 }).toBeGreaterThan(4_200);
  // Lane 1 is to leave at 6 and 9 s, lane 2 at 8 and 12 s: it stops, and lane 2 goes on.
  await desk().give({ do: 'stop', lanes: [1] });
  await expect.poll(sinceBegin, { timeout: 30_000 }).toBeGreaterThan(9_500);
  // A machine that is slow to tell what it heard has heard more by then, lane 2 at 12 s for one.
  const seconds = async (pitch: typeof LEAVE): Promise<readonly number[]> =>
    (await tappedOnsets(page, pitch)).map((time) => time - RAMP_MIDDLE - zero - begin).filter((time) => time < 9_500);
  for (const [heard, due] of [
    [await seconds(PIP), [-3000, -2000, -1000]],
    [await seconds(LEAVE), [0, 3000, 4000, 8000]],
  ] as const) {
    expect(heard.map((time) => Math.round(time / 100) * 100 + 0)).toEqual(due);
    heard.forEach((time, index) => expect(Math.abs(time - due[index]!)).toBeLessThan(5));
  }
});

interface HeardCue {
  readonly kind: string;
  readonly heardAt: number;
}

test('pips and the tone of the first leave are scheduled ahead, at the right time of the page', async () => {
  await desk().context.addInitScript(() => {
    const cues: unknown[] = [];
    Object.assign(window, { heardCues: cues });
    window.addEventListener('lanecall:cue-scheduled', (event) => cues.push((event as CustomEvent<unknown>).detail));
  });
  await desk().openSession();
  const page = await desk().sounding();
  const begin = Math.ceil((await desk().give({ do: 'start' })) / 1000) * 1000 + 10_000;
  desk().deck.moveTo(desk().deck.run().openedAt + begin - 5_500);
  const cues = (): Promise<HeardCue[]> =>
    page.evaluate(() => (window as unknown as { heardCues: HeardCue[] }).heardCues);
  await expect.poll(async () => (await cues()).length, { timeout: 20_000 }).toBeGreaterThanOrEqual(4);
  const [first, second, third, leave] = await cues();
  expect([first, second, third, leave].map((cue) => cue?.kind)).toEqual(['pip', 'pip', 'pip', 'leave']);
  const apart = [second!.heardAt - first!.heardAt, third!.heardAt - second!.heardAt, leave!.heardAt - third!.heardAt];
  for (const gap of apart) expect(Math.abs(gap - 1000)).toBeLessThan(10);
  expect(leave!.heardAt).toBeGreaterThan((await page.evaluate(() => performance.now())) - 2_500);
});
