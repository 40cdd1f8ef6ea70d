/*
 * What every part of the coach's window works with.
 */

import type { Sound } from '../sound/sound.ts';
import type { Light } from '../ui/coach/light-choice.ts';
import type { Tools } from '../ui/coach/use-deck.ts';

export interface DeskTools extends Tools {
  readonly sound: Sound;
  readonly light: Light;
}
