/*
 * Lanes chosen for the next command. A choice holds for one command or 5 s, whichever comes first,
 * so that a choice forgotten does not turn the next Stop into a Stop of one lane.
 */

/** For how long a choice holds, in ms; each further lane chosen starts it again. */
export const CHOICE_HOLDS = 5000;

export interface LaneChoice {
  /** By rising number. */
  readonly lanes: readonly number[];
  /** By the screen's own clock, in ms. */
  readonly until: number;
}

export const NO_CHOICE: LaneChoice = { lanes: [], until: -Infinity };

/** A lane tapped: chosen, or no longer. */
export function toggleLane(choice: LaneChoice, lane: number, now: number): LaneChoice {
  const before = chosenAt(choice, now);
  const lanes = before.includes(lane) ? before.filter((other) => other !== lane) : [...before, lane];
  return lanes.length === 0 ? NO_CHOICE : { lanes: lanes.sort((a, b) => a - b), until: now + CHOICE_HOLDS };
}

/** The lanes that a command given now is for; none: all. */
export function chosenAt(choice: LaneChoice, now: number): readonly number[] {
  return now < choice.until ? choice.lanes : [];
}
