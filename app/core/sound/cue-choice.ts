/*
 * Which sounds of a run a screen plays, as chosen on that screen.
 */

export interface CueChoice {
  /**
   * Pips count a leave in. `starts`: only when everyone leaves together after a start or resume. `always`: before every
   * leave that has room for them.
   */
  readonly pips: 'starts' | 'always' | 'never';
  /** Whether there is a softer tone for each swimmer behind the lead. */
  readonly followers: boolean;
  /** Whether there are two notes for the coach's Stop, and two when lanes go on. */
  readonly signs: boolean;
  /** The numbers of lanes that are not heard. This screen's sounds ignore them. */
  readonly muted: readonly number[];
}

/** The choice before anybody has chosen. */
export const PLAIN_CUES: CueChoice = { pips: 'starts', followers: false, signs: false, muted: [] };
