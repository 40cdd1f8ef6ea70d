import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openPlan } from '../../../../app/core/plan/open-plan.ts';
import type { WrittenLane } from '../../../../app/core/session/line/lane-line.ts';
import { parseLanes, parseSession } from '../../../../app/core/session/parse.ts';
import type { Session } from '../../../../app/core/session/session.ts';
import {
  laneFlaw,
  lanesWritten,
  laneText,
  settingsIn,
  textWithLane,
  textWithLanes,
  textWithoutLane,
} from '../../../../app/core/session/text/text-with-lane.ts';
import { seeded, validSession } from '../../../support/formats/session-text.ts';
import { runs } from '../../../support/run/runs.ts';

const lane = (number: number, given: Partial<WrittenLane> = {}): WrittenLane => {
  const names = given.names ?? [];
  return { number, base: null, css: null, gap: null, swimmers: Math.max(1, names.length), names, ...given };
};

const FULL = lane(2, { css: 78_500, base: 90_000, swimmers: 5, gap: 10_000 });

/** Lanes that can be written. */
const someLane = (numbers: fc.Arbitrary<number>): fc.Arbitrary<WrittenLane> => {
  const pace = fc.option(fc.integer({ min: 200, max: 6000 }).map((tenths) => tenths * 100));
  const gap = fc.option(fc.integer({ min: 1, max: 60 }).map((seconds) => seconds * 1000));
  const name = fc.constantFrom('Ana', 'Bram', 'Gül', 'Chidi O’Neil', 'basel', 'Jo-Ann', 'x');
  const swimmers = fc.oneof(fc.integer({ min: 1, max: 20 }), fc.array(name, { minLength: 1, maxLength: 20 }));
  return fc
    .record({ number: numbers, base: pace, css: pace, gap, swimmers })
    .map(({ swimmers: given, ...rest }) =>
      typeof given === 'number'
        ? { ...rest, swimmers: given, names: [] }
        : { ...rest, swimmers: given.length, names: given },
    );
};

const session = (text: string): Session => {
  const read = parseSession(text, null);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value;
};

const asWritten = (text: string): readonly WrittenLane[] => lanesWritten(text).lanes.map((each) => each.lane!);

describe('[lane lines] a lane as text', () => {
  test.each([
    [lane(1), 'lane 1'],
    [FULL, 'lane 2 css 1:18.5, base 1:30, 5 swimmers, gap 10'],
    [lane(0, { names: ['Ana', 'Bram'], gap: 7000 }), 'lane 0 Ana, Bram, gap 7'],
    [lane(20, { base: 600_000 }), 'lane 20 base 10:00'],
  ])('%j', (given, text) => {
    expect(laneText(given)).toBe(text);
    expect(laneFlaw(given)).toBeNull();
  });

  test('what is written is read as the same lane', () => {
    fc.assert(
      fc.property(someLane(fc.integer({ min: 0, max: 20 })), (given) => {
        expect(laneFlaw(given)).toBeNull();
        expect(parseLanes(laneText(given))).toEqual({ ok: true, value: { pool: null, gap: null, lanes: [given] } });
      }),
      { numRuns: runs(300) },
    );
  });

  test.each<[string, WrittenLane]>([
    ['a number that no lane has', lane(21)],
    ['a name with a digit', lane(1, { names: ['Ana 2'] })],
    ['a name that begins like a setting', lane(1, { names: ['base'] })],
    ['two names in one', lane(1, { names: ['Ana, Bram'] })],
    ['two names in one of two swimmers', lane(1, { names: ['Ana, Bram'], swimmers: 2 })],
    ['a name with two spaces in it', lane(1, { names: ['Ana  Lee'] })],
    ['a name with words behind it that are a comment', lane(1, { names: ['Ana # the quick one'] })],
    ['a name with a comment', lane(1, { names: ['Ana # 1', 'Bram'] })],
    ['a name on two lines', lane(1, { names: ['Ana\nlane 2 Bram'] })],
    ['a name of nothing', lane(1, { names: ['Ana', ''] })],
    ['a name with spaces around', lane(1, { names: ['Ana '] })],
    ['a control character', lane(1, { names: ['A\u0007na'] })],
    ['names and another number', lane(1, { names: ['Ana'], swimmers: 3 })],
    ['too many swimmers', lane(1, { swimmers: 21 })],
    ['no swimmers', lane(1, { swimmers: 0 })],
    ['a base that is too short', lane(1, { base: 19_900 })],
    ['a css between two tenths', lane(1, { css: 79_050 })],
    ['a gap of half a second', lane(1, { gap: 5500 })],
    ['a line that is too long', lane(1, { names: Array.from({ length: 20 }, () => 'a'.repeat(30)) })],
    ['a name that makes it a set', lane(1, { names: ['x'.repeat(501)] })],
  ])('%s is refused, with what is wrong', (_, given) => {
    expect(laneFlaw(given)).toMatch(/\w+/);
    expect(() => textWithLane('lane 1 base 1:30', given)).toThrow(RangeError);
  });
});

