/*
 * Where a run is when the host comes back to it, and what was due while the host was not running.
 */

import type { Millis } from '../../core/units.ts';
import type { Away } from '../../core/run/record.ts';
import { isSameBoot } from '../lock/boot.ts';
import { jumpBetween, type ClockInstant, type Sample } from '../time/clock.ts';
import type { JournalEntry, Stamp } from '../journal/journal-line.ts';

export interface Position {
  /** Now, in ms since the run was opened, with a fraction. */
  readonly at: number;
  /** The last time at which the journal shows that the host was running. */
  readonly seenAt: Millis;
  /** The clock that told the time between: the wall clock if the machine was restarted. */
  readonly by: 'monotonic' | 'wall';
  /** False if that clock is now earlier than at the last sign of life: then the time between is not known. */
  readonly isKnown: boolean;
}

/** The position of a run from all lines of its journal (at least one). It is never before the last line. */
export function positionAt(entries: readonly JournalEntry[], now: ClockInstant, boot: string): Position {
  const last = entries[entries.length - 1]!;
  const seenAt = Math.ceil(last.at);
  const anchor = lastAnchor(entries);
  // If the monotonic clock is now behind the last line, it has begun again, whatever the name of the start says.
  if (isSameBoot(anchor.boot, boot) && now.monotonic >= last.mono) {
    return { at: Math.max(last.at, anchor.at + elapsed(anchor, now)), seenAt, by: 'monotonic', isKnown: true };
  }
  const away = now.wallMs - last.wall;
  return { at: last.at + Math.max(0, away), seenAt, by: 'wall', isKnown: away >= 0 };
}

/** All times in which the host was not running, up to this position. */
export function awayTimes(
  entries: readonly JournalEntry[],
  { seenAt, at }: Pick<Position, 'seenAt' | 'at'>,
): readonly Away[] {
  const before = entries.flatMap((entry, index) =>
    entry.say === 'back' ? [{ from: Math.ceil(entries[index - 1]!.at), to: Math.floor(entry.at) }] : [],
  );
  return [...before, { from: seenAt, to: Math.floor(at) }].filter(({ from, to }) => from < to);
}

/** The last line of the two kinds with fractions of a ms: counting from any other would lose a little each time. */
function lastAnchor(entries: readonly JournalEntry[]): Stamp {
  for (let index = entries.length - 1; index > 0; index--) {
    if (entries[index]!.say === 'back') return entries[index]!;
  }
  return entries[0]!;
}

/** ms within one start of the machine, time slept included. */
function elapsed(from: Stamp, now: ClockInstant): number {
  const before: Sample = { monotonic: from.mono, wall: from.wall, uptime: from.uptime };
  const after: Sample = { monotonic: now.monotonic, wall: now.wallMs, uptime: now.uptime };
  const jump = jumpBetween(before, after, process.platform === 'linux');
  return now.monotonic - from.mono + (jump?.missed ?? 0);
}
