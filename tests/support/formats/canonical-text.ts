/*
 * A session to its canonical text: settings that differ from the default, every lane, every part,
 * one spelling for each thing. Read again it is the same session but for lines and columns; the
 * coach's comments and layout are not kept. Written are the forms that the tests invent: no lines of some lanes, no
 * reps that differ, no notes.
 */

import type { LengthUnit, Millis, Tenths } from '../../../app/core/units.ts';
import { SECOND } from '../../../app/core/units.ts';
import { distanceText } from '../../../app/core/words/distance.ts';
import { DEFAULT_BETWEEN, DEFAULT_GAP, DEFAULT_GRID, DEFAULT_START_ON } from '../../../app/core/session/header.ts';
import type {
  Hold,
  Interval,
  Item,
  Lane,
  Rounds,
  Session,
  SwimSet,
  TimedBlock,
  Timing,
} from '../../../app/core/session/session.ts';
import { reading } from '../../../app/core/words/time/reading.ts';

/** Spaces by which the lines under rounds are indented. */
const STEP = '  ';

/** Words that a number before them would draw to itself: units, `x`, `of`, `rounds`. */
const DRAWN = /^(?:m|y|yd|yds|yards?|metres?|meters?|s|sec|min|x|of|rounds?|times)(?![\p{L}\p{N}])/iu;
const BULLET_LIKE = /^\p{L}\)/u;

export function writeSession(session: Session): string {
  const lines = writeHeader(session);
  session.parts.forEach((part) => {
    if (part.line !== null || lines.length > 0) lines.push('');
    if (part.line !== null) lines.push(writeName(part.name));
    for (const item of part.items) writeItem(item, '', session, lines);
  });
  return `${lines.join('\n')}\n`;
}

function writeHeader(session: Session): string[] {
  const { title, pool, startsAt, finishBy, between, startOn, grid, gap, lanes } = session;
  const lines: string[] = [];
  if (title !== null) lines.push(writeName(title));
  lines.push(`pool ${pool.length / 100} ${pool.unit}`);
  if (startsAt !== null) lines.push(`start ${timeOfDay(startsAt)}`);
  if (finishBy !== null) lines.push(`finish ${timeOfDay(finishBy)}`);
  if (gap !== DEFAULT_GAP) lines.push(`gap ${gap / SECOND}`);
  if (between.auto || between.time !== DEFAULT_BETWEEN.time) {
    lines.push(`between ${between.auto ? 'auto ' : ''}${reading(between.time)}`);
  }
  if (startOn !== DEFAULT_START_ON) lines.push(`start on ${startOn / SECOND}`);
  if (grid !== DEFAULT_GRID) lines.push(`grid ${grid / SECOND}`);
  for (const lane of lanes) lines.push(writeLane(lane));
  return lines;
}

function writeLane(lane: Lane): string {
  const items: string[] = [];
  if (lane.css !== null) items.push(`css ${reading(lane.css)}`);
  if (lane.baseFrom === 'written') items.push(`base ${reading(lane.base)}`);
  if (lane.names.length > 0) items.push(...lane.names);
  else if (lane.swimmers !== 1) items.push(`${lane.swimmers} swimmers`);
  if (lane.ownGap) items.push(`gap ${lane.gap / SECOND}`);
  return `lane ${lane.number} ${items.join(', ')}`.trim();
}

/** A title or heading, guarded where its end or beginning would be dropped. */
function writeName(name: string): string {
  const guarded = /[:#]$/.test(name) ? `${name}:` : name;
  return BULLET_LIKE.test(guarded) ? `- ${guarded}` : guarded;
}

function writeItem(item: Item, indent: string, session: Session, lines: string[]): void {
  const { unit, length } = session.pool;
  const pool = { unit, length };
  switch (item.kind) {
    case 'rounds':
      writeRounds(item, indent, session, lines);
      return;
    case 'lanes':
      throw new Error('lines of some lanes are not written');
    case 'set':
      lines.push(indent + writeSet(item, pool));
      return;
    case 'block':
      lines.push(`${indent}${reading(item.time)} of ${distances(item, pool)}${writeRest(item)}`);
      return;
    case 'timed-swim':
      lines.push(indent + reading(item.time) + behind(item.words));
      return;
    case 'talk':
    case 'break':
      lines.push(`${indent}${item.kind} ${reading(item.time)}${behind(item.words)}`);
  }
}

function writeRounds(rounds: Rounds, indent: string, session: Session, lines: string[]): void {
  const [only] = rounds.items;
  // `3 x 4 x 50` is one line, and is cut as one.
  if (only && only.kind === 'set' && only.line === rounds.line) {
    lines.push(`${indent}${rounds.times} x ${writeSet(only, session.pool, true)}`);
    return;
  }
  lines.push(`${indent}${rounds.times} rounds`);
  for (const item of rounds.items) writeItem(item, indent + STEP, session, lines);
}

interface Pool {
  readonly length: number;
  readonly unit: LengthUnit;
}

function writeSet(set: SwimSet, pool: Pool, counted = false): string {
  if (set.reps.kind === 'ladder') {
    return set.reps.distances.map((distance) => distanceIn(distance, pool)).join('-') + writeRest(set);
  }
  const counts = list(set.reps.counts.map(String));
  return (counts === '1' && !counted ? '' : `${counts} x `) + distances(set.reps, pool) + writeRest(set);
}

/** What stands behind the distance. */
function writeRest(set: SwimSet | TimedBlock): string {
  const timing = writeTiming(set.timing);
  const hold = set.hold === null ? '' : ` hold ${list(set.hold.map(writeHold))}`;
  return behind(set.words) + timing + hold;
}

/** Words behind a number, with a comma where they or a `#` at an end of them would be read as something else. */
function behind(words: string): string {
  if (words === '') return '';
  const end = words.endsWith('#') ? ',' : '';
  if (words.startsWith('#')) return ` ,${words}${end}`;
  return (DRAWN.test(words) || !/^\p{L}/u.test(words) ? ', ' : ' ') + words + end;
}

function writeTiming(timing: Timing): string {
  if (timing.kind === 'untimed') return '';
  if (timing.kind === 'rest') return ` rest ${list(timing.lanes.map(reading))}`;
  const step = timing.step === 0 ? '' : ` ${timing.step < 0 ? 'drop' : 'add'} ${reading(Math.abs(timing.step))}`;
  return ` @ ${list(timing.lanes.map(writeInterval))}${step}`;
}

function writeInterval(interval: Interval): string {
  return interval.kind === 'time' ? reading(interval.time) : `${interval.kind}${signed(interval.plus)}`;
}

function writeHold(hold: Hold): string {
  return hold.kind === 'time' ? reading(hold.time) : `css${signed(hold.plus)}`;
}

function signed(plus: Millis): string {
  if (plus === 0) return '';
  return `${plus < 0 ? '-' : '+'}${reading(Math.abs(plus))}`;
}

function distances(of: { readonly distances: readonly Tenths[]; readonly listed: boolean }, pool: Pool): string {
  const written = of.distances.map((distance) => distanceIn(distance, pool));
  return of.listed ? written.join('/') : written[0]!;
}

/** With its unit only where the distance is below one length and would be taken for a count. */
function distanceIn(distance: Tenths, pool: Pool): string {
  return distanceText(distance) + (distance * 10 < pool.length ? pool.unit : '');
}

/** One value where all lanes have the same. */
function list(values: readonly string[]): string {
  return values.every((value) => value === values[0]) ? values[0]! : values.join('/');
}

function timeOfDay(minute: number): string {
  return `${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`;
}
