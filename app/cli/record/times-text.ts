/*
 * The hand times of a record for people, a row a lane and set, in tenths.
 */

import type { RunRecord } from '../../core/record/record.ts';
import { cssTestsOf, setTimesOf, type SetTimes } from '../../core/record/times/set-times.ts';
import type { Millis } from '../../core/units.ts';
import { commaed } from '../../core/words/phrase.ts';
import { repText } from '../../core/words/rep.ts';
import { reading } from '../../core/words/time/reading.ts';

/** One line a set of a lane, and one a test. */
export function timeTexts(record: RunRecord): readonly string[] {
  const sets = setTimesOf(record).map((set) => setText(set, record));
  const tests = cssTestsOf(record).map(({ lane, test }) =>
    test.ok
      ? `lane ${lane}: css ≈${reading(test.css)} by its 400 and 200${test.caution === null ? '' : `. ${test.caution}`}`
      : `lane ${lane}: no css. ${test.why}`,
  );
  return [...sets, ...tests];
}

/** "lane 1, 50 fast: 0:39.5 (1:19 a 100, 0.5 under), 0:41.2 (…); fade 3.4 s a 100". */
function setText({ lane, first, reps, fade }: SetTimes, { unit }: RunRecord): string {
  const times = reps.map(({ time, pace, over }) => {
    const told = commaed(pace === null ? '' : `${reading(pace)} a 100`, over === null ? '' : overText(over));
    return `${reading(time)}${told === '' ? '' : ` (${told})`}`;
  });
  const faded = fade === null ? '' : `; fade ${tenths(fade)} s a 100`;
  return `lane ${lane}, ${repText(first.rep, unit)}: ${times.join(', ')}${faded}`;
}

function overText(over: Millis): string {
  return over === 0 ? 'on target' : `${tenths(Math.abs(over))} ${over > 0 ? 'over' : 'under'}`;
}

/** In seconds; less than a tenth is cut off. */
function tenths(time: Millis): string {
  return (Math.trunc(time / 100) / 10).toFixed(1);
}
