/*
 * A run as it is kept, from a text and its commands, for tests of the record.
 */

import type { KeptRun } from '../../../app/core/record/kept-run.ts';
import type { Command } from '../../../app/core/run/command/command.ts';
import { HOUR, MINUTE, type Millis } from '../../../app/core/units.ts';
import { planOf } from './deck.ts';

/** Opened at 19:30 on a Thursday; times in seconds since then. */
export function keptRun(
  text: string,
  commands: readonly (readonly [seconds: number, Command])[],
  until = 3600,
): KeptRun {
  const timed = commands.map(([seconds, command]) => ({ at: Math.round(seconds * 1000), command }));
  return keptUntil(text, timed, Math.max(until * 1000, ...timed.map(({ at }) => at)));
}

/** The same with times in ms. */
export function keptUntil(text: string, commands: KeptRun['commands'], until: Millis): KeptRun {
  return {
    run: 'run-1',
    openedAt: '2026-11-26T19:30:00',
    openedAtTimeOfDay: 19 * HOUR + 30 * MINUTE,
    ended: 'done',
    plan: planOf(text),
    clockPhase: 0,
    commands,
    away: [],
    until,
    seenAt: until,
  };
}
