/* One line of a journal: what is a whole one, and what each field may say. */

import { crc32 } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { followsOn, lineOf, readLine, versionOf, type JournalEntry } from '../../../app/host/journal/journal-line.ts';

const STAMP = { at: 0, mono: 0, uptime: 0, wall: 0, boot: '' };
/** The last ms of the year 9999. */
const LATEST = 253_402_300_799_999;

const OPENED = {
  say: 'opened',
  journal: 2,
  run: 'r',
  text: '',
  lanesText: null,
  clockPhase: 0,
  openedAtTimeOfDay: 0,
  ...STAMP,
};
const COMMAND = { say: 'command', id: 'c', command: {}, ...STAMP };
const ALIVE = { say: 'alive', leaves: [] as unknown, ...STAMP };
const BACK = { say: 'back', by: 'wall', ...STAMP };
const CLOSED = { say: 'closed', why: 'done', ...STAMP };

/** What is read of an entry that was written; null where it is none. */
function readBack(entry: object): JournalEntry | null {
  const { text } = lineOf(entry as JournalEntry, null);
  return readLine(text.slice(0, -1))?.entry ?? null;
}

describe('[journal] which screen gave a command', () => {
  const FROM = { role: 'remote', name: 'Phone 1', device: '0123456789abcdef' };

  test('is read back with role, name and device; older lines say less', () => {
    for (const who of [
      { by: 'remote', from: FROM },
      { by: 'desk', from: { ...FROM, role: 'coach', device: null } },
    ])
      expect(readBack({ ...COMMAND, ...who })).toMatchObject(who);
    expect(readBack(COMMAND)).not.toHaveProperty('from');
    expect(readBack({ ...COMMAND, by: 'desk' })).not.toHaveProperty('from');
  });

  test.each([
    null,
    'remote',
    {},
    { ...FROM, role: 'stranger' },
    { ...FROM, name: 7 },
    { ...FROM, device: '' },
    { ...FROM, device: undefined },
  ])('%o is not such a screen, and a line with it is not used', (from) => {
    expect(readBack({ ...COMMAND, by: 'remote', from })).toBeNull();
  });
});

describe('[journal] a line', () => {
  const whole = lineOf(COMMAND as JournalEntry, null).text.slice(0, -1);

  test.each([
    ['something before it', `x${whole}`],
    ['something behind it', `${whole}x`],
    ['a line break behind it', `${whole}\n`],
    ['another sum', whole.replace(/"sum":"[0-9a-f]{8}"/, '"sum":"00000000"')],
    ['no sum', whole.replace(/,"sum":"[0-9a-f]{8}"/, '')],
    ['nothing at all', ''],
  ])('with %s is not used', (_, line) => {
    expect(readLine(line)).toBeNull();
  });

  test('that is not JSON is not used, though its checksum is right', () => {
    const body = '{"say":}';
    const sum = crc32(body).toString(16).padStart(8, '0');
    expect(readLine(`${body.slice(0, -1)},"sum":"${sum}"}`)).toBeNull();
  });

  test('has a checksum of eight digits, whatever its value, and can be read back', () => {
    const sums = Array.from({ length: 300 }, (_, at) => lineOf({ ...COMMAND, at } as JournalEntry, null));
    expect(sums.some(({ sum }) => sum.startsWith('0'))).toBe(true);
    for (const { text, sum } of sums) {
      expect(sum).toMatch(/^[0-9a-f]{8}$/);
      expect(readLine(text.slice(0, -1))).toMatchObject({ sum });
    }
  });

  test('names the line before by its checksum; anything else names none', () => {
    const { sum, text } = lineOf(COMMAND as JournalEntry, 'cafe0123');
    expect(readLine(text.slice(0, -1))).toMatchObject({ sum, after: 'cafe0123' });
    const odd = lineOf({ ...COMMAND, after: 5 } as unknown as JournalEntry, null);
    expect(readLine(odd.text.slice(0, -1))).toMatchObject({ after: null });
    expect(readLine(whole)).toMatchObject({ after: null });
  });
});

describe('[journal] a line follows another', () => {
  const readAfter = (after: string | null) => readLine(lineOf(COMMAND as JournalEntry, after).text.slice(0, -1))!;
  const before = readAfter(null);

  test('by its checksum, in either version', () => {
    for (const version of [1, 2]) {
      expect(followsOn(readAfter(before.sum), before, version)).toBe(true);
      expect(followsOn(readAfter('cafe0123'), before, version)).toBe(false);
    }
  });

  test('without naming it in the first version alone', () => {
    expect(followsOn(readAfter(null), before, 1)).toBe(true);
    expect(followsOn(readAfter(null), before, 2)).toBe(false);
  });
});

