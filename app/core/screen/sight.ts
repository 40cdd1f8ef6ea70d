/*
 * How far away the characters on a screen can be read. It is a matter of the angle that their height takes in the
 * reader's eye: ISO 9241-303 asks for at least 16 minutes of arc, and prefers 20.
 */

/** In minutes of arc. */
export const LEAST_ARC = 16;
export const PREFERRED_ARC = 20;

/** How high a character must be to take that angle at a distance; in the distance's unit. */
export function heightAt(distance: number, arc: number): number {
  return distance * perDistance(arc);
}

/** From how far away a character of a height takes that angle; in the height's unit. */
export function distanceFor(height: number, arc: number): number {
  return height / perDistance(arc);
}

function perDistance(arc: number): number {
  return 2 * Math.tan(((arc / 60) * Math.PI) / 360);
}

/** A screen in px, and its diagonal in inches, as it stands on the box. */
export interface ScreenSize {
  readonly width: number;
  readonly height: number;
  readonly diagonal: number;
}

const MM_PER_INCH = 25.4;

/** The height of one px, in mm. */
export function pixelHeight({ width, height, diagonal }: ScreenSize): number {
  return (diagonal * MM_PER_INCH) / Math.sqrt(width * width + height * height);
}

/** From how far away characters of so many px can be read at all, and well; in metres. */
export interface Reach {
  readonly least: number;
  readonly preferred: number;
}

/** px: the height of capitals and digits as drawn. */
export function reachOf(px: number, screen: ScreenSize): Reach {
  const metres = (px * pixelHeight(screen)) / 1000;
  return { least: distanceFor(metres, LEAST_ARC), preferred: distanceFor(metres, PREFERRED_ARC) };
}
