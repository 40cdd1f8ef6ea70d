/*
 * The run that is open, the answer to opening one, and what a screen knew of it.
 */

import type { Fault } from '../../core/result.ts';
import type { ExpectedReps } from '../../core/run/command/expected-reps.ts';
import type { SeenCommands } from '../../core/run/command/overtaken.ts';
import type { Away } from '../../core/run/record.ts';
import type { RunState } from '../../core/run/state.ts';
import type { Millis } from '../../core/units.ts';
import type { Snapshot } from '../../wire/messages.ts';
import type { Commander } from '../sharing/doors/guest.ts';

export interface OpenRun {
  readonly id: string;
  readonly text: string;
  /** Host time at t = 0. */
  readonly openedAt: number;
  readonly clockPhase: Millis;
  readonly openedAtTimeOfDay: Millis;
  /** The state after the last accepted command; `settle` takes it to a later time. */
  readonly state: RunState;
  readonly commands: NonNullable<Snapshot['run']>['commands'];
  readonly away: readonly Away[];
}

export type OpenAnswer =
  | { readonly ok: true; readonly run: string }
  | {
      readonly ok: false;
      readonly reason: 'faults';
      readonly in: 'session' | 'lanes';
      readonly faults: readonly Fault[];
    }
  /** A run is going and would be lost. */
  | { readonly ok: false; readonly reason: 'going'; readonly why: string };

export interface OpenOptions {
  /** Whether a run that is going may be lost. */
  readonly replace: boolean;
  /** What the pool's clock shows past the full minute, 0 to 59 999 ms; by default, what the machine's clock shows. */
  readonly clockPhase?: Millis | undefined;
}

/** By whom a command is given, and what that screen knew about the run. What it did not say is not compared. */
export interface Asked extends SeenCommands {
  /** The coach's window on this machine if it is not said. */
  readonly by?: Commander;
  readonly expected?: ExpectedReps | undefined;
  /** The run. */
  readonly meantFor?: string | undefined;
  /** The hash of the text that a `rewrite` was made from. */
  readonly madeFrom?: string | undefined;
}

/** The run as screens are told of it. */
export function runTold(run: OpenRun): NonNullable<Snapshot['run']> {
  const { id, text, openedAt, clockPhase, openedAtTimeOfDay, commands, away } = run;
  return { id, text, openedAt, clockPhase, openedAtTimeOfDay, commands, away: [...away] };
}

/** Who gave a command, for the coaches; nothing for the coach's window of this machine. */
export function giver({ name, device, kind }: Pick<Commander, 'name' | 'device' | 'kind'>): { readonly by?: string } {
  if (device !== null) return { by: name };
  return kind === 'remote' ? { by: OWN_REMOTE } : {};
}

/** The remote's page, opened on this machine: it needs no key, so it has no name of its own. */
const OWN_REMOTE = 'The remote on this machine';
