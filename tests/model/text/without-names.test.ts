/*
 * A session for screens that anybody may read is swum as the one it was made from.
 */

import { expect, test } from 'vitest';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { withoutNames } from '../../../app/core/session/names/without-names.ts';
import { inventSession } from '../invent/invent-session.ts';
import { seededRandom } from '../invent/random.ts';
import { textOf } from '../scenario.ts';
import { writeSession } from '../write/write-session.ts';

/** What is swum: all of a plan but the names and the texts it was made from. */
function swumIn(plan: Plan): unknown {
  const { session } = plan;
  return {
    ...plan,
    source: null,
    session: { ...session, lanes: session.lanes.map((lane) => ({ ...lane, names: [] })) },
  };
}

/** Some swimmers are called as the notation's own words, or nearly. */
function calledByItsWords(text: string): string {
  const names = { Bram: 'Hold', Chidi: 'Rïse', Dora: 'Fün-Drop', Emre: 'Kïck', Hana: 'Éasy-Drïlls' };
  return Object.entries(names).reduce((changed, [name, word]) => changed.replaceAll(name, word), text);
}

test('[names] over random sessions the plan stays the same, line for line', () => {
  let named = 0;
  for (let seed = 1; seed <= 100; seed++) {
    const random = seededRandom(seed);
    const written = writeSession(inventSession(random), random);
    const lanesText = written.lanesText === null ? null : calledByItsWords(written.lanesText);
    const text = calledByItsWords(textOf(written));
    const whole = openPlan({ text, lanesText });
    const bare = openPlan(withoutNames({ text, lanesText }));
    if (!whole.ok || !bare.ok) throw new Error(`seed ${seed}: ${whole.ok ? 'not' : 'never'} to be read`);
    expect(swumIn(bare.value), `seed ${seed}`).toEqual(swumIn(whole.value));
    expect(bare.value.session.lanes.flatMap(({ names }) => names)).toEqual([]);
    if (whole.value.session.lanes.some(({ names }) => names.length > 0)) named++;
  }
  expect(named).toBeGreaterThan(10);
});
