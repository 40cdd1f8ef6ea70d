/*
 * How a run ended, for people.
 */

import type { Ended } from './kept-run.ts';

export const ENDED: Readonly<Record<Ended, string>> = {
  done: 'done',
  left: 'given up',
  replaced: 'replaced by another run',
  unattended: 'left unattended',
  going: 'not ended',
};
