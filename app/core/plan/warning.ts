/*
 * One thing that a coach may want to look at again: which rule, where, and what about it.
 */

/** In the order in which warnings of one line and lane are given. */
export const WARNING_CODES = [
  'cannot-make',
  'rest-short',
  'lane-full',
  'tail-late',
  'part-lengths',
  'far-end',
  'over-time',
  'empty-part',
  'assumed-base',
] as const;

export type WarningCode = (typeof WARNING_CODES)[number];

export interface Warning {
  readonly code: WarningCode;
  /** In the session's text, from 1. */
  readonly line: number;
  /** The lane's number; null where it is about all lanes. */
  readonly lane: number | null;
  /** One sentence in a coach's words, with the lane and the figures in it. */
  readonly message: string;
}
