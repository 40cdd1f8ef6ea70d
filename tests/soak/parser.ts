/*
 * Many thousands of sessions, each a valid one mutated up to ten times over, through the parser.
 */

import { parseSession } from '../../app/core/session/parse.ts';
import { mutate, seeded, validSession } from '../support/formats/session-text.ts';

/** A parse that takes longer than this hangs, as far as a coach can tell, in ms. */
const TOO_LONG = 1000;

/** What was wrong, a line each with the text that shows it. */
export function soakParser(seed: number, count: number): readonly string[] {
  const random = seeded(seed);
  const wrong: string[] = [];
  let faulty = 0;
  let slowest = 0;
  for (let done = 0; done < count;) {
    let text = validSession(random);
    for (let depth = 0; depth < 10 && done < count; depth++, done++) {
      text = mutate(text, random);
      const began = performance.now();
      const fault = wrongWith(text);
      const took = performance.now() - began;
      slowest = Math.max(slowest, took);
      if (fault.wrong) wrong.push(`${fault.wrong}: ${JSON.stringify(text)}`);
      if (took > TOO_LONG) wrong.push(`took ${Math.round(took)} ms: ${JSON.stringify(text)}`);
      if (fault.faulty) faulty++;
    }
  }
  process.stdout.write(
    `parser: ${count} mutated sessions from seed ${seed}, ${faulty} with faults, slowest ${slowest.toFixed(1)} ms\n`,
  );
  return wrong;
}

function wrongWith(text: string): { readonly wrong: string | null; readonly faulty: boolean } {
  try {
    const result = parseSession(text, null);
    if (result.ok) return { wrong: null, faulty: false };
    const lines = text.split('\n').length;
    const placed = result.faults.every(
      ({ line, column, message }) => line >= 1 && line <= lines && column >= 1 && message !== '',
    );
    return { wrong: placed && result.faults.length > 0 ? null : 'a fault without its place', faulty: true };
  } catch (error) {
    return { wrong: `threw ${String(error)}`, faulty: true };
  }
}
