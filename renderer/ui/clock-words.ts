/*
 * What a screen says of its own clock: nothing while it is good.
 */

import type { ClockState } from '../link/time/host-clock.ts';

/** On a clock that is poor nobody may leave. */
export const DO_NOT_LEAVE = 'Do not leave on this clock';

/** "It may be off by 0.2 s." */
export function offText({ bound }: ClockState): string {
  return `It may be off by ${(Math.ceil(bound / 100) / 10).toFixed(1)} s.`;
}
