/*
 * What a screen makes of what it is told of the run, for tests that ask for snapshots and not how they came: the
 * commands that follow a snapshot are the next snapshot.
 */

import type { FromHost, Snapshot } from '../../../../app/wire/messages.ts';
import { withCommands } from '../../../../app/wire/snapshot.ts';

export class ToldRun {
  private latest: Snapshot | null = null;

  /** The message, or the snapshot that it makes. Throws where commands do not follow what was told before. */
  hear(message: FromHost): FromHost {
    if (message.say === 'snapshot') this.latest = message;
    if (message.say !== 'commands') return message;
    this.latest = withCommands(this.latest, message);
    if (!this.latest) throw new Error(`commands after ${message.after}, which follow nothing`);
    return this.latest;
  }
}
