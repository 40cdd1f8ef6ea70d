/*
 * The program against the independent model, over more seeds than every test run has time for.
 */

import { describeTrial, shrink } from '../model/shrink.ts';
import { disagreementIn, inventTrial } from '../model/trial.ts';

export function soakAgreement(seed: number, count: number): readonly string[] {
  const wrong: string[] = [];
  // Far from the seeds of the ordinary tests.
  const first = seed * 1_000_000;
  for (let trial = first; trial < first + count; trial++) {
    const found = disagreementIn(inventTrial(trial));
    if (found) wrong.push(`seed ${trial}: ${found.about} ${found.path}\n${describeTrial(shrink(inventTrial(trial)))}`);
  }
  process.stdout.write(`model: ${count} trials from seed ${first}, ${wrong.length} disagree\n`);
  return wrong;
}
