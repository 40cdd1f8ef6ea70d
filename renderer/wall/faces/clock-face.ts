/*
 * What a face of the clock is: it says how large it will be in the room it gets, makes its elements there, and
 * paints them on every frame. A face is a file in this folder and an entry in `faces.ts`; nothing else knows it.
 */

export interface FaceRoom {
  /** The most that the face may take, in px. */
  readonly width: number;
  readonly height: number;
  /** Whether a reading may be past the hour. */
  readonly hours: boolean;
}

export interface FaceSize {
  readonly width: number;
  readonly height: number;
  /** Of the digits of the clock as drawn. */
  readonly cap: number;
}

/** What a face shows at one moment. */
export interface FaceNow {
  /** The clock, as a reading. */
  readonly text: string;
}

export type PaintFace = (now: FaceNow) => void;

export interface ClockFace {
  /** As the address asks for it. */
  readonly name: string;
  measure(room: FaceRoom): FaceSize;
  /** Makes the face in its box; what it returns touches the document only where something has changed. */
  place(box: HTMLElement, size: FaceSize): PaintFace;
}
