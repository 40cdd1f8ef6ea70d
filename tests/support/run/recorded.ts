/*
 * A record as a rehearsal would print it, to hold one against the other.
 */

import type { RehearsedLeave } from '../../../app/cli/rehearse.ts';
import type { RecordJson } from '../../../app/core/record/tables/record-json.ts';

/** All leaves by time, then lane. */
export function recordedLeaves({ lanes }: RecordJson): readonly RehearsedLeave[] {
  return lanes
    .flatMap(({ lane, leaves }) =>
      leaves.map(({ stretch, line, rounds, rep, of, distance, atMs }) => {
        return { lane, stretch, line, rounds, rep, of, distance, atMs };
      }),
    )
    .sort((a, b) => a.atMs - b.atMs || a.lane - b.lane);
}

/** Every command as it was given. */
export function recordedCommands({ commands }: RecordJson): readonly object[] {
  return commands.map((command) => Object.fromEntries(Object.entries(command).filter(([name]) => name !== 'undone')));
}
