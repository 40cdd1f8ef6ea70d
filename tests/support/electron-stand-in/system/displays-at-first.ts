/*
 * The displays that the stand-in's machine has when a program starts on it.
 */

import type { StandInDisplay } from './system.ts';

/** The variable that names them, as JSON; one display without it. */
export const DISPLAYS = 'LANECALL_STAND_IN_DISPLAYS';

const ONE_DISPLAY: readonly StandInDisplay[] = [
  { id: 1, label: 'Built-in', internal: true, bounds: { x: 0, y: 0, width: 1280, height: 800 } },
];

export function displaysAtFirst(): readonly StandInDisplay[] {
  const given = process.env[DISPLAYS];
  return given === undefined ? ONE_DISPLAY : (JSON.parse(given) as readonly StandInDisplay[]);
}
