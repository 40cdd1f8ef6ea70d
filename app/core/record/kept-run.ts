/*
 * What is kept of a run: its first plan, the commands that were accepted, and how it ended. The record is made from
 * this alone, whenever it is asked for.
 */

import type { Plan } from '../plan/plan.ts';
import type { TimedCommand } from '../run/command/command.ts';
import type { Away } from '../run/record.ts';
import type { Millis } from '../units.ts';

/**
 * Done; given up after it had come back; replaced by another run; nobody came back to it; not closed, so that it may
 * still go on.
 */
export type Ended = 'done' | 'left' | 'replaced' | 'unattended' | 'going';

export interface KeptRun {
  readonly run: string;
  /** When it was opened, by the clock of the place: "2026-11-26T19:30:00". */
  readonly openedAt: string;
  readonly openedAtTimeOfDay: Millis;
  readonly ended: Ended;
  /** As it was opened. */
  readonly plan: Plan;
  readonly clockPhase: Millis;
  /** All that were accepted, in order. */
  readonly commands: readonly TimedCommand[];
  readonly away: readonly Away[];
  /** How far it is known; and the last time at which the program was there. In ms since it was opened. */
  readonly until: Millis;
  readonly seenAt: Millis;
}
