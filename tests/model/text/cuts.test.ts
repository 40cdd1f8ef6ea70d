/*
 * Every cut that is offered while a session is written can be made in its text: what is left is a session.
 */

import { expect, test } from 'vitest';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import { totalsOf } from '../../../app/core/plan/totals.ts';
import { cutsInRounds, fitPlan, smallCuts } from '../../../app/core/run/hour/fit.ts';
import { textWithCut } from '../../../app/core/session/text/text-cut.ts';
import { HOUR, MINUTE } from '../../../app/core/units.ts';
import { timeOfDayAfter } from '../../../app/core/words/time/time-of-day.ts';
import { inventSession } from '../invent/invent-session.ts';
import { seededRandom } from '../invent/random.ts';
import { textOf } from '../scenario.ts';
import { writeSession } from '../write/write-session.ts';

const START = 6 * 60;

/** The text of a seed without its own hour, its first line, which is the title, apart. */
function inventedText(seed: number): { title: string; others: readonly string[]; lanesText: string | null } {
  const random = seededRandom(seed);
  const written = writeSession(inventSession(random), random);
  const [title = '', ...others] = textOf(written)
    .split(/\r?\n/)
    .filter((line) => !/^\s*(start|finish)\b/i.test(line));
  return { title, others, lanesText: written.lanesText };
}

test('[cuts] over random sessions each offered cut leaves a session', () => {
  let cuts = 0;
  for (let seed = 1; seed <= 300; seed++) {
    const { title, others, lanesText } = inventedText(seed);
    const whole = openPlan({ text: [title, ...others].join('\n'), lanesText });
    if (!whole.ok) continue;
    const booked = Math.floor(totalsOf(whole.value).duration / MINUTE - 1) * MINUTE;
    if (booked < 2 * MINUTE || booked > 10 * HOUR) continue;
    const hour = ['start 06:00', `finish ${timeOfDayAfter(START, booked)}`];
    const text = [title, ...hour, ...others].join('\n');
    const opened = openPlan({ text, lanesText });
    if (!opened.ok) continue;
    const plan = opened.value;
    for (const { line, n } of [...(fitPlan(plan)?.cuts ?? []), ...smallCuts(plan), ...cutsInRounds(plan)]) {
      const left = openPlan({ text: textWithCut(text, plan.session.pool, line, n), lanesText });
      expect(left.ok, `seed ${seed}, ${n} fewer on line ${line}`).toBe(true);
      cuts++;
    }
  }
  expect(cuts).toBeGreaterThan(400);
});
