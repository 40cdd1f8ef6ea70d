/*
 * Which strips are light. A lane that leaves turns its strip light, and nothing on a screen that
 * many people look at may flicker: over the whole of it the lightness changes at most three times
 * in any second, and lanes that leave together change together.
 */

/** Changes in any second, and one of them kept for a leave: going dark again can wait, leaving cannot. */
const MOST = 3;
const SECOND = 1000;

export interface Lights {
  /**
   * The lanes that may be light at t, given those that should be. Called with rising t; `due` lanes
   * whose turn has not come stay as they are until it has.
   */
  at(t: number, due: ReadonlySet<number>): ReadonlySet<number>;
}

export function createLights(): Lights {
  let light: ReadonlySet<number> = new Set();
  let changes: number[] = [];
  return {
    at(t, due) {
      // A clock that was set back must not hold changes up for longer than a second.
      changes = changes.filter((at) => Math.abs(t - at) < SECOND);
      const turnsOn = [...due].some((lane) => !light.has(lane));
      const turnsOff = [...light].some((lane) => !due.has(lane));
      const most = turnsOn ? MOST : MOST - 1;
      if ((turnsOn || turnsOff) && changes.length < most) {
        changes.push(t);
        light = new Set(due);
      }
      return light;
    },
  };
}
