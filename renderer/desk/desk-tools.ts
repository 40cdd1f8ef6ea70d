/*
 * What every part of the coach's window works with.
 */

import type { AskLibrary } from '../link/requests/library.ts';
import type { AskRecords } from '../link/requests/records.ts';
import type { Sound } from '../sound/sound.ts';
import type { Light } from '../ui/coach/light-choice.ts';
import type { Tools } from '../ui/coach/use-deck.ts';
import type { Writing } from './write/writing.ts';

export interface DeskTools extends Tools {
  readonly sound: Sound;
  readonly light: Light;
  readonly writing: Writing;
  readonly askLibrary: AskLibrary;
  readonly askRecords: AskRecords;
}
