import { describe, expect, test } from 'vitest';
import { parseLanes, parseSession } from '../../../app/core/session/parse.ts';
import type { Session } from '../../../app/core/session/session.ts';

function session(text: string, lanesText: string | null = null): Session {
  const lanes = lanesText === null ? null : parseLanes(lanesText);
  if (lanes && !lanes.ok) throw new Error(JSON.stringify(lanes.faults));
  const read = parseSession(text, lanes ? lanes.value : null);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value;
}

describe('settings', () => {
  test('[header] every default', () => {
    expect({ ...session('50 easy'), parts: [] }).toEqual({
      parts: [],
      notes: [],
      title: null,
      pool: { length: 2500, unit: 'm' },
      startsAt: null,
      finishBy: null,
      finishLine: null,
      between: { time: 60_000, auto: false },
      startOn: 5000,
      grid: 5000,
      gap: 5000,
      lanes: [
        { number: 1, base: 120_000, baseFrom: 'assumed', css: null, swimmers: 1, names: [], gap: 5000, ownGap: false },
      ],
    });
  });

  test.each<[line: string, settings: object]>([
    ['pool 50m', { pool: { length: 5000, unit: 'm' } }],
    ['POOL: 33.33 YD', { pool: { length: 3333, unit: 'yd' } }],
    ['  start 7:05', { startsAt: 425 }],
    ['finish 0:00', { finishBy: 0, finishLine: 1 }],
    ['- gap 60', { gap: 60_000 }],
    ['between 0:00', { between: { time: 0, auto: false } }],
    ['between auto 0:45', { between: { time: 45_000, auto: true } }],
    ['between :30', { between: { time: 30_000, auto: false } }],
    ['start on 15', { startOn: 15_000, startsAt: null }],
    ['start: ON 60', { startOn: 60_000 }],
    ['grid 1', { grid: 1000 }],
  ])('[header] %s', (line, settings) => {
    expect(session(`${line}\n100\n`)).toMatchObject(settings);
  });

  test.each([
    ['start 7:30 pm\nfinish 8:30 pm', 1170, 1230],
    ['start 7 PM\nfinish 8:15pm', 1140, 1215],
    ['start 12 am\nfinish 12:30 pm', 0, 750],
    ['start 19:30-20:30', 1170, 1230],
    ['start 19:30 to 20:30', 1170, 1230],
    ['start 23:30 – 0:30', 1410, 30],
    ['start 7:30-8:30 pm', 1170, 1230],
    ['start 7-8 am', 420, 480],
    ['start 11-1 pm', 660, 780],
    ['start 11:30 pm to 12:30 am', 1410, 30],
    ['start 7:30 pm\nfinish 20:30', 1170, 1230],
  ])('[header] %s', (lines, startsAt, finishBy) => {
    expect(session(`${lines}\n50`)).toMatchObject({ startsAt, finishBy });
  });

  test.each([
    ['start 7', 'not a time of day'],
    ['start 13 pm', 'not a time of day'],
    ['start 0:30 am', 'not a time of day'],
    ['start 7:30 pm\nfinish 8:30', 'am or pm is missing'],
    ['start 7:30\nfinish 8:30 pm', 'am or pm is missing'],
    ['start 7:30 pm-8:30', 'am or pm is missing'],
    ['start 19:30-19:30', 'the same as the start'],
    ['start 19:30-20', 'not a time of day'],
    ['finish 20:30\nstart 19:30-20:45', 'a second finish'],
    ['start 19:30-20:30\nfinish 20:30', 'a second finish'],
  ])('[header] a fault: %s', (lines, words) => {
    const read = parseSession(`${lines}\n50`, null);
    expect(read.ok ? [] : read.faults.map(({ message }) => message)).toEqual([expect.stringContaining(words)]);
  });

  test('[header] a setting that is badly written turns none of those behind it into a fault', () => {
    const read = parseSession('Title\nlane1 css 1:20\nfinish at 20:30\nlane 2 base 1:30\npool 25 m\nPart\n50', null);
    expect(read.ok ? [] : read.faults.map(({ line }) => line)).toEqual([2, 3]);
  });

  test('[header] `start` and `start on` are two settings, and a finish before the start is the next day', () => {
    expect(session('start 23:30\nstart on 10\nfinish 0:30\n50')).toMatchObject({
      startsAt: 1410,
      startOn: 10_000,
      finishBy: 30,
    });
  });

  test.each<[line: string, lane: object]>([
    ['lane 0', { number: 0, swimmers: 1, names: [], base: 120_000, baseFrom: 'assumed', ownGap: false }],
    ['lane 20 5 swimmers', { number: 20, swimmers: 5 }],
    ['lane 1 css 1:20, base 1:30, 1 swimmer', { css: 80_000, base: 90_000, baseFrom: 'written', swimmers: 1 }],
    ['lane 1 css 1:20', { css: 80_000, base: 95_000, baseFrom: 'css' }],
    ['lane 1 Css 88 , GAP 10', { css: 88_000, base: 105_000, gap: 10_000, ownGap: true }],
    ['lane 3 css 1:41, Ana, Bram  de  Wit, Chidi', { names: ['Ana', 'Bram de Wit', 'Chidi'], swimmers: 3 }],
    ['lane: 2 Basel, Gapsy', { number: 2, names: ['Basel', 'Gapsy'] }],
    ['lane 2, 4 swimmers', { swimmers: 4 }],
    ['lane 1 base 0:20', { base: 20_000 }],
    ['lane 1 base 10:00', { base: 600_000 }],
  ])('[lane] %s', (line, lane) => {
    expect(session(`${line}\n50 easy`).lanes).toMatchObject([lane]);
  });

  test('[lane] base from css is rounded up to the grid in force', () => {
    expect(session('lane 1 css 1:21\ngrid 1\n50').lanes[0]!.base).toBe(96_000);
    expect(session('grid 10\nlane 1 css 1:21\n50').lanes[0]!.base).toBe(100_000);
  });

  test('[lane] lanes are in order of number, not of the text', () => {
    expect(session('lane 5\nlane 0\nlane 3\n50').lanes.map((lane) => lane.number)).toEqual([0, 3, 5]);
  });
});

