/*
 * What of a run is to be heard on a screen, as chosen there.
 */

export interface CueChoice {
  /**
   * Pips count a leave in: `starts` where everyone leaves together after a start or resume, `always`
   * before every leave that leaves room for them.
   */
  readonly pips: 'starts' | 'always' | 'never';
  /** A softer tone for each further swimmer of a lane. */
  readonly followers: boolean;
  /** Two notes for the coach's Stop and for what ends it. */
  readonly signs: boolean;
  /** Lanes of which nothing is heard, by number. What they do counts for nothing here. */
  readonly muted: readonly number[];
}

/** Where nothing has been chosen. */
export const PLAIN_CUES: CueChoice = { pips: 'starts', followers: false, signs: false, muted: [] };