describe('[journal] the bounds of a line’s fields', () => {
  test.each([
    ['the first line, with the least of everything', OPENED],
    [
      'the first line, with the most of everything',
      {
        ...OPENED,
        run: 'x'.repeat(64),
        text: 'Squad',
        lanesText: 'lane 1',
        clockPhase: 59_999,
        openedAtTimeOfDay: 86_399_999,
        at: LATEST,
        mono: LATEST,
        uptime: LATEST,
        wall: LATEST,
      },
    ],
    ['the first line of the first form', { ...OPENED, journal: 1 }],
    ['a command', { ...COMMAND, id: 'x'.repeat(64) }],
    ['a sign of life without a leave', ALIVE],
    [
      'a sign of life with leaves',
      {
        ...ALIVE,
        leaves: [
          [1, 0],
          [20, LATEST],
        ],
      },
    ],
    ['a comeback by the wall clock', BACK],
    ['a comeback by the monotonic clock', { ...BACK, by: 'monotonic', at: 0.25 }],
    ...['done', 'left', 'replaced', 'unattended', 'not begun'].map((why) => [`an end: ${why}`, { ...CLOSED, why }]),
    ['an end that the coach has read of', { ...CLOSED, why: 'unattended', told: true }],
  ] as [string, object][])('%s is read as it was written', (_, entry) => {
    expect(readBack(entry)).toEqual(entry);
  });

  test.each([
    ['a time beyond the year 9999', { ...COMMAND, wall: LATEST + 1 }],
    ['a start of the machine that is no text', { ...COMMAND, boot: null }],
    ['a run that is no text', { ...OPENED, run: 5 }],
    ['a session that is no text', { ...OPENED, text: null }],
    ['lanes that are no text', { ...OPENED, lanesText: 5 }],
    ['lanes that are left out', { ...OPENED, lanesText: undefined }],
    ['a time before the first', { ...COMMAND, at: -1 }],
    ['a time that is a text', { ...COMMAND, wall: '5' }],
    ['an id of 65 letters', { ...COMMAND, id: 'x'.repeat(65) }],
    ['a version before the first', { ...OPENED, journal: 0 }],
    ['a version that there is not yet', { ...OPENED, journal: 3 }],
    ['a pool clock that is a minute ahead', { ...OPENED, clockPhase: 60_000 }],
    ['a time of day after the day', { ...OPENED, openedAtTimeOfDay: 86_400_000 }],
    ['a kind of screen that gives no commands', { ...COMMAND, by: 'wall' }],
    ['a comeback by another clock', { ...BACK, by: 'sun' }],
    ['a command that is a list', { ...COMMAND, command: [] }],
    ['a command that is nothing', { ...COMMAND, command: null }],
    ['a command that is a text', { ...COMMAND, command: 'start' }],
    ['an id that is no text', { ...COMMAND, id: ['c'] }],
    ['leaves that are no list', { ...ALIVE, leaves: {} }],
    ['leaves of which one is none', { ...ALIVE, leaves: [[1, 0], 'gone'] }],
    ['a leave that is a text of two', { ...ALIVE, leaves: ['10'] }],
    ['a leave of three numbers', { ...ALIVE, leaves: [[1, 0, 0]] }],
    ['a leave of one number', { ...ALIVE, leaves: [[1]] }],
    ['a leave of half a lane', { ...ALIVE, leaves: [[1.5, 0]] }],
    ['a leave beyond the year 9999', { ...ALIVE, leaves: [[1, LATEST + 1]] }],
    ['an end for no reason', { ...CLOSED, why: undefined }],
    ['an end that the coach has not read of', { ...CLOSED, told: false }],
    ['an unknown kind', { ...COMMAND, say: 'sung' }],
    ['no kind', STAMP],
  ] as [string, object][])('%s makes the line none', (_, entry) => {
    expect(readBack(entry)).toBeNull();
  });
});

test.each([
  ['{"journal":3}', 3],
  ['{"journal":"3"}', null],
  ['{"journal":3', null],
  ['[3]', null],
  ['null', null],
  ['{}', null],
] as const)('[journal] the first line %s claims the version %j', (line, version) => {
  expect(versionOf(line)).toBe(version);
});