describe('[lane lines] an edit writes the one line', () => {
  test.each([
    ['Harbour\nlane 2 base 1:40, Ana\n', 'Harbour\nlane 2 css 1:18.5, base 1:30, 5 swimmers, gap 10\n'],
    [
      '\uFEFFlane 1\r\n  - Lane 2: base 1:40  # the quick ones\r\nlane 3\r\n',
      '\uFEFFlane 1\r\n  - lane 2 css 1:18.5, base 1:30, 5 swimmers, gap 10  # the quick ones\r\nlane 3\r\n',
    ],
    ['lane 2 css 130 # a fault is mended', 'lane 2 css 1:18.5, base 1:30, 5 swimmers, gap 10 # a fault is mended'],
  ])('%j', (before, after) => {
    expect(textWithLane(before, FULL)).toBe(after);
    expect(textWithLane(after, FULL)).toBe(after);
  });

  test.each([
    [
      'behind the lane before it',
      'One\nlane 1\n# a word\nlane 4\n4 x 50',
      'One\nlane 1\nlane 2\n# a word\nlane 4\n4 x 50',
    ],
    ['behind the lane before it in whatever order', 'One\nlane 1\nlane 0\n50', 'One\nlane 1\nlane 2\nlane 0\n50'],
    ['behind the last lane before it', 'One\nlane 0\nlane 1\n50', 'One\nlane 0\nlane 1\nlane 2\n50'],
    ['behind the first of two lines of a lane', 'One\nlane 1\nlane 1\n50', 'One\nlane 1\nlane 2\nlane 1\n50'],
    ['before all where none is lower', 'One\ngap 5\nlane 4\nlane 3\n', 'One\ngap 5\nlane 2\nlane 4\nlane 3\n'],
    [
      'behind the last setting',
      'pool 25 m\nOne\n  gap 5\nnote: x\n\nSet\n',
      'pool 25 m\nOne\n  gap 5\nlane 2\nnote: x\n\nSet\n',
    ],
    ['behind the title', 'One\r\n\r\nSet\r\n4 x 50', 'One\r\nlane 2\r\n\r\nSet\r\n4 x 50'],
    ['behind a title at the end', 'One', 'One\nlane 2'],
    ['below a blank first line', '\nOne\nlane 1\n50', '\nOne\nlane 1\nlane 2\n50'],
    ['behind the title, not a note above it', 'note: x\nOne\n50', 'note: x\nOne\nlane 2\n50'],
    ['not for a lane below a heading', 'One\nSet\nlane 2\n50\n', 'One\nlane 2\nSet\nlane 2\n50\n'],
    ['not for one that is no setting', 'One\nlane2 base 1:30\n50', 'One\nlane2 base 1:30\nlane 2\n50'],
    ['at the top where there is neither', '4 x 50 @ 1:00', 'lane 2\n4 x 50 @ 1:00'],
    ['in an empty text', '', 'lane 2\n'],
    ['behind a byte-order mark', '\uFEFF4 x 50', '\uFEFFlane 2\n4 x 50'],
    ['not for a set of that lane', 'One\nlane 2: 4 x 50\n', 'One\nlane 2\nlane 2: 4 x 50\n'],
  ])('a new one stands %s', (_, before, after) => {
    expect(textWithLane(before, lane(2))).toBe(after);
  });

  test('then the text has that lane, and all else of the session is as it was', () => {
    let changed = 0;
    fc.assert(
      fc.property(fc.nat(), fc.nat(), fc.boolean(), (seed, chosen, keepsCss) => {
        const text = validSession(seeded(seed), 4);
        const before = session(text);
        const { lanes } = before;
        const { number, css } = lanes[chosen % lanes.length]!;
        const [given] = fc.sample(someLane(fc.constant(number)), { numRuns: 1, seed });
        // A lane that swims by its css has to keep one.
        const next = { ...given!, css: keepsCss ? css : (given!.css ?? css) };
        const after = textWithLane(text, next);
        expect(asWritten(after)).toContainEqual(next);
        const isOther = (each: WrittenLane): boolean => each.number !== number;
        expect(asWritten(after).filter(isOther)).toEqual(asWritten(text).filter(isOther));
        expect(linesWithout(after, number)).toEqual(linesWithout(text, number));
        const read = openPlan({ text: after, lanesText: null });
        // Another pace may be one that an interval cannot be made of; that is the only thing that may go wrong.
        if (!read.ok) return;
        const shift = lanesWritten(text).lanes.length === 0 ? 1 : 0;
        expect(unplaced(read.value.session, shift)).toEqual(unplaced(before, 0));
        changed += 1;
      }),
      { numRuns: runs(400) },
    );
    expect(changed).toBeGreaterThan(0);
  });
});

