/*
 * The plan: rounds are written out, and every lane's leaves are offsets from the start of their stretch.
 */

import type { Millis, Tenths } from '../units.ts';
import type { Session } from '../session/session.ts';

export interface Plan {
  /** The text that the plan was made from, and that of the lanes file, if any. A `rewrite` is compared with them. */
  readonly source: Source;
  readonly session: Session;
  readonly stretches: readonly Stretch[];
}

export interface Source {
  readonly text: string;
  readonly lanesText: string | null;
}

/** What runs without the coach's word: from one start to the next point where all lanes come together. */
export interface Stretch {
  readonly partIndex: number;
  readonly part: string;
  readonly kind: 'swim' | 'talk' | 'break';
  /** Line, words, length and rounds of a talk or break; 0, '', 0 and none for a swim. */
  readonly line: number;
  readonly words: string;
  readonly time: Millis;
  readonly rounds: readonly Round[];
  /** One for every lane of the session, in lane order; empty for a talk or break. */
  readonly lanes: readonly LaneReps[];
  /** Whether it ends with an untimed set: what follows waits for the coach's word. */
  readonly untimed: boolean;
  /** Set by the run on a talk or break whose round was cut while it was under way: it stays until it is over. */
  readonly gone?: true;
}

/** What one lane swims in a stretch. */
export interface LaneReps {
  readonly reps: readonly Rep[];
  /** From the start of the stretch to the end of the lane's cursor, without the tail. */
  readonly length: Millis;
}

/** One planned leave. */
export interface Rep {
  /** The set it belongs to, as written out: one object for every passage through it in every round, shared by its lanes. */
  readonly set: PlannedSet;
  /** Of the line, and the rep's own (`odds`, `evens`). */
  readonly words: string;
  /** Whether its interval, or length, is an estimate: it goes by a rest alone, or is an untimed set. */
  readonly estimated: boolean;
  /** The number of the rep within the round, 1 to `of`. */
  readonly rep: number;
  readonly of: number;
  /** 0 for a swim by time; for an untimed set, its whole distance. */
  readonly distance: Tenths;
  /** From the start of the stretch. */
  readonly offset: Millis;
  readonly interval: Millis;
  /** The time that a timed block has left over after its last rep, 0 or more; 0 for all other reps. */
  readonly leftover: Millis;
  /** The target of one rep, in an untimed set too; null for none. */
  readonly target: Millis | null;
  /** The expected swim time for showing: the hold, or cruise times factor; whole ms, a half rounded up. */
  readonly expected: Millis;
}

/** A set at one place of the session with its rounds written out. */
export interface PlannedSet {
  readonly line: number;
  /** Rises through the session: (order, rep) is the order of the session. */
  readonly order: number;
  readonly kind: 'set' | 'block' | 'timed-swim';
  /** As on the line; a rep may have words of its own. */
  readonly words: string;
  /** Outermost first. */
  readonly rounds: readonly Round[];
  /** Whether its length, or any of its intervals, is an estimate (an untimed set, a `rest`). */
  readonly estimated: boolean;
  readonly untimed: boolean;
}

/** `round` of `of`, both from 1; `line` is the rounds' own line. */
export interface Round {
  readonly line: number;
  readonly round: number;
  readonly of: number;
}

/** What a stretch waits for before it begins (DEVELOPERS.md, "How a session becomes leaves"). */
export type Waits = 'call' | 'auto';

/** The first of the three rules that applies. before: the stretch before it as things stand; undefined for the first. */
export function waitsFor(stretch: Stretch, before: Stretch | undefined, betweenAuto: boolean): Waits {
  if (!before || before.untimed || before.kind === 'talk') return 'call';
  if (beginsPart(stretch, before)) return betweenAuto ? 'auto' : 'call';
  return 'auto';
}

export function beginsPart(stretch: Stretch, before: Stretch | undefined): boolean {
  return !before || before.partIndex !== stretch.partIndex;
}
