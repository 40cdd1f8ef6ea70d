/*
 * The editor's tokens against the session that is read: over invented sessions each piece of a line is what the
 * session has of it, nothing is left out, and a fault stands where the reading says it does.
 */

import { describe, expect, test } from 'vitest';
import { parseLanes, parseSession } from '../../../app/core/session/parse.ts';
import { itemsUnder, type Item, type SwimSet, type TimedBlock, type Way } from '../../../app/core/session/session.ts';
import { lineTokens, NOTHING_ABOVE } from '../../../app/core/session/tokens/line-tokens.ts';
import type { Token, TokenKind } from '../../../app/core/session/tokens/token.ts';
import { columnAt } from '../../../app/core/session/text/lines.ts';
import { isFlaw } from '../../../app/core/session/values/flaw.ts';
import { timeAt } from '../../../app/core/session/values/time.ts';
import { holdAt, intervalAt } from '../../../app/core/session/values/values.ts';
import { drawNearMisses, textWith } from '../invent/near-misses.ts';
import { seededRandom } from '../invent/random.ts';
import { linesOf, textOf } from '../scenario.ts';
import { inventTrial } from '../trial.ts';

const SEEDS = 100;
const A_GO = 25;

interface TokenLine {
  readonly raw: string;
  readonly tokens: readonly Token[];
}

function tokenLines(text: string, pool = NOTHING_ABOVE.pool): readonly TokenLine[] {
  let above = { ...NOTHING_ABOVE, pool };
  return text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .map((raw) => {
      const read = lineTokens(raw, above);
      above = { ...read.above };
      return { raw, tokens: read.tokens };
    });
}

const textsOf = ({ raw, tokens }: TokenLine, ...kinds: TokenKind[]): string[] =>
  tokens.filter(({ kind }) => kinds.includes(kind)).map(({ from, to }) => raw.slice(from, to));

/** The ms of a time that is all of a text; the text itself where it is none. */
function msOf(text: string): number | string {
  const time = timeAt(text, 0);
  return isFlaw(time) || time.end !== text.length ? text : time.ms;
}

const distanceOf = (text: string): number | string =>
  /^\d+(?:\.\d)?/.test(text) ? Math.round(parseFloat(text) * 10) : text;

/** One for all lanes, or one a lane. */
const spread = <Value>(values: readonly Value[], lanes: number): readonly Value[] =>
  values.length === 1 ? Array<Value>(lanes).fill(values[0]!) : values;

function expectItem(line: TokenLine, item: Item): void {
  switch (item.kind) {
    case 'rounds':
      expect(Number(textsOf(line, 'count')[0])).toBe(item.times);
      return;
    case 'lanes':
      expect(line.tokens.filter(({ kind }) => kind !== 'comment' && kind !== 'bullet')).toHaveLength(1);
      return;
    case 'talk':
    case 'break':
    case 'timed-swim':
      expect([textsOf(line, 'time').map(msOf), folded(textsOf(line, 'words'))]).toEqual([[item.time], item.words]);
      return;
    case 'block':
      expect(textsOf(line, 'time').map(msOf)).toEqual([item.time]);
      return expectSwim(line, item, item.distances);
    case 'set':
      return expectSwim(line, item, item.reps.distances);
  }
}

function expectSwim(line: TokenLine, item: SwimSet | TimedBlock, distances: readonly number[]): void {
  const own = textsOf(line, 'distance').map(distanceOf);
  const isOne = new Set(distances).size === 1 && own.length === 1;
  const known = distances.filter(
    (_, index) => item.lanes === null || distances.length === own.length || item.lanes.swims[index],
  );
  expect(isOne ? own : spread(own, distances.length)).toEqual(isOne ? [distances[0]] : known);
  if (item.kind === 'set' && item.reps.kind === 'repeat') {
    const counts = textsOf(line, 'count').map(Number);
    const { counts: swum } = item.reps;
    expect(counts.length === 0 || counts.every((count) => Number.isInteger(count))).toBe(true);
    expect(swum.every((count) => count === 0 || counts.length === 0 || counts.includes(count))).toBe(true);
  }
  const ways: readonly Way[] = item.kind === 'set' && item.ways ? item.ways : [item];
  expectTimes(line, ways);
  if (ways.length === 1) expect(folded(textsOf(line, 'words'))).toBe(item.words);
}