test('[lane lines] a lane taken out leaves every other line', () => {
  expect(textWithoutLane('One\r\nlane 1\r\nlane 2 # quick\r\n4 x 50', 2)).toBe('One\r\nlane 1\r\n4 x 50');
  expect(textWithoutLane('One\nlane 2', 2)).toBe('One\n');
  expect(textWithoutLane('One\nlane 2: 4 x 50\n', 2)).toBe('One\nlane 2: 4 x 50\n');
});

test('[lane lines] a squad in place of the lanes that were there', () => {
  const text = 'One\nlane 1 Ana # first\nlane 2 Bram\n# keep\nlane 5\n\nSet\n4 x 50 @ 1:00\n';
  const squad = [lane(1, { swimmers: 4 }), lane(3)];
  expect(textWithLanes(text, squad)).toBe('One\nlane 1 4 swimmers # first\nlane 3\n# keep\n\nSet\n4 x 50 @ 1:00\n');
  fc.assert(
    fc.property(
      fc.nat(),
      fc.uniqueArray(someLane(fc.integer({ min: 0, max: 20 })), {
        minLength: 1,
        maxLength: 20,
        selector: (each) => each.number,
      }),
      (seed, lanes) => {
        const after = textWithLanes(validSession(seeded(seed), 2), lanes);
        expect(asWritten(after)).toEqual([...lanes].sort((a, b) => a.number - b.number));
      },
    ),
    { numRuns: runs(100) },
  );
});

describe('[lane lines] what is written', () => {
  test('is read whatever the rest of the text is, with the faulty among them', () => {
    const text =
      'One\npool 50 m\nlane 3 css 130\nlane 1 base 1:30\nlane 1 base 1:40\ngrid 10\nSet\n4 x @ soon\nlane 9 base 1:30';
    expect(lanesWritten(text)).toEqual({
      pool: { length: 5000, unit: 'm' },
      gap: null,
      grid: 10_000,
      lanes: [
        { number: 1, line: 4, lane: lane(1, { base: 90_000 }) },
        { number: 3, line: 3, lane: null },
      ],
    });
  });

  test('never throws, whatever the text is', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 80 }), (rubbish) => {
        const text = `lane 2 ${rubbish}`;
        lanesWritten(text);
        expect(asWritten(textWithLane(text, lane(7, { swimmers: 3 })))).toContainEqual(lane(7, { swimmers: 3 }));
      }),
      { numRuns: runs(300) },
    );
  });
});

function linesWithout(text: string, number: number): readonly string[] {
  const own = lanesWritten(text).lanes.find((each) => each.number === number)?.line;
  return text.split('\n').filter((_, index) => index + 1 !== own);
}

/** All of it but its lanes, with lines counted as they were before `shift` lines came in above. */
function unplaced({ lanes, ...rest }: Session, shift: number): unknown {
  void lanes;
  return JSON.parse(
    JSON.stringify(rest, (key, value: unknown) =>
      (key === 'line' || key === 'finishLine') && typeof value === 'number' ? value - shift : value,
    ),
  );
}

test('[7] the settings of a text are its lines before the first part without title, notes and comments', () => {
  const text =
    'Squad\r\npool 25 yd  # short\nnote: quiet\n\n  lane 1 Ana, Bram\nlane 2 base 1:40\n\nMain set\n50 @ 1:00\nlane 1: 50';
  expect(settingsIn(text)).toBe('pool 25 yd  # short\nlane 1 Ana, Bram\nlane 2 base 1:40\n');
  expect(settingsIn('Main set\n50 @ 1:00')).toBe('');
});
