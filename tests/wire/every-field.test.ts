/*
 * Everything that comes from outside is checked to its last field: one too many, one of another kind, or one beyond its
 * bounds, and it is refused whole.
 */

import { describe, expect, test } from 'vitest';
import { DAY } from '../../app/core/units.ts';
import { AFTERWARDS_VERSION, TOUCHES_KNOWN } from '../../app/wire/records/afterwards.ts';
import { DELETION_VERSION } from '../../app/wire/records/deletion.ts';
import { TEXT_LIMIT, TIMES_TOLD } from '../../app/wire/messages.ts';
import { SUMMARY_VERSION } from '../../app/wire/records/run-summary.ts';
import { SCREENS_VERSION } from '../../app/wire/screen-settings.ts';
import { SQUADS_VERSION } from '../../app/wire/squads.ts';
import { CHANNELS } from '../../app/wire/window-bridge.ts';
import { HASH, VERSION, SQUAD, WHOLE } from './whole-messages.ts';

/** Its fields are the core's to check, and anything may stand in it. */
const FREE = 'command';

type Path = readonly (string | number)[];

/** The paths of everything in a value, the value's own first. */
function pathsIn(value: unknown, path: Path = []): readonly Path[] {
  if (path.at(-1) === FREE || typeof value !== 'object' || value === null) return [path];
  const keys = Array.isArray(value) ? [...value.keys()] : Object.keys(value);
  return [path, ...keys.flatMap((key) => pathsIn((value as never)[key], [...path, key]))];
}

function at(value: unknown, path: Path): unknown {
  return path.reduce((part, key) => (part as never)[key], value);
}

/** The value with another in one place. */
function put(value: object, path: Path, other: unknown): unknown {
  if (path.length === 0) return other;
  const copy = structuredClone(value);
  (at(copy, path.slice(0, -1)) as Record<string | number, unknown>)[path.at(-1)!] = other;
  return copy;
}

describe.each(WHOLE)('[wire] %s', (_, schema, whole) => {
  test('is accepted as it is, and after JSON', () => {
    expect(schema.safeParse(whole)).toEqual({ success: true, data: whole });
    expect(schema.safeParse(JSON.parse(JSON.stringify(whole))).success).toBe(true);
  });

  test('is refused with one field too many in any of its objects', () => {
    for (const path of pathsIn(whole)) {
      const part = at(whole, path);
      const isObject = typeof part === 'object' && part !== null && !Array.isArray(part);
      // Where lanes are named, a name that is no lane is one too many.
      if (isObject && path.at(-1) !== FREE)
        expect(schema.safeParse(put(whole, path, { ...part, beyond: null })).success, path.join('.')).toBe(false);
    }
  });

  test('is refused with a value of another type anywhere', () => {
    for (const path of pathsIn(whole)) {
      const odd = path.at(-1) === FREE ? [] : { odd: true };
      expect(schema.safeParse(put(whole, path, odd)).success, path.join('.')).toBe(false);
    }
  });

  test('is refused with an unknown word where only certain words may stand', () => {
    for (const field of [
      'say',
      'do',
      'kind',
      'screen',
      'status',
      'clock',
      'face',
      'top',
      'pushOff',
      'laneOne',
      'light',
      'what',
      'ended',
      'unit',
      'quality',
    ]) {
      for (const path of pathsIn(whole).filter((each) => each.at(-1) === field)) {
        if (typeof at(whole, path) === 'string')
          expect(schema.safeParse(put(whole, path, 'odd')).success, path.join('.')).toBe(false);
      }
    }
  });
});

