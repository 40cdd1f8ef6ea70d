/*
 * Where times of a run lie along the picture of its lanes, in per cent, and which readings of the clock stand below.
 */

import type { PartBar } from '../../../../app/core/record/evening.ts';
import type { ReviewJson } from '../../../../app/core/record/tables/review-json.ts';
import { MINUTE, type Millis } from '../../../../app/core/units.ts';
import { clockTime } from '../../../../app/core/words/time/time-of-day.ts';

export interface EveningScale {
  /** The first and the last time shown, in ms since the run was opened. */
  readonly from: Millis;
  readonly to: Millis;
  readonly ticks: readonly { readonly at: number; readonly words: string }[];
  /** The parts that were swum, in their order. */
  readonly parts: readonly string[];
  /** By how much what was planned is shown later (below 0: sooner) than it was planned; else 0. */
  readonly plannedMoved: Millis;
  at(time: Millis): number;
}

/** In minutes: the first of these with which there are few enough readings. */
const STEPS = [1, 5, 10, 15, 30, 60, 120, 240, 720];
const MOST_TICKS = 6;

/** null where nothing was swum or planned. */
export function eveningScale({ evening, openedAtTimeOfDayMs }: ReviewJson): EveningScale | null {
  const plannedMoved = besideSwum(evening);
  const all = evening.lanes.flatMap(({ swum, planned, stopped }) => [
    ...swum,
    ...planned.map(({ fromMs, toMs }) => ({ fromMs: fromMs + plannedMoved, toMs: toMs + plannedMoved })),
    ...stopped,
  ]);
  if (all.length === 0) return null;
  const from = Math.min(...all.map(({ fromMs }) => fromMs));
  const to = Math.max(...all.map(({ toMs }) => toMs), from + MINUTE);
  const at = (time: Millis): number => Math.round(((time - from) / (to - from)) * 10_000) / 100;
  const step = (STEPS.find((each) => (to - from) / (each * MINUTE) <= MOST_TICKS) ?? STEPS.at(-1)!) * MINUTE;
  const first = Math.ceil((openedAtTimeOfDayMs + from) / step) * step - openedAtTimeOfDayMs;
  const ticks = Array.from({ length: Math.floor((to - first) / step) + 1 }, (_, n) => first + n * step);
  const swum = evening.lanes.flatMap((lane) => lane.swum).sort((a, b) => a.fromMs - b.fromMs);
  return {
    from,
    to,
    ticks: ticks.map((time) => ({ at: at(time), words: clockTime(openedAtTimeOfDayMs + time) })),
    parts: [...new Set(swum.map(({ part }) => part))],
    plannedMoved,
    at,
  };
}

/** A session that was swum at quite another hour is shown beside its plan from the first leave on: far apart, both would be slivers. */
function besideSwum({ lanes }: ReviewJson['evening']): Millis {
  const swum = lanes.flatMap((lane) => lane.swum);
  const planned = lanes.flatMap((lane) => lane.planned);
  if (swum.length === 0 || planned.length === 0) return 0;
  const from = (bars: readonly PartBar[]): Millis => Math.min(...bars.map(({ fromMs }) => fromMs));
  const to = (bars: readonly PartBar[]): Millis => Math.max(...bars.map(({ toMs }) => toMs));
  const doMeet = from(planned) < to(swum) && from(swum) < to(planned);
  return doMeet ? 0 : from(swum) - from(planned);
}
