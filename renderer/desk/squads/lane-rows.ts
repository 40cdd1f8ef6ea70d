/*
 * The lanes of a session as the table has them: where each is written, what follows from that, and how many of such a
 * pace fit in a circle.
 */

import { swimmersInCircle } from '../../../app/core/pace/circle.ts';
import { ratio } from '../../../app/core/ratio.ts';
import { DEFAULT_GAP, DEFAULT_GRID, DEFAULT_POOL } from '../../../app/core/session/header.ts';
import { expectedSwim } from '../../../app/core/session/lanes/pace.ts';
import { plainLane, wholeLane, type WrittenLane } from '../../../app/core/session/line/lane-line.ts';
import type { PoolSetting } from '../../../app/core/session/line/setting-line.ts';
import type { Lane } from '../../../app/core/session/session.ts';
import { lanesWritten } from '../../../app/core/session/text/text-with-lane.ts';
import type { Millis } from '../../../app/core/units.ts';

/** `text`: its line of the session; `apart`: one of the lanes apart; `nowhere`: of a session that has none. */
export type LaneSource = { readonly at: 'text' | 'apart'; readonly line: number } | { readonly at: 'nowhere' };

export interface LaneRow {
  readonly number: number;
  readonly from: LaneSource;
  /** As its line says it; null where that has a fault. */
  readonly written: WrittenLane | null;
  /** With what follows from it; one with a fault is like a lane of which nothing is said. */
  readonly lane: Lane;
  /** How many fit in a circle; null where the pace is only assumed. */
  readonly fit: number | null;
}

export interface LaneTable {
  readonly pool: PoolSetting;
  readonly grid: Millis;
  /** By rising number, at least one. */
  readonly rows: readonly LaneRow[];
}

/** A session's own line for a lane wins over that of the lanes apart. */
export function laneTable(text: string, lanesText: string): LaneTable {
  const [own, apart] = [lanesWritten(text), lanesWritten(lanesText)];
  const pool = own.pool ?? apart.pool ?? DEFAULT_POOL;
  const gap = own.gap ?? apart.gap ?? DEFAULT_GAP;
  const grid = own.grid ?? DEFAULT_GRID;
  const found = new Map<number, Pick<LaneRow, 'number' | 'from' | 'written'>>();
  for (const { number, line, lane } of apart.lanes)
    found.set(number, { number, from: { at: 'apart', line }, written: lane });
  for (const { number, line, lane } of own.lanes)
    found.set(number, { number, from: { at: 'text', line }, written: lane });
  if (found.size === 0) found.set(1, { number: 1, from: { at: 'nowhere' }, written: plainLane(1) });
  const rows = Array.from(found.values())
    .sort((a, b) => a.number - b.number)
    .map((row) => {
      const lane = wholeLane(row.written ?? plainLane(row.number), gap, grid);
      return { ...row, lane, fit: lane.baseFrom === 'assumed' ? null : fitting(lane, pool) };
    });
  return { pool, grid, rows };
}

function fitting(lane: Lane, pool: PoolSetting): number {
  return swimmersInCircle(pool.length, expectedSwim(lane, 1000, ratio(1), null), lane.gap);
}
