/*
 * The faces that a clock can have; the first is the usual one.
 */

import type { ClockFace } from './clock-face.ts';
import { digitsFace } from './digits-face.ts';
import { sweepFace } from './sweep-face.ts';

export const FACES: readonly [ClockFace, ...ClockFace[]] = [digitsFace, sweepFace];

/** The face that an address asks for; the usual one where it asks for none that there is. */
export function faceNamed(name: string | null): ClockFace {
  return FACES.find((face) => face.name === name) ?? FACES[0];
}
