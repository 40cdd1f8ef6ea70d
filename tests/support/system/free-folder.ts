/*
 * A folder that a host has for itself, until a test takes it away, or kills the host: then nothing more is written.
 */

import type { Guard } from '../../../app/host/journal/run-file.ts';

export class FreeFolder implements Guard {
  /** Another host has it. */
  taken = false;
  /** The host was killed: whatever it still waits for never comes. */
  dead = false;

  check(): Promise<void> {
    if (this.dead) return new Promise(() => undefined);
    return Promise.resolve().then(() => this.checkNow());
  }

  checkNow(): void {
    if (this.taken) throw new Error('another Lanecall has the folder');
  }
}
