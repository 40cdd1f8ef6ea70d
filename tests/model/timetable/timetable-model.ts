/*
 * The plan of a session as the timetable's JSON object gives it, worked out from the meaning.
 */

import { baseOf } from './pace-model.ts';
import { everyItem, isNote, type Scenario, type WrittenScenario } from '../scenario.ts';
import {
  beginAfter,
  nameOf,
  stretchesOf,
  stretchLength,
  waitOf,
  walk,
  type ModelRep,
  type ModelStretch,
} from './stretches-model.ts';
import { warningsFor, type ModelWarning } from './warnings-model.ts';

export interface ModelTimetable {
  readonly title: string;
  readonly pool: { readonly length: number; readonly unit: string };
  readonly startsAt: string | null;
  readonly finishBy: string | null;
  readonly durationMs: number;
  readonly overMs: number | null;
  readonly stretches: readonly object[];
  readonly lanes: readonly object[];
  readonly notes: readonly object[];
  /** By line, then lane (none first), then in the order of the rules; without their messages. */
  readonly warnings: readonly ModelWarning[];
}

/** The whole timetable as JSON, but for the wording of the warnings. */
export function modelTimetable(written: WrittenScenario): ModelTimetable {
  const { scenario } = written;
  const stretches = stretchesOf(scenario);
  const planned = plannedTimes(stretches, scenario);
  const last = planned[planned.length - 1];
  const durationMs = last ? last.startMs + last.durationMs : 0;
  const overMs = overBy(durationMs, scenario);
  return {
    title: scenario.title ?? 'Session',
    pool: { length: scenario.pool.hundredths / 100, unit: scenario.pool.unit },
    startsAt: scenario.start === null ? null : clockOfDay(scenario.start),
    finishBy: scenario.finish === null ? null : clockOfDay(scenario.finish),
    durationMs,
    overMs,
    stretches: stretches.map((stretch, index) => ({
      part: stretch.part,
      partIndex: stretch.partIndex,
      kind: stretch.kind,
      words: stretch.words,
      waits: waitOf(stretch, stretches[index - 1] ?? null, scenario),
      ...planned[index],
    })),
    lanes: scenario.lanes.map((lane, laneIndex) => {
      const leaves = stretches.flatMap((stretch, index) =>
        leavesIn(stretch, index, laneIndex, planned[index]?.startMs ?? 0),
      );
      const tenths = stretches.flatMap((stretch) => (stretch.lanes[laneIndex] ?? []).map((rep) => rep.distance));
      return {
        lane: lane.number,
        swimmers: lane.swimmers,
        gapMs: gapOf(scenario, laneIndex),
        baseMs: baseOf(lane, scenario),
        cssMs: lane.css,
        distance: tenths.reduce((sum, distance) => sum + distance, 0) / 10,
        leaves,
      };
    }),
    notes: notesOf(scenario),
    warnings: warningsFor(written, stretches, overMs !== null && overMs > 0),
  };
}

/** In the order of the text. */
function notesOf(scenario: Scenario): object[] {
  const ofSession = scenario.notes.map(({ line, kind, words }) => ({ line, part: null, partIndex: null, kind, words }));
  const ofParts = scenario.parts.flatMap((part, partIndex) =>
    everyItem(part.items)
      .filter(isNote)
      .map(({ line, kind, words }) => ({ line, part: nameOf(part, scenario), partIndex, kind, words })),
  );
  return [...ofSession, ...ofParts];
}

/** Milliseconds between the swimmers of a lane. */
export function gapOf(scenario: Scenario, laneIndex: number): number {
  return (scenario.lanes[laneIndex]?.gap ?? scenario.gap) * 1000;
}

export function tailOf(scenario: Scenario, laneIndex: number): number {
  return ((scenario.lanes[laneIndex]?.swimmers ?? 1) - 1) * gapOf(scenario, laneIndex);
}

interface PlannedTime {
  readonly startMs: number;
  readonly durationMs: number;
}

function plannedTimes(stretches: readonly ModelStretch[], scenario: Scenario): PlannedTime[] {
  const tails = scenario.lanes.map((_lane, laneIndex) => tailOf(scenario, laneIndex));
  const step = scenario.startOn * 1000;
  const align = (time: number): number => Math.ceil(time / step) * step;
  const planned: PlannedTime[] = [];
  let end = 0;
  stretches.forEach((stretch, index) => {
    const before = stretches[index - 1];
    const startMs = before ? beginAfter(end, stretch, before, scenario, align) : 0;
    const durationMs = stretchLength(stretch, tails);
    planned.push({ startMs, durationMs });
    end = startMs + durationMs;
  });
  return planned;
}

function leavesIn(stretch: ModelStretch, index: number, laneIndex: number, startMs: number): object[] {
  const reps = stretch.lanes[laneIndex] ?? [];
  const { offsets } = walk(reps);
  return reps.map((rep, repIndex) => ({
    stretch: index,
    part: stretch.part,
    line: rep.line,
    rounds: roundsOf(rep),
    rep: rep.rep,
    of: rep.of,
    distance: rep.distance / 10,
    words: rep.words,
    atMs: startMs + (offsets[repIndex] ?? 0),
    intervalMs: rep.interval,
    targetMs: rep.target,
    estimated: rep.estimated,
    untimed: rep.untimed,
  }));
}

export function roundsOf(rep: ModelRep): { round: number; of: number }[] {
  return rep.rounds.map(({ round, of }) => ({ round, of }));
}

function overBy(durationMs: number, scenario: Scenario): number | null {
  const { start, finish } = scenario;
  if (start === null || finish === null) return null;
  const minutes = finish > start ? finish - start : finish + 24 * 60 - start;
  return Math.max(0, durationMs - minutes * 60_000);
}

function clockOfDay(minutes: number): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
