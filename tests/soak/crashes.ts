/*
 * The built program killed hundreds of times in the middle of its work, one run through all of them.
 */

import { crashTrial } from '../support/host/crash-trial.ts';
import { freshDataFolder } from '../support/host/folders/data-folder.ts';

/** In ms: further off, and a swimmer would see it. */
const IN_PLACE = 50;

export async function soakCrashes(seed: number, kills: number): Promise<readonly string[]> {
  if (kills === 0) return [];
  const result = await crashTrial(freshDataFolder(), seed, kills);
  const restarts = [...result.restarts].sort((a, b) => a - b);
  const at = (share: number) => Math.round(restarts[Math.floor(share * (restarts.length - 1))]!);
  process.stdout.write(
    `crashes: ${kills} kills from seed ${seed}, ${result.acknowledged} commands there, ${result.unacknowledgedKept} of them ` +
      `without an answer; off by at most ${result.offPlace.toFixed(2)} ms; back in ${at(0.5)} ms (median), ${at(1)} ms at worst\n`,
  );
  const astray = result.offPlace > IN_PLACE ? [`the run was off its place by ${result.offPlace} ms`] : [];
  return [...result.wrong, ...astray];
}
