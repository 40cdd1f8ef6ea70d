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
  /** `note:` and `kit:` lines, by line. */
  readonly notes: readonly Note[];
}

/** `note: mind the hands`, `kit: paddles`: nobody waits for it; it belongs to what follows it in its part. */
export interface Note {
  readonly kind: 'note' | 'kit';
  readonly line: number;
  /** Of its part in `parts`; null above the first heading or set: it belongs to the session. */
  readonly partIndex: number | null;
  readonly words: string;
  /** Whether it stands at its part's margin: a rewrite takes it for a piece of its own then. */
  readonly atMargin: boolean;
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

export type Item = SwimSet | TimedBlock | TimedSwim | Rounds | LaneLines | Pause;

/** How one rep is swum. */
export interface Way {
  /** Of the line, and the rep's own. */
  readonly words: string;
  readonly timing: Timing;
  /** One a lane, or null without a target. */
  readonly hold: readonly Hold[] | null;
}

/** The lanes that a line is for; null where it is for all. */
export type SomeLanes = {
  readonly numbers: readonly number[];
  /** In lane order, whether each lane of the session swims it. */
  readonly swims: readonly boolean[];
} | null;

/**
 * `8/7/6 x 75 free @ 1:20`, `300 easy`, `100-200-100 @ base`. Words, timing and hold are every rep's, but where
 * `ways` says how each is swum.
 */
export interface SwimSet extends Way {
  readonly kind: 'set';
  readonly line: number;
  readonly column: number;
  readonly lanes: SomeLanes;
  readonly reps:
    | {
        readonly kind: 'repeat';
        readonly counts: readonly number[];
        readonly distances: readonly Tenths[];
        /** Whether the line lists the distances, one a lane. */
        readonly listed: boolean;
      }
    | { readonly kind: 'ladder'; readonly distances: readonly Tenths[] };
  /** Two of `odds … evens …`, or one a rep; rep n goes by way n, and by the first again behind the last. None untimed. */
  readonly ways: readonly Way[] | null;
}

/** `20:00 of 100s free @ base`: as many reps as fit. */
export interface TimedBlock {
  readonly kind: 'block';
  readonly line: number;
  readonly column: number;
  readonly lanes: SomeLanes;
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
  readonly lanes: SomeLanes;
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

/** `lanes 1-3:` on a line of its own, over what stands indented under it; each line there says itself who swims it. */
export interface LaneLines {
  readonly kind: 'lanes';
  readonly line: number;
  readonly column: number;
  readonly lanes: SomeLanes;
  readonly items: readonly Item[];
}

/** Nobody swims. After a talk the coach's word is waited for; after a break things go on by themselves. */
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
  /** The lane's base, or css, × distance / 100, plus (or minus) so much a rep, rounded up to the grid. */
  | { readonly kind: 'base' | 'css'; readonly plus: Millis };

export type Hold =
  | { readonly kind: 'time'; readonly time: Millis }
  /** The lane's css plus `plus` ms per 100 (can be negative), scaled to the distance. */
  | { readonly kind: 'css'; readonly plus: Millis };

/** What stands under a rounds line or one of some lanes; nothing for all others. */
export function itemsUnder(item: Item): readonly Item[] {
  return item.kind === 'rounds' || item.kind === 'lanes' ? item.items : [];
}

/** How rep `index` (from 0) of a set is swum. */
export function wayOf(set: SwimSet, index: number): Way {
  return set.ways === null ? set : set.ways[index % set.ways.length]!;
}

/** Whether a lane, by its place in lane order, swims a line. */
export function swims(lanes: SomeLanes, laneIndex: number): boolean {
  return lanes === null || lanes.swims[laneIndex]!;
}
