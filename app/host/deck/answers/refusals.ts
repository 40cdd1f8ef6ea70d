/*
 * Why the host does not do what it is asked, in sentences for the coach.
 */

import type { CommandAnswer } from './answer-memory.ts';

export const OTHER_RUN = 'Another session has been opened in the meantime: check the screen, then try again.';

export const NOT_OFFERED = 'This run can no longer be left: use Finish instead.';

export const NOT_YOURS =
  'Nothing was undone: the last command was given on another screen, and only that one or the coach takes it back.';

export const GOING = 'A run is going: finish it first, or open this session in its place.';

/** An error of the program in one command must not end the run for everybody. */
export function faultOf(error: unknown): CommandAnswer {
  return refusal(`Lanecall had an error and changed nothing (${String(error)}): try again.`);
}

export function refusal(why: string): CommandAnswer {
  return { ok: false, at: null, why };
}
