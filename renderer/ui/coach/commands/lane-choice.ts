/*
 * The lanes chosen for the next command. A choice lasts for one command or 5 s, whichever ends first, so that a
 * forgotten choice does not turn a later Skip for all lanes into one for a single lane.
 */

/** How long a choice lasts, in ms. Choosing another lane starts the time again. */
export const CHOICE_HOLDS = 5000;

export interface LaneChoice {
  /** By rising number. */
  readonly lanes: readonly number[];
  /** By the screen's own clock, in ms. */
  readonly until: number;
}

export const NO_CHOICE: LaneChoice = { lanes: [], until: -Infinity };

/** The choice after a tap on a lane. */
export function toggleLane(choice: LaneChoice, lane: number, now: number): LaneChoice {
  const before = chosenAt(choice, now);
  const lanes = before.includes(lane) ? before.filter((other) => other !== lane) : [...before, lane];
  return lanes.length === 0 ? NO_CHOICE : { lanes: lanes.sort((a, b) => a - b), until: now + CHOICE_HOLDS };
}

/** The lanes that a command given now is for; empty for all. */
export function chosenAt(choice: LaneChoice, now: number): readonly number[] {
  return now < choice.until ? choice.lanes : [];
}
