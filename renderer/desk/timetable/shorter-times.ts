/*
 * Timed swims and timed blocks that would bring a written session back to its finish if they were shorter. They are cut
 * here alone: in a run the coach moves on.
 */

import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { totalsOf } from '../../../app/core/plan/totals.ts';
import { swimDownPart } from '../../../app/core/run/hour/fit.ts';
import { itemsUnder, type Item, type TimedBlock, type TimedSwim } from '../../../app/core/session/session.ts';
import { textWithTime } from '../../../app/core/session/text/text-cut.ts';
import { MINUTE, type Millis } from '../../../app/core/units.ts';

export interface ShorterTime {
  readonly line: number;
  readonly kind: 'time';
  /** By how much the line is shorter, in ms: whole half minutes. */
  readonly n: Millis;
  /** Its time as written, in ms. */
  readonly of: Millis;
  readonly saves: Millis;
  readonly endsAt: Millis;
  readonly takesBegun: false;
}

const STEP = MINUTE / 2;

/** Each try reads the session anew. */
const MOST_LINES = 12;

/** Of each such line before the swim-down the least that is enough by itself, if that leaves at least half of it. */
export function shorterTimes(plan: Plan, finishAt: Millis): readonly ShorterTime[] {
  const end = totalsOf(plan).duration;
  const kept = swimDownPart({ plan, stretches: plan.stretches });
  const lines = plan.session.parts.flatMap(({ items }, part) => (part === kept ? [] : items.flatMap(timed)));
  return lines.slice(0, MOST_LINES).flatMap(({ line, time }) => {
    let found: ShorterTime | null = null;
    let low = 1;
    let high = Math.floor(time / 2 / STEP);
    while (low <= high) {
      const middle = (low + high) >>> 1;
      const n = middle * STEP;
      const endsAt = endWith(plan, line, time - n);
      if (endsAt !== null && endsAt <= finishAt) {
        found = { line, kind: 'time', n, of: time, saves: end - endsAt, endsAt, takesBegun: false };
        high = middle - 1;
      } else low = middle + 1;
    }
    return found ? [found] : [];
  });
}

function timed(item: Item): readonly (TimedSwim | TimedBlock)[] {
  return item.kind === 'timed-swim' || item.kind === 'block' ? [item] : itemsUnder(item).flatMap(timed);
}

/** null where not one rep would fit any more. */
function endWith({ source, session }: Plan, line: number, time: Millis): Millis | null {
  const opened = openPlan({ ...source, text: textWithTime(source.text, session.pool, line, time) });
  return opened.ok ? totalsOf(opened.value).duration : null;
}
