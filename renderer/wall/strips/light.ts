/*
 * How the strips look. A lane that leaves turns its strip light, one that is ready turns amber, and nothing on a
 * screen that many people look at may flicker: over the whole of it the looks change at most three times in any
 * second, and lanes that change together change at once.
 */

/** Changes in any second, and one of them kept for a leave: everything else can wait, leaving cannot. */
const MOST = 3;
const SECOND = 1000;

export type Looks<Look> = ReadonlyMap<number, Look>;

export interface Lights<Look> {
  /**
   * The looks that lanes may have at t, given those they should have. t is the screen's own time, because that is what
   * eyes see by: in a rehearsal the run's goes faster. Called with rising t; lanes whose turn has not come stay as they
   * are until it has.
   */
  at(t: number, due: Looks<Look>): Looks<Look>;
  /** Whether a lane's turn has still to come. */
  isLate(): boolean;
}

/** light: the look that cannot wait. */
export function createLights<Look>(light: Look): Lights<Look> {
  let shown: Looks<Look> | null = null;
  let changes: number[] = [];
  let isLate = false;
  return {
    at(t, due) {
      // A clock that was set back must not hold changes up for longer than a second.
      changes = changes.filter((at) => Math.abs(t - at) < SECOND);
      if (!shown) return (shown = new Map(due));
      const changed = Array.from(due).filter(([lane, look]) => shown?.get(lane) !== look);
      const most = changed.some(([, look]) => look === light) ? MOST : MOST - 1;
      isLate = changed.length > 0 && changes.length >= most;
      if (changed.length === 0 || isLate) return shown;
      changes.push(t);
      return (shown = new Map(due));
    },
    isLate: () => isLate,
  };
}
