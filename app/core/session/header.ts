/*
 * Gathers the settings of a session or a lanes file line by line, each at most once.
 */

import type { Millis } from '../units.ts';
import { SECOND } from '../units.ts';
import type { Lane, Session } from './session.ts';
import { isFlaw, type Flaw, type FaultList } from './values/flaw.ts';
import { plainLane, readLane, wholeLane, type WrittenLane } from './line/lane-line.ts';
import type { Line } from './text/lines.ts';
import {
  readBetween,
  readPool,
  readSeconds,
  type PoolSetting,
  type SettingLine,
  type SettingWord,
} from './line/setting-line.ts';
import { halfFlaw, readStart, readTimeOfDay, type TimeOfDay } from './values/time-of-day.ts';

/** Settings as written; null for those that the text does not have. */
export interface Header {
  pool: PoolSetting | null;
  start: SessionTime | null;
  finish: SessionTime | null;
  gap: Millis | null;
  between: { readonly time: Millis; readonly auto: boolean } | null;
  startOn: Millis | null;
  grid: Millis | null;
  /** By number; null for a lane whose line has a fault. */
  readonly lanes: Map<number, WrittenLane | null>;
  /** Names of the settings so far. */
  readonly seen: Set<string>;
}

/** The start or the finish with the line it stands on; `at`: index of its value there. */
export interface SessionTime extends TimeOfDay {
  readonly line: Line;
  readonly at: number;
}

/** What a lanes file says. */
export interface LanesFile {
  readonly pool: PoolSetting | null;
  readonly gap: Millis | null;
  readonly lanes: readonly WrittenLane[];
}

export const DEFAULT_POOL: PoolSetting = { length: 2500, unit: 'm' };
export const DEFAULT_GAP: Millis = 5 * SECOND;
export const DEFAULT_GRID: Millis = 5 * SECOND;
export const DEFAULT_START_ON: Millis = 5 * SECOND;
export const DEFAULT_BETWEEN = { time: 60 * SECOND, auto: false };

const MOST_LANES = 20;
const LEAST_GAP = 1;
const MOST_GAP = 60;
const STARTS_ON = [1, 5, 10, 15, 30, 60];
const GRIDS = [1, 5, 10];

export function emptyHeader(): Header {
  return {
    pool: null,
    start: null,
    finish: null,
    gap: null,
    between: null,
    startOn: null,
    grid: null,
    lanes: new Map<number, WrittenLane | null>(),
    seen: new Set<string>(),
  };
}

/** Adds a setting to the header, or its fault to the list. `fileLanes`: the lane numbers of a lanes file. */
export function takeSetting(
  header: Header,
  line: Line,
  setting: SettingLine,
  faults: FaultList,
  fileLanes: readonly number[],
): void {
  const lanesBefore = header.lanes.size;
  const flaw = setting.flaw ?? readSetting(header, line, setting, fileLanes);
  if (!flaw) return;
  faults.add(line, flaw);
  // A faulty lane whose number is known still counts as a lane; without a number, no list of lanes can be checked.
  if (header.lanes.size === lanesBefore) doubtWhatItSets(setting.word, faults);
}

/** Records that nothing can be checked against what a faulty setting line sets. */
export function doubtWhatItSets(word: SettingWord, faults: FaultList): void {
  if (word === 'pool') faults.doubt('pool');
  if (word === 'lane' || word === 'lanes') faults.doubt('lanes');
}

/** What the settings come to, with those of a lanes file and the usual ones for what is not set. */
export function settingsInForce(
  header: Header,
  file: LanesFile | null,
): Omit<Session, 'title' | 'lanes' | 'parts' | 'notes'> {
  return {
    pool: header.pool ?? file?.pool ?? DEFAULT_POOL,
    startsAt: header.start?.minute ?? null,
    finishBy: header.finish?.minute ?? null,
    finishLine: header.finish?.line.number ?? null,
    between: header.between ?? DEFAULT_BETWEEN,
    startOn: header.startOn ?? DEFAULT_START_ON,
    grid: header.grid ?? DEFAULT_GRID,
    gap: header.gap ?? file?.gap ?? DEFAULT_GAP,
  };
}

