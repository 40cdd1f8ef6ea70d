/*
 * What can be seen of the desktop program under test in its pages and its journal.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright';

/** What the clock reads. */
export async function sight(page: Page): Promise<string> {
  return (await page.getByRole('timer', { name: 'Clock' }).textContent()) ?? '';
}

export function secondsOf(reading: string): number {
  return reading.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);
}

/** What the journal has of commands. */
export function commands(data: string): string[] {
  const runs = join(data, 'runs');
  return readdirSync(runs)
    .flatMap((name) => readFileSync(join(runs, name), 'utf8').split('\n'))
    .filter((line) => line.includes('"say":"command"'))
    .map((line) => (JSON.parse(line) as { command: { do: string } }).command.do);
}