/** Every value that the ways of a line have stands in it as a token, and no other. */
function expectTimes(line: TokenLine, ways: readonly Way[]): void {
  const timings = ways.map(({ timing }) => timing);
  const intervals = timings.flatMap((timing) => (timing.kind === 'interval' ? timing.lanes : []));
  const rests = timings.flatMap((timing) => (timing.kind === 'rest' ? timing.lanes : []));
  const steps = timings.flatMap((timing) =>
    timing.kind === 'interval' && timing.step !== 0 ? [Math.abs(timing.step)] : [],
  );
  const holds = ways.flatMap(({ hold }) => hold ?? []);
  const said = (values: readonly unknown[]): string[] =>
    [...new Set(values.map((value) => JSON.stringify(value)))].sort();
  const whole = (text: string, read: typeof intervalAt | typeof holdAt): unknown => {
    const value = read(text, 0);
    return isFlaw(value) || value.end !== text.length ? text : value.value;
  };
  expect(said(textsOf(line, 'interval').map((text) => whole(text, intervalAt)))).toEqual(said(intervals));
  expect(said(textsOf(line, 'rest').map(msOf))).toEqual(said(rests));
  expect(said(textsOf(line, 'target').map((text) => whole(text, holdAt)))).toEqual(said(holds));
  const step = textsOf(line, 'step').map(msOf);
  expect(said(step.filter((ms) => ms !== 0))).toEqual(said(steps));
}

const folded = (words: readonly string[]): string => words.join(' ').replace(/\s+/g, ' ');

const everyItem = (items: readonly Item[]): Item[] => items.flatMap((item) => [item, ...everyItem(itemsUnder(item))]);

describe('[tokens] over invented sessions', () => {
  for (let first = 1; first <= SEEDS; first += A_GO) {
    test(`each piece of a line is what the session has of it: seeds ${first} to ${first + A_GO - 1}`, () => {
      for (let seed = first; seed < first + A_GO; seed += 1) {
        const { written } = inventTrial(seed);
        const file = written.lanesText === null ? null : parseLanes(written.lanesText);
        const lanes = file?.ok ? file.value : null;
        const parsed = parseSession(textOf(written), lanes);
        if (!parsed.ok) throw new Error(`seed ${seed}: a session with faults`);
        const { title, parts, notes, pool } = parsed.value;
        const lines = tokenLines(textOf(written), pool);
        lines.forEach((line, index) => expectWhole(line, `seed ${seed}, line ${index + 1}: ${line.raw}`));
        expect(lines.flatMap((line) => textsOf(line, 'fault'))).toEqual([]);
        const titles = lines.flatMap((line) => textsOf(line, 'title'));
        expect(titles.map((text) => text.replace(/:$/, '').trim())).toEqual(title === null ? [] : [title]);
        const headings = lines.flatMap((line, index) => (textsOf(line, 'heading').length > 0 ? [index + 1] : []));
        expect(headings).toEqual(parts.flatMap(({ line }) => line ?? []));
        for (const note of notes) {
          const line = lines[note.line - 1]!;
          expect([textsOf(line, note.kind).length, folded(textsOf(line, 'words'))]).toEqual([
            1,
            note.words.replace(/(^,+|,+$)/g, ''),
          ]);
        }
        for (const item of parts.flatMap(({ items }) => everyItem(items))) {
          try {
            expectItem(lines[item.line - 1]!, item);
          } catch (error) {
            throw new Error(`seed ${seed}, line ${item.line}: ${linesOf(written)[item.line - 1]}`, { cause: error });
          }
        }
      }
    });
  }
});

/** Tokens are in order, none over another, and between them stand only blanks and signs. */
function expectWhole({ raw, tokens }: TokenLine, where: string): void {
  let at = 0;
  let isWhole = true;
  for (const { from, to } of tokens) {
    isWhole &&= from >= at && to > from && /^[\s,/:\u2010-\u2015\u2212-]*$/.test(raw.slice(at, from));
    at = to;
  }
  if (!isWhole || !/^[\s,]*$/.test(raw.slice(at))) expect.fail(`${where}: ${JSON.stringify(tokens)}`);
}

test('[tokens] a fault of a line alone stands where the reading of the session says it does', () => {
  let seen = 0;
  for (let seed = 1; seed <= 10; seed += 1) {
    for (const nearMiss of drawNearMisses(seededRandom(seed))) {
      const { text } = textWith(nearMiss);
      const parsed = parseSession(text, null);
      const faults = parsed.ok ? [] : parsed.faults;
      tokenLines(text).forEach((line, index) => {
        expectWhole(line, line.raw);
        for (const { from } of line.tokens.filter(({ kind }) => kind === 'fault')) {
          seen += 1;
          expect(faults.find((fault) => fault.line === index + 1)?.column, line.raw).toBe(columnAt(line.raw, from));
        }
      });
    }
  }
  expect(seen).toBeGreaterThan(200);
});