/** Lanes in order of number; `isValid` is false for a lane whose line has a fault. */
export function lanesInForce(
  header: Header,
  file: LanesFile | null,
): { readonly lane: Lane; readonly isValid: boolean }[] {
  const written = new Map<number, WrittenLane | null>();
  for (const lane of file?.lanes ?? []) written.set(lane.number, lane);
  for (const [number, lane] of header.lanes) written.set(number, lane);
  if (written.size === 0) written.set(1, plainLane(1));
  const gap = header.gap ?? file?.gap ?? DEFAULT_GAP;
  const grid = header.grid ?? DEFAULT_GRID;
  return Array.from(written)
    .sort(([a], [b]) => a - b)
    .map(([number, lane]) => ({ lane: wholeLane(lane ?? plainLane(number), gap, grid), isValid: lane !== null }));
}

function readSetting(header: Header, line: Line, setting: SettingLine, fileLanes: readonly number[]): Flaw | null {
  const { text } = line;
  const on = setting.word === 'start' ? /^on(?![\p{L}\p{N}-])\s*/iu.exec(text.slice(setting.value)) : null;
  if (setting.word === 'lane') return takeLane(header, text, setting.value, fileLanes);
  const name = on ? 'start on' : setting.word;
  if (header.seen.has(name)) return { at: 0, message: `a second ${name}: write it only once` };
  header.seen.add(name);
  const at = Math.min(setting.value + (on?.[0].length ?? 0), text.length);
  const flaw = readValue(header, line, name, at);
  return flaw ? { ...flaw, at: Math.min(flaw.at, text.length - 1) } : null;
}

function readValue(header: Header, line: Line, name: string, at: number): Flaw | null {
  const { text } = line;
  switch (name) {
    case 'pool':
      return take(readPool(text, at), (pool) => (header.pool = pool));
    case 'start':
      return takeStart(header, line, at);
    case 'finish':
      return take(readTimeOfDay(text, at), (time) => (header.finish = { ...time, line, at }));
    case 'gap':
      return take(readSeconds(text, at, name, { from: LEAST_GAP, to: MOST_GAP }), ({ ms }) => (header.gap = ms));
    case 'between':
      return take(readBetween(text, at), (between) => (header.between = between));
    case 'start on':
      return take(readSeconds(text, at, name, STARTS_ON), ({ ms }) => (header.startOn = ms));
    default:
      return take(readSeconds(text, at, name, GRIDS), ({ ms }) => (header.grid = ms));
  }
}

/** The start, and the finish too where both stand on its line. */
function takeStart(header: Header, line: Line, at: number): Flaw | null {
  const read = readStart(line.text, at);
  if (isFlaw(read)) return read;
  header.start = { ...read.start, line, at };
  if (!read.finish) return null;
  if (header.seen.has('finish')) return { at: 0, message: 'a second finish: it stands at most once' };
  header.seen.add('finish');
  header.finish = { ...read.finish, line, at };
  return null;
}

/** Finds what start and finish have wrong with each other, once all settings are read. */
export function judgeTimes({ start, finish }: Header, faults: FaultList): void {
  if (!start || !finish) return;
  if (start.half !== finish.half) {
    const plain = start.half ? finish : start;
    const flaw = halfFlaw(plain, plain.at);
    if (flaw) faults.add(plain.line, flaw);
  }
  if (start.minute === finish.minute) {
    const message = 'the finish is the same as the start: write a later finish';
    faults.add(finish.line, { at: finish.at, message });
  }
}

function take<Value extends object>(read: Value | Flaw, keep: (value: Value) => void): Flaw | null {
  if (isFlaw(read)) return read;
  keep(read);
  return null;
}

function takeLane(header: Header, text: string, value: number, fileLanes: readonly number[]): Flaw | null {
  const { number, lane } = readLane(text, value);
  if (number === null) return lane as Flaw;
  if (header.lanes.has(number))
    return { at: value, message: `a second line for lane ${number}: write one line for each lane` };
  header.lanes.set(number, isFlaw(lane) ? null : lane);
  const added = Array.from(header.lanes.keys()).filter((own) => !fileLanes.includes(own));
  if (fileLanes.length + added.length > MOST_LANES && !fileLanes.includes(number)) {
    return { at: 0, message: `more than ${MOST_LANES} lanes: a session can have ${MOST_LANES} at most` };
  }
  return isFlaw(lane) ? lane : null;
}
