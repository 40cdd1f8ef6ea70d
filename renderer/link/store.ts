/*
 * What a page knows of the deck: the last snapshot, folded to a run, and how the link stands. The
 * time is never in here: a screen asks the link for it on every frame.
 */

import { createStore, type StoreApi } from 'zustand/vanilla';
import type { TimedCommand } from '../../app/core/run/command/command.ts';
import type { Away } from '../../app/core/run/record.ts';
import type { RunState } from '../../app/core/run/state.ts';
import type { RunView } from '../../app/core/run/view.ts';
import type { Plan } from '../../app/core/plan/plan.ts';
import type { Millis } from '../../app/core/units.ts';
import type { ScreenSettings } from '../../app/core/screen/screen-settings.ts';
import type { FromHost } from '../../app/wire/messages.ts';
import type { ScreenTold, ScreenWish } from '../../app/wire/screen-settings.ts';
import type { SharedDevice, SharingTold, SharingWish } from '../../app/wire/sharing/sharing.ts';
import { guarded } from './mishap.ts';
import type { ClockState } from './time/host-clock.ts';

export type { ScreenTold, ScreenWish, SharedDevice, SharingTold, SharingWish };

export interface DeckState {
  /** `connecting` until the host has been heard for the first time. */
  readonly status: 'connecting' | 'live' | 'lost';
  /** When the host was lost, by the screen's own clock (`Link.lostFor` counts from it); null otherwise. */
  readonly lostSince: number | null;
  /** How good this screen's clock is, `bound` in steps of 5 ms; null while nothing is known of it. */
  readonly clockQuality: ClockState | null;
  /** null where no session has been opened, or where it could not be followed (`faults` says so). */
  readonly run: DeckRun | null;
  /** Without a run: the time of day that the pool's clock shows at host time 0; null with one, and before it is known. */
  readonly poolClock: Millis | null;
  /** Screens that the host has connected now. */
  readonly screens: { readonly desk: number; readonly wall: number; readonly remote: number };
  /** What the host wants the coach to be told for as long as it lasts. */
  readonly notices: readonly string[];
  /**
   * Not null while the first of these are to be told once, and the runs that were left unattended; `run`: one
   * that has come back and may be left.
   */
  readonly startUp: { readonly run: string | null; readonly unattended: readonly string[] } | null;
  /** Hand times of the reps of a run that left last; told to coach's windows and remotes. null until then. */
  readonly times: Pick<Extract<FromHost, { say: 'times' }>, 'run' | 'times'> | null;
  /** Which screens have said how their sound stands; `more` is null until somebody has said whether several may sound. */
  readonly sound: Omit<Extract<FromHost, { say: 'sound' }>, 'say'>;
  /** What this wall screen is called and how it is set; null until the host has said so, and on other pages. */
  readonly screen: OwnScreen | null;
  /** For five seconds after the coach has asked which screen is which: every wall screen shows its name, large. */
  readonly naming: boolean;
  /** All wall screens that are connected or remembered, by name; told to the coach's window alone. */
  readonly wallScreens: readonly ScreenTold[];
  /** How sharing with other screens stands, to the coach's window alone; null where the host does not say. */
  readonly sharing: SharingTold | null;
  /** The address of another window of the coach on this machine, usable once; null until one was asked for. */
  readonly claim: string | null;
  /** What is wrong with this screen's own link, in sentences; empty when all is well. */
  readonly faults: readonly string[];
}

export interface OwnScreen {
  readonly name: string;
  readonly settings: ScreenSettings;
}

export interface GivenCommand extends TimedCommand {
  /** The name of who gave it; none for a coach's window that needs no key, and on walls. */
  readonly by?: string;
}

export interface DeckRun {
  readonly id: string;
  /** As the run was opened; `given.plan` is the one in force. */
  readonly plan: Plan;
  /** After the last accepted command, for `view(state, link.now())`. */
  readonly state: RunState;
  /** The run right after that command, for what only commands change. */
  readonly given: RunView;
  readonly commands: readonly GivenCommand[];
  /** Of the lanes file that the session was opened with. */
  readonly lanesText: string | null;
  /** Host time at t = 0. */
  readonly openedAt: number;
  readonly clockPhase: Millis;
  /** Local time of day at t = 0, in ms after midnight. */
  readonly openedAtTimeOfDay: Millis;
  /** When the host was not there; oldest first. */
  readonly away: readonly Away[];
}

export type DeckStore = StoreApi<DeckState>;

/** Whoever follows it cannot keep the others, or the link itself, from going on. */
export function createDeckStore(): DeckStore {
  const store = createStore<DeckState>(() => ({
    status: 'connecting',
    lostSince: null,
    clockQuality: null,
    run: null,
    poolClock: null,
    screens: { desk: 0, wall: 0, remote: 0 },
    notices: [],
    startUp: null,
    times: null,
    sound: { more: null, screens: [] },
    screen: null,
    naming: false,
    wallScreens: [],
    sharing: null,
    claim: null,
    faults: [],
  }));
  return { ...store, subscribe: (follow) => store.subscribe(guarded('following the deck', follow)) };
}
