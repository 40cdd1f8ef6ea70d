/*
 * A real host killed at random moments, over and over, and held each time against what it had answered.
 */

import { describe, expect, test } from 'vitest';
import { crashTrial } from '../support/host/crash-trial.ts';
import { freshDataFolder } from '../support/host/folders/data-folder.ts';

describe('[crash] a host killed at random moments', () => {
  test('25 times: all that was acknowledged is there, in its place within 50 ms', async () => {
    const seed = Math.floor(performance.now() * 1000) % 1_000_000;
    const result = await crashTrial(freshDataFolder(), seed, 25);
    const restarts = [...result.restarts].sort((a, b) => a - b);
    const figures = `${result.acknowledged} acknowledged, ${result.unacknowledgedKept} kept without, off by ${result.offPlace.toFixed(1)} ms`;
    process.stdout.write(
      `crash: seed ${seed}, 25 kills, ${figures}, back in ${Math.round(restarts[0]!)} to ${Math.round(restarts[24]!)} ms\n`,
    );
    expect({ seed, wrong: result.wrong }).toEqual({ seed, wrong: [] });
    // Few on a busy machine, because the kills come by time and not by commands.
    expect(result.acknowledged).toBeGreaterThan(4);
    expect(result.offPlace).toBeLessThan(50);
  });
});
