/*
 * Lines that are a fault by the rules, and lines that are nearly the same and none: whether the
 * program refuses the text, and for the faulty line alone.
 */

import { expect, test } from 'vitest';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import { drawNearMisses, textWith } from './near-misses.ts';
import { seededRandom } from './random.ts';

const DRAWS = 25;

test('[notation] a text is refused for the line that is a fault, and for no other', () => {
  const wrong = new Set<string>();
  for (let seed = 1; seed <= DRAWS; seed += 1) {
    for (const nearMiss of drawNearMisses(seededRandom(seed))) {
      const { text, from, to } = textWith(nearMiss);
      const plan = openPlan({ text, lanesText: null });
      const faults = plan.ok ? [] : plan.faults.faults;
      const elsewhere = faults.filter(({ line }) => line < from || line > to);
      if (nearMiss.isFault === faults.length > 0 && elsewhere.length === 0) continue;
      wrong.add(JSON.stringify({ ...nearMiss, faults }));
    }
  }
  expect([...wrong]).toEqual([]);
});
