import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseLanes, parseSession } from '../../../app/core/session/parse.ts';
import type { Session } from '../../../app/core/session/session.ts';
import { writeSession } from '../../support/formats/canonical-text.ts';
import { mutate, seeded, validSession } from '../../support/formats/session-text.ts';
import { runs } from '../../support/run/runs.ts';

const HARBOUR = readFileSync(new URL('../../cases/sessions/harbour.txt', import.meta.url), 'utf8');
const PLACES = ['line', 'column', 'finishLine'];

function parsed(text: string): Session {
  const read = parseSession(text, null);
  if (!read.ok) throw new Error(`${JSON.stringify(read.faults)} in\n${text}`);
  return read.value;
}

/** Without what depends on where things stand in the text. */
function meaning(session: Session): unknown {
  return JSON.parse(JSON.stringify(session, (key, value: unknown) => (PLACES.includes(key) ? undefined : value)));
}

describe('the example', () => {
  test('[example] has the squad, the settings and the parts that it shows', () => {
    const session = parsed(HARBOUR);
    expect(session).toMatchObject({ title: 'Harbour squad, Thursday', startsAt: 1170, finishBy: 1230, finishLine: 4 });
    expect(session.lanes).toMatchObject([
      { number: 1, css: 80_000, base: 90_000, baseFrom: 'written', swimmers: 5, gap: 5000 },
      { number: 2, css: 88_000, base: 105_000, baseFrom: 'css', swimmers: 6 },
      {
        number: 3,
        css: 101_000,
        base: 120_000,
        names: ['Ana', 'Bram', 'Chidi'],
        swimmers: 3,
        gap: 10_000,
        ownGap: true,
      },
    ]);
    expect(session.parts.map(({ name, line, items }) => [name, line, items.map((item) => item.kind)])).toEqual([
      ['Warm-up', 9, ['timed-swim', 'set', 'talk']],
      ['Pull', 14, ['set']],
      ['Main set', 17, ['rounds', 'set']],
      ['Swim-down', 23, ['set']],
    ]);
  });

  test('[write] the example in its canonical text', () => {
    const canonical = readFileSync(new URL('../../cases/sessions/harbour.canonical.txt', import.meta.url), 'utf8');
    expect(writeSession(parsed(HARBOUR))).toBe(canonical);
  });
});

describe('writing', () => {
  test.each([
    '50 @ 1:00 m of words',
    '100 @ 1:30 min choice',
    '100 @ 2:00 rounds of fun',
    '15:00, of 25 fast 25 easy',
    '50 @ 1:00 #1 first',
    '50 @ 1:00 , # first',
    '50 fast #@ 1:00',
    '50 @ 1:00 25 fast',
    '50 @ 1:00 - easy',
    'Title #:\n50',
    'a) b) Title::\n50',
    'T\nA #:\n50\nb) c) D\n50',
    'lane 1 Ana, gap 5\ngap 9\n50',
    'pool 33.33 yd\n20 yd easy\n33.3',
    '3 x 1 x 50 @ 1:00\n3 rounds\n 1 x 50',
    '50 @ 1:00 drop 0:00',
    'talk 1:30 , s a go\n50',
    '100-15-20 m @ 1:00',
    'lane 1\nlane 2 css 1:20\n0/2 x 50 hold css-0:01.5 @ base-0:00.5/59:03.4',
  ])('[write] %j reads the same again', (text) => {
    const session = parsed(text);
    expect(meaning(parsed(writeSession(session)))).toEqual(meaning(session));
  });

  test.each([
    ['between 1:00', ''],
    ['between 0:45', 'between 0:45\n'],
    ['between auto 1:00', 'between auto 1:00\n'],
    ['gap 5', ''],
    ['gap 10', 'gap 10\n'],
    ['start on 30', 'start on 30\n'],
    ['grid 10', 'grid 10\n'],
    ['start 6:05', 'start 6:05\n'],
    ['finish 0:00', 'finish 0:00\n'],
  ])('[write] a setting is written where it is not the default: %s', (setting, written) => {
    expect(writeSession(parsed(`${setting}\n50`))).toBe(`pool 25 m\n${written}lane 1\n\n50\n`);
  });

  test('[write] random sessions read the same again, and their canonical text is its own', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const session = parsed(validSession(seeded(seed)));
        const text = writeSession(session);
        expect(meaning(parsed(text))).toEqual(meaning(session));
        expect(writeSession(parsed(text))).toBe(text);
      }),
      { seed: 1907, numRuns: runs(150) },
    );
  });
});

describe('whatever the text', () => {
  const PIECES = [
    '4 x 50',
    '@',
    'on the',
    'base',
    '1:30',
    '1.30',
    '/',
    '-',
    'hold',
    'css',
    'rest',
    'drop 5',
    'rounds',
    '\n',
    '  ',
  ];

  test('[text] parsing random text never throws, and its faults have places in order', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 200 }),
      fc
        .array(fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 3 })), { maxLength: 40 })
        .map((all) => all.join(' ')),
    );
    fc.assert(
      fc.property(text, (some) => {
        expectPlaces(some);
        parseLanes(some);
      }),
      { seed: 44, numRuns: runs(500) },
    );
  });

  test('[text] nor does parsing spoilt sessions; what still reads is written and reads the same', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const random = seeded(seed);
        const text = mutate(validSession(random), random);
        const session = expectPlaces(text);
        if (session) expect(meaning(parsed(writeSession(session)))).toEqual(meaning(session));
      }),
      { seed: 2718, numRuns: runs(300) },
    );
  });

  function expectPlaces(text: string): Session | null {
    const read = parseSession(text, null);
    if (read.ok) return read.value;
    const rows = text.replace(/^\ufeff/, '').split('\n');
    expect(read.faults.length).toBeGreaterThan(0);
    read.faults.forEach((fault, index) => {
      expect(fault.line).toBeGreaterThan(read.faults[index - 1]?.line ?? 0);
      expect(fault.line).toBeLessThanOrEqual(rows.length);
      const columns = Array.from(rows[fault.line - 1]!).reduce((sum, one) => sum + (one === '\t' ? 4 : 1), 0);
      expect(fault.column).toBeGreaterThanOrEqual(1);
      expect(fault.column).toBeLessThanOrEqual(columns + 1);
      expect(fault.message.length).toBeGreaterThan(20);
    });
    return null;
  }
});
