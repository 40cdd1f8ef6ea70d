/*
 * The summary of a run that is kept beside its journal, as it is read back: somebody may have changed it.
 */

import * as z from 'zod/mini';
import type { HistoryRun } from '../../core/record/history/history-run.ts';

/** Raised when a summary has to be worked out anew. */
export const SUMMARY_VERSION = 3;

/** Tells whether a file is still the one from which a summary was made. */
export interface SummarisedFile {
  readonly length: number;
  /** When it was changed last, in the system's units. */
  readonly changed: string;
}

export interface RunSummary {
  readonly version: number;
  readonly journal: SummarisedFile;
  /** What was added afterwards; null where nothing was. */
  readonly after: SummarisedFile | null;
  /** null where nobody has begun the run. */
  readonly run: HistoryRun | null;
  /** Whether swimmers were started: a session that was only opened is none of the history. */
  readonly isStarted: boolean;
  /** What it is found by, besides its day. */
  readonly words: readonly string[];
}

const file = z.strictObject({ length: z.int(), changed: z.string() });

const lane = { lane: z.int(), plannedDistance: z.number(), distance: z.number() };

const run = z.strictObject({
  run: z.string(),
  title: z.string(),
  openedAt: z.string().check(z.regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d$/)),
  ended: z.enum(['done', 'left', 'replaced', 'unattended']),
  durationMs: z.int(),
  unit: z.enum(['m', 'yd']),
  plannedDistance: z.number(),
  distance: z.number(),
  lanes: z.array(z.strictObject(lane)),
  attendance: z.nullable(
    z.array(z.strictObject({ lane: z.int(), swimmers: z.int(), names: z.nullable(z.array(z.string())) })),
  ),
  effort: z.nullable(z.int()),
  load: z.nullable(z.int()),
  notes: z.array(z.string()),
  css: z.array(z.strictObject({ lane: z.int(), cssMs: z.int(), caution: z.nullable(z.string()) })),
});

export const runSummary: z.ZodMiniType<RunSummary> = z.strictObject({
  version: z.literal(SUMMARY_VERSION),
  journal: file,
  after: z.nullable(file),
  run: z.nullable(run),
  isStarted: z.boolean(),
  words: z.array(z.string()),
});