describe('title and parts', () => {
  test('[header] the first line of words is the title, the next the first heading', () => {
    const read = session('lane 1\nHarbour squad, 4 x a week: Thursday 25 June 19:30:\nWarm-up:\n50 easy\nEmpty\n');
    expect(read.title).toBe('Harbour squad, 4 x a week: Thursday 25 June 19:30');
    expect(read.parts).toMatchObject([
      { name: 'Warm-up', line: 3 },
      { name: 'Empty', line: 5, items: [] },
    ]);
  });

  test('[parts] sets before any heading stand in a part named after the title, or "Session"', () => {
    expect(session('Thursday:\n50 easy\nMain\n50').parts).toMatchObject([
      { name: 'Thursday', line: null },
      { name: 'Main' },
    ]);
    expect(session('50 easy\nMain\n50')).toMatchObject({
      title: null,
      parts: [
        { name: 'Session', line: null },
        { name: 'Main', line: 2 },
      ],
    });
  });

  test('[parts] sets may stand indented, each part at its own margin, headings where the first stood', () => {
    const read = session('T\n  One\n50\n  Two\n      - 50\n      50\nThree\n\t50');
    expect(read.parts.map((part) => part.items.length)).toEqual([1, 2, 1]);
    expect(read.parts[1]!.items).toMatchObject([{ column: 9 }, { column: 7 }]);
    expect(read.parts[2]!.items).toMatchObject([{ column: 5 }]);
  });

  test('[text] a byte-order mark, CR LF and tabs are accepted', () => {
    expect(session('\ufeffT\r\nOne\r\n\t50 easy\r\n\r\n\t100\r\n').parts[0]!.items).toMatchObject([
      { line: 3, column: 5, words: 'easy' },
      { line: 5, column: 5 },
    ]);
  });
});

describe('lanes file', () => {
  const FILE = '# the squad\npool 50 m\ngap 10\n\nlane 1 css 1:20, 5 swimmers\nlane 3 base 2:00, gap 7\n';

  test("[lanes file] a session's lane replaces that lane whole; its own pool and gap win", () => {
    const read = session('lane 3 css 1:30\nlane 2\npool 25 m\n50', FILE);
    expect(read.pool.length).toBe(2500);
    expect(read.lanes).toMatchObject([
      { number: 1, css: 80_000, gap: 10_000, swimmers: 5 },
      { number: 2, swimmers: 1 },
      { number: 3, css: 90_000, baseFrom: 'css', gap: 10_000, ownGap: false },
    ]);
    expect(session('gap 20\n100', FILE).lanes).toMatchObject([{ gap: 20_000 }, { gap: 7000, ownGap: true }]);
    expect(session('100', FILE)).toMatchObject({ gap: 10_000, pool: { length: 5000 } });
  });

  test('[lanes file] an empty one leaves the default lane', () => {
    expect(session('50', '# nobody\n').lanes).toHaveLength(1);
  });

  test('[lanes file] nothing but lane, pool and gap lines, and every fault at once', () => {
    const read = parseLanes('start 19:30\nlane 1 css 9:99\nlane 2 gap 61\ngap 5\ngap 6\nlanes 4\nSquad\n50\n');
    expect(read.ok || read.faults.map((fault) => fault.line)).toEqual([1, 2, 3, 5, 6, 7, 8]);
  });

  test('[lanes file] at most 20 lanes with those of the session', () => {
    const file = parseLanes(Array.from({ length: 20 }, (_, number) => `lane ${number}`).join('\n'));
    if (!file.ok) throw new Error('20 lanes are allowed');
    const read = parseSession('lane 3 css 1:20\nlane 20\n50', file.value);
    expect(read.ok || read.faults).toMatchObject([
      { line: 2, column: 1, message: expect.stringContaining('20 lanes') as string },
    ]);
  });
});