describe('[wire] bounds', () => {
  const wholeOf = (name: string) => WHOLE.find(([each]) => each === name)!;
  const takes = (name: string, path: string, value: unknown): boolean => {
    const [, schema, whole] = wholeOf(name);
    return schema.safeParse(put(whole, path.split('.'), value)).success;
  };
  const long = (length: number): string => 'x'.repeat(length);
  const LANES = Array.from({ length: 20 }, (_, index) => `lane ${index + 1}`);
  const squads = (count: number) => Array.from({ length: count }, (_, index) => ({ ...SQUAD, name: `${index}` }));

  test.each([
    ['hello', 'wall.search', long(512), long(513)],
    ['hello', 'wall.room.width', 1, 0],
    ['hello', 'wall.room.width', 20_000, 20_001],
    ['hello', 'wall.room.height', 20_000, 20_001],
    ['hello', 'wall.room.height', 1, 0.5],
    ['hello', 'version', 2, 1.5],
    ['ping', 'n', 0, -1],
    ['ping', 'n', 1, 1.5],
    ['ping', 't1', -1.5, NaN],
    ['command', 'id', long(64), long(65)],
    ['command', 'id', 'x', ''],
    ['command', 'run', long(64), long(65)],
    ['command', 'expected', { '1': null }, { '100': null }],
    ['command', 'expected', { '12': null }, { '1x': null }],
    ['command', 'expected', {}, { x1: null }],
    ['command', 'expected.1.rounds', [1, 2, 3, 4, 5, 6, 7, 8], [1, 2, 3, 4, 5, 6, 7, 8, 9]],
    ['command', 'expected.1.rounds', [], [1.5]],
    ['command', 'expected.1.line', -1, 1.5],
    ['command', 'expected.1.rep', 1, 1.5],
    ['command', 'lastStop', null, 1.5],
    ['command', 'undoes', null, {}],
    ['command', 'undoes.command', long(64), long(65)],
    ['command', 'undoes.at', 0, 1.5],
    ['command', 'madeFrom', HASH, HASH.slice(1)],
    ['command', 'madeFrom', HASH.repeat(4), `${HASH.repeat(4)}0`],
    ['command', 'madeFrom', HASH, HASH.replace('a', 'A')],
    ['command', 'command', { x: 1 }, null],
    ['commands', 'n', 0, -1],
    ['commands', 'after', 0, -1],
    ['commands', 'commands.0.at', 1, 1.5],
    ['commands', 'startUp', null, undefined],
    ['touch', 'id', long(64), long(65)],
    ['touch', 'id', 'x', ''],
    ['touch', 'run', 'x', ''],
    ['touch', 'lane', 20, 21],
    ['touch', 'lane', 0, -1],
    ['touch', 'at', 365 * DAY, 365 * DAY + 1],
    ['touch', 'at', 0, -1],
    ['touch', 'watch', DAY, DAY + 1],
    ['touch', 'watch', null, 0],
    ['touch', 'watch', 1, 1.5],
    ['times', 'times.0.watches', [1], []],
    ['times', 'run', 'x', ''],
    ['clock', 'bound', 0, -1],
    ['clock', 'bound', 30, 30.5],
    ['sound', 'n', 0, -1],
    ['sound', 'more', null, 'x'],
    ['sound, told', 'more', null, 'x'],
    ['sound, told', 'screens.0.id', null, ''],
    ['snapshot', 'n', 0, -1],
    ['snapshot', 'n', 1, 1.5],
    ['snapshot', 'run.clockPhase', 59_999, 60_000],
    ['snapshot', 'run.clockPhase', 0, -1],
    ['snapshot', 'run.openedAtTimeOfDay', 86_399_999, 86_400_000],
    ['snapshot', 'run.openedAtTimeOfDay', 0, -1],
    ['snapshot', 'run.commands.0.at', 1, 1.5],
    ['snapshot', 'poolClock', 86_400_000, 86_400_000.5],
    ['snapshot', 'poolClock', 0, -0.5],
    ['snapshot', 'run', null, undefined],
    ['snapshot', 'startUp', null, undefined],
    ['snapshot', 'startUp.run', null, undefined],
    ['text', 'lanesText', null, undefined],
    ['answer', 'at', null, undefined],
    ['answer', 'why', null, undefined],
    ['a session to open', 'clockPhase', 59_999, 60_000],
    ['a session to open', 'clockPhase', undefined, -1],
    ['a session to open', 'clockPhase', 0, 0.5],
    ['a session to open', 'lanesText', null, 1],
    ['a run to leave', 'run', long(64), long(65)],
    ['a run to leave', 'run', 'x', ''],
    ['a clock to match', 'clockPhase', 59_999, 60_000],
    ['a clock to match', 'clockPhase', null, -1],
    ['list', 'find', long(200), long(201)],
    ['list', 'most', 1000, 1001],
    ['list', 'most', 1, 0],
    ['list', 'most', 2, 1.5],
    ['read', 'name', long(255), long(256)],
    ['read', 'name', 'x', ''],
    ['look', 'version', VERSION, `${VERSION}0`],
    ['look', 'version', VERSION, `0${VERSION}`],
    ['look', 'version', VERSION, VERSION.slice(1)],
    ['look', 'version', VERSION, VERSION.replace('a', 'g')],
    ['create', 'name', long(1000), long(1001)],
    ['create', 'name', '', null],
    ['create', 'text', long(TEXT_LIMIT), long(TEXT_LIMIT + 1)],
    ['save', 'over', undefined, null],
    ['save', 'text', long(TEXT_LIMIT), long(TEXT_LIMIT + 1)],
    ['rename', 'near', undefined, null],
    ['rename', 'to', long(1000), long(1001)],
    ['put back', 'id', long(600), long(601)],
    ['put back', 'id', 'x', ''],
    ['the file of screens', 'version', SCREENS_VERSION, SCREENS_VERSION + 1],
    ['what is added afterwards', 'version', AFTERWARDS_VERSION, AFTERWARDS_VERSION + 1],
    ['what is added afterwards', 'version', 1, 0],
    ['what is added afterwards', 'run', long(64), long(65)],
    ['what is added afterwards', 'touches', undefined, null],
    ['what is added afterwards', 'touches.0', long(64), long(65)],
    ['what is added afterwards', 'marks.0.command', 1_000_000, 1_000_001],
    ['what is added afterwards', 'marks.0.command', 0, -1],
    ['what is added afterwards', 'marks.0.words', long(200), long(201)],
    ['what is added afterwards', 'notes.0', long(2000), long(2001)],
    ['what is added afterwards', 'notes', new Array(100).fill('x'), new Array(101).fill('x')],
    ['what is added afterwards', 'attendance', null, undefined],
    ['what is added afterwards', 'attendance.0.lane', 20, 21],
    ['what is added afterwards', 'attendance.0.lane', 0, -1],
    ['what is added afterwards', 'attendance.0.swimmers', 100, 101],
    ['what is added afterwards', 'attendance.0.swimmers', 0, -1],
    ['what is added afterwards', 'attendance.0.names', null, undefined],
    ['what is added afterwards', 'attendance.0.names.0', long(100), long(101)],
    ['what is added afterwards', 'attendance.0.names', new Array(100).fill('x'), new Array(101).fill('x')],
    ['what is added afterwards', 'effort', 10, 11],
    ['what is added afterwards', 'effort', null, -1],
    ['what is added afterwards', 'times.0.at', 365 * DAY, 365 * DAY + 1],
    ['what is added afterwards', 'times.0.at', 0, -1],
    ['what is added afterwards', 'times.0.watches', [1], []],
    ['what is added afterwards', 'times.0.watches', [1, 2, 3], [1, 2, 3, 4]],
    ['what is added afterwards', 'times.0.watches.0', DAY, DAY + 1],
    ['what is added afterwards', 'times.0.watches.0', 1, 0],
    ['a squad to keep', 'squad.name', long(40), long(41)],
    ['a squad to keep', 'squad.name', 'Harbour', ' Harbour'],
    ['a squad to keep', 'squad.lanes', LANES, [...LANES, 'lane 0']],
    ['a squad to keep', 'squad.lanes.0', `lane 1 ${long(40)}`, `lane 1${' '.repeat(500)}`],
    ['a squad to keep', 'squad.lanes', ['lane 1'], []],
    ['a squad to rename', 'to', 'x', ''],
    ['the file of squads', 'version', SQUADS_VERSION, SQUADS_VERSION + 1],
    ['the file of squads', 'squads.1.name', 'Juniors', 'HARBOUR'],
    ['the file of squads', 'squads', squads(100), squads(101)],
    ['history', 'find', long(200), long(201)],
    ['history', 'most', 10_000, 10_001],
    ['history', 'most', 1, 0],
    ['history', 'most', 2, 1.5],
    ['history', 'from', null, undefined],
    ['history', 'from', '1999-12-31', '3000-01-01'],
    ['history', 'to', '2026-11-30', 'x2026-11-30'],
    ['history', 'to', '2026-11-30', '2026-11-30x'],
    ['history', 'to', '2026-11-30', '2026-1-30'],
    ['history', 'to', '2026-11-30', '2026-11-3'],
    ['history', 'to', '2026-11-30', '202-11-30'],
    ['history', 'to', '2026-11-30', '2026-1a-30'],
    ['history', 'to', '2026-11-30', '2026-11-3a'],
    ['history', 'to', '2026-11-30', '202a-11-30'],
    ['review', 'run', long(64), long(65)],
    ['review', 'run', 'x', ''],
    ['keep', 'version', null, undefined],
    ['keep', 'version', VERSION, `${VERSION}0`],
    ['keep', 'version', VERSION, `0${VERSION}`],
    ['keep', 'version', VERSION, VERSION.replace('a', 'g')],
    ['a name to delete', 'name', long(100), long(101)],
    ['a name to delete', 'name', 'x', ''],
    ['a deletion of runs', 'version', DELETION_VERSION, DELETION_VERSION + 1],
    ['a deletion of runs', 'delete.stems.0', 'x', ''],
    ['a deletion of runs', 'delete.stems.0', 'a.b', 'a/b'],
    ['a deletion of runs', 'delete.stems.0', 'a.b', '/b'],
    ['a deletion of runs', 'delete.stems.0', 'a.b', 'a\\'],
    ['the summary of a run', 'version', SUMMARY_VERSION, SUMMARY_VERSION + 1],
    ['the summary of a run', 'run', null, undefined],
    ['the summary of a run', 'isStarted', false, null],
    ['the summary of a run', 'after', null, undefined],
    ['the summary of a run', 'run.effort', null, 0.5],
    ['the summary of a run', 'run.load', null, 0.5],
    ['the summary of a run', 'run.ended', 'left', 'not begun'],
    ['the summary of a run', 'run.ended', 'replaced', 'going'],
    ['the summary of a run', 'run.ended', 'unattended', ''],
    ['the summary of a run', 'run.unit', 'yd', 'ft'],
    ['the summary of a run', 'run.openedAt', '2026-11-26T19:30:00', '2026-11-26T19:30:00Z'],
    ['the summary of a run', 'run.openedAt', '2026-11-26T19:30:00', 'x2026-11-26T19:30:00'],
    ['the summary of a run', 'run.css.0.caution', null, undefined],
  ])('%s, %s: the last value that is accepted, and the first that is not', (name, path, last, beyond) => {
    expect([takes(name, path, last), takes(name, path, beyond)]).toEqual([true, false]);
  });

  test('lists that are kept on disk are bounded too', () => {
    const mark = { command: 0, words: '' };
    const time = { lane: 1, at: 0, watches: [1] };
    const there = { lane: 1, swimmers: 1, names: null };
    const bounds = [
      ['marks', mark, 10_000],
      ['attendance', there, 20],
      ['times', time, 100_000],
      ['touches', 'a', TOUCHES_KNOWN],
    ] as const;
    for (const [path, item, most] of bounds) {
      expect(takes('what is added afterwards', path, new Array(most).fill(item)), path).toBe(true);
      expect(takes('what is added afterwards', path, new Array(most + 1).fill(item)), path).toBe(false);
    }
    expect(takes('times', 'times', new Array(TIMES_TOLD).fill(time))).toBe(true);
    expect(takes('times', 'times', new Array(TIMES_TOLD + 1).fill(time))).toBe(false);
  });
});

test('[wire] each channel of the windows has its own name, with ours in front', () => {
  const names = Object.values(CHANNELS);
  expect(new Set(names).size).toBe(names.length);
  for (const name of names) expect(name).toMatch(/^(deck|window):[a-z-]+$/);
});
