/*
 * One thing that a coach may want to look at again: which rule, where, and what about it; and in which words those
 * of several lanes are said together. A new one gets its line here, and its rule in `warnings.ts` or `lane-warnings.ts`.
 */

/** How the sentence of one lane goes on behind "Lane 3", and what is said of several. */
export interface WarningWords {
  /**
   * What stands between "Lane 3" and the lane's own figures in `message`, word for word: a screen that says several
   * lanes together cuts the figures out there. '' where it is never about one lane.
   */
  readonly one: string;
  readonly several: string;
  readonly short: string;
}

/** In the order in which warnings of one line and lane are given. */
export const WARNINGS = {
  'cannot-make': { one: ' cannot make ', several: 'cannot make their interval', short: 'cannot make it' },
  'rest-short': { one: ' has only ', several: 'have hardly any rest', short: 'hardly any rest' },
  'lane-full': {
    one: ' is too full to swim in a circle: ',
    several: 'are too full to swim in a circle',
    short: 'too full',
  },
  'tail-late': {
    one: ': ',
    several: 'are to leave again before their last swimmer has left',
    short: 'the tail leaves late',
  },
  'part-lengths': {
    one: ': ',
    several: 'have a distance that is not a whole number of lengths',
    short: 'no whole lengths',
  },
  'far-end': {
    one: ' ends this set at the far end, away from the screen ',
    several: 'end this set at the far end, away from the screen',
    short: 'ends at the far end',
  },
  'over-time': { one: '', several: '', short: 'past the finish' },
  'empty-part': { one: '', several: '', short: 'nothing under it' },
  'words-distance': { one: '', several: '', short: 'a distance among the words' },
  'assumed-base': {
    one: ' has neither base nor css: its ',
    several: 'have neither base nor css',
    short: 'base assumed',
  },
} satisfies { readonly [code: string]: WarningWords };

export type WarningCode = keyof typeof WARNINGS;

export const WARNING_CODES = Object.keys(WARNINGS) as readonly WarningCode[];

export interface Warning {
  readonly code: WarningCode;
  /** In the session's text, from 1. */
  readonly line: number;
  /** The lane's number; null where it is about all lanes. */
  readonly lane: number | null;
  /** One sentence in a coach's words, with the lane and the figures in it. */
  readonly message: string;
}
