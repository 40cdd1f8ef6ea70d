/*
 * A session as written: settings, lanes, and parts with their lines. Lists (`8/7/6`) are already spread to one value
 * a lane, in lane order. Intervals that depend on a lane's pace are still as written (`base + 10 s`); the plan works
 * them out. Lines count from 1.
 */

import type { Hundredths, LengthUnit, Millis, MinuteOfDay, Tenths } from '../units.ts';

export interface Session {
  /** null if the text has none; screens then show "Session". */
  readonly title: string | null;
  readonly pool: { readonly length: Hundredths; readonly unit: LengthUnit };
  readonly startsAt: MinuteOfDay | null;
  readonly finishBy: MinuteOfDay | null;
  /** The line of `finish`, for the warning that belongs to it. */
  readonly finishLine: number | null;
  readonly between: { readonly time: Millis; readonly auto: boolean };
  readonly startOn: Millis;
  readonly grid: Millis;
  /** The gap of lanes that have none of their own. */
  readonly gap: Millis;
  /** At least one, by rising number. "Lane order" everywhere is this order. */
  readonly lanes: readonly Lane[];
  /** As in the text, empty ones too. */
  readonly parts: readonly Part[];
}

export interface Lane {
  readonly number: number;
  /** The interval per 100: as written, or from the css, or 2:00 assumed. */
  readonly base: Millis;
  readonly baseFrom: 'written' | 'css' | 'assumed';
  /** Pace per 100. */
  readonly css: Millis | null;
  readonly swimmers: number;
  /** Empty if the lane's line gives a number of swimmers. */
  readonly names: readonly string[];
  readonly gap: Millis;
  /** Whether the lane's own line gives the gap; then the session's `gap` does not apply. */
  readonly ownGap: boolean;
}

export interface Part {
  readonly name: string;
  /** The heading's line; null for sets that stand before any heading. */
  readonly line: number | null;
  readonly items: readonly Item[];
}

export type Item = SwimSet | TimedBlock | TimedSwim | Rounds | Pause;

/** `8/7/6 x 75 free @ 1:20`, `300 easy`, `100-200-100 @ base`. */
export interface SwimSet {
  readonly kind: 'set';
  readonly line: number;
  readonly column: number;
  readonly reps:
    | {
        readonly kind: 'repeat';
        readonly counts: readonly number[];
        readonly distances: readonly Tenths[];
        /** Whether the line lists the distances, one a lane. */
        readonly listed: boolean;
      }
    | { readonly kind: 'ladder'; readonly distances: readonly Tenths[] };
  readonly words: string;
  readonly timing: Timing;
  /** One a lane, or null without a target. */
  readonly hold: readonly Hold[] | null;
}

/** `20:00 of 100s free @ base`: as many reps as fit. */
export interface TimedBlock {
  readonly kind: 'block';
  readonly line: number;
  readonly column: number;
  readonly time: Millis;
  readonly distances: readonly Tenths[];
  readonly listed: boolean;
  readonly words: string;
  readonly timing: Exclude<Timing, { kind: 'untimed' }>;
  readonly hold: readonly Hold[] | null;
}

/** `15:00 easy swim`: one leave, an interval of exactly that time. */
export interface TimedSwim {
  readonly kind: 'timed-swim';
  readonly line: number;
  readonly column: number;
  readonly time: Millis;
  readonly words: string;
}

export interface Rounds {
  readonly kind: 'rounds';
  readonly line: number;
  readonly column: number;
  readonly times: number;
  readonly items: readonly Item[];
}

/** A talk or break: nobody swims. After a talk the run waits for the coach's word; after a break it goes on by itself. */
export interface Pause {
  readonly kind: 'talk' | 'break';
  readonly line: number;
  readonly column: number;
  readonly time: Millis;
  readonly words: string;
}

export type Timing =
  /** step: by how many ms each rep's interval differs from the one before; `drop 5` is −5000; 0 without one. */
  | { readonly kind: 'interval'; readonly lanes: readonly Interval[]; readonly step: Millis }
  | { readonly kind: 'rest'; readonly lanes: readonly Millis[] }
  | { readonly kind: 'untimed' };

export type Interval =
  | { readonly kind: 'time'; readonly time: Millis }
  /** The lane's base × distance / 100, plus `plus` ms a rep (can be negative), rounded up to the grid. */
  | { readonly kind: 'base'; readonly plus: Millis };

export type Hold =
  | { readonly kind: 'time'; readonly time: Millis }
  /** The lane's css plus `plus` ms per 100 (can be negative), scaled to the distance. */
  | { readonly kind: 'css'; readonly plus: Millis };
