/*
 * The lines before the first part: settings in any order, the title and the session's notes; some of
 * the settings in a lanes file instead.
 */

import type { Random } from '../invent/random.ts';
import type { Scenario, ScenarioLane, ScenarioNote } from '../scenario.ts';
import { writeStartAndFinish } from './write-clock.ts';
import { writeItem } from './write-line.ts';
import { decimal, writeTime } from './write-time.ts';

export interface WrittenHeader {
  readonly header: string[];
  readonly finishLine: number | null;
  readonly lanesText: string | null;
}

interface HeaderLine {
  readonly text: string;
  readonly isFinish?: boolean;
  readonly note?: ScenarioNote;
}

/** The session's notes learn here which line they stand on. */
export function writeHeader(scenario: Scenario, random: Random): WrittenHeader {
  const settings = settingLines(scenario, random);
  const inFile = random.chance(0.15)
    ? settings.filter(({ text }) => /^(lane|pool|gap)\b/.test(text) && random.chance(0.5))
    : [];
  const lines = random.chance(0.6) ? settings : random.shuffled(settings);
  const own = lines.filter((line) => !inFile.includes(line));
  if (scenario.title !== null) {
    const place = random.chance(0.8) ? 0 : random.whole(0, own.length);
    own.splice(place, 0, { text: scenario.title + (random.chance(0.1) ? ':' : '') });
  }
  // A note ends nothing here. The first of them stands first, as in the scenario.
  let place = random.whole(0, own.length);
  for (const note of scenario.notes) {
    own.splice(place, 0, { text: writeItem(note, scenario, random), note });
    place = random.whole(place + 1, own.length);
  }
  return { ...putDown(own, scenario, random), lanesText: writeLanesFile(inFile, scenario, random) };
}

function putDown(lines: readonly HeaderLine[], scenario: Scenario, random: Random): Omit<WrittenHeader, 'lanesText'> {
  const header: string[] = [];
  let finishLine: number | null = null;
  for (const { text, isFinish, note } of lines) {
    if (random.chance(0.05)) header.push('# as agreed');
    const isTitle = scenario.title !== null && text.startsWith(scenario.title);
    const indent = note && random.chance(0.4) ? '      ' : isTitle || random.chance(0.95) ? '' : '  ';
    const number = header.push(indent + text);
    if (isFinish) finishLine = number;
    if (note) note.line = number;
  }
  if (random.chance(0.7)) header.push('');
  return { header, finishLine };
}

function writeLanesFile(inFile: readonly HeaderLine[], scenario: Scenario, random: Random): string | null {
  if (inFile.length === 0) return null;
  const lines = [...inFile.map(({ text }) => text), ...decoys(scenario, inFile, random)];
  return `# lanes of the pool\n${lines.join('\n')}\n`;
}

/** Lanes of the lanes file that the session replaces with its own. */
function decoys(scenario: Scenario, inFile: readonly HeaderLine[], random: Random): string[] {
  const replaced = scenario.lanes.filter(
    (lane) => !inFile.some(({ text }) => new RegExp(`^lane ${lane.number}\\b`).test(text)),
  );
  // A default lane is written nowhere, so nothing of the session would replace its decoy.
  if (isDefault(scenario.lanes) || !random.chance(0.5)) return [];
  return replaced.slice(0, 1).map((lane) => `lane ${lane.number} base 3:10, 9 swimmers, gap 7`);
}

function settingLines(scenario: Scenario, random: Random): HeaderLine[] {
  const { pool, gap, between, startOn, grid, lanes } = scenario;
  const colon = (): string => (random.chance(0.1) ? ':' : '');
  const unlessUsual = (isUsual: boolean, text: string): HeaderLine[] =>
    isUsual && random.chance(0.6) ? [] : [{ text }];
  const length = decimal(pool.hundredths, 100) + (random.chance(0.3) ? '' : ' ') + pool.unit;
  const times = writeStartAndFinish(scenario.start, scenario.finish, random);
  return [
    ...unlessUsual(pool.hundredths === 2500 && pool.unit === 'm', `pool${colon()} ${length}`),
    ...times.map(({ word, text, isFinish }) => ({ text: `${word}${colon()} ${text}`, isFinish })),
    ...unlessUsual(gap === 5, `gap${colon()} ${gap}`),
    ...unlessUsual(
      between.ms === 60_000 && !between.auto,
      `between${between.auto ? ' auto' : ''} ${writeTime(between.ms, random, 'before words')}`,
    ),
    ...unlessUsual(startOn === 5, `start on ${startOn}`),
    ...unlessUsual(grid === 5, `grid${colon()} ${grid}`),
    ...(isDefault(lanes) ? [] : random.shuffled(lanes).map((lane) => ({ text: laneLine(lane, random) }))),
  ];
}

function isDefault(lanes: readonly ScenarioLane[]): boolean {
  const [only] = lanes;
  if (!only || lanes.length > 1) return false;
  return (
    only.number === 1 &&
    only.swimmers === 1 &&
    only.names.length === 0 &&
    [only.base, only.css, only.gap].every((value) => value === null)
  );
}

function laneLine(lane: ScenarioLane, random: Random): string {
  const swimmers =
    lane.names.length > 0 ? lane.names.join(', ') : `${lane.swimmers} swimmer${lane.swimmers === 1 ? '' : 's'}`;
  const clauses = [
    ...(lane.base === null ? [] : [`base ${writeTime(lane.base, random, 'value')}`]),
    ...(lane.css === null ? [] : [`css ${writeTime(lane.css, random, 'value')}`]),
    ...(lane.gap === null ? [] : [`gap ${lane.gap}`]),
    ...(lane.names.length === 0 && lane.swimmers === 1 && random.chance(0.6) ? [] : [swimmers]),
  ];
  const list = random.shuffled(clauses).join(random.chance(0.9) ? ', ' : ',');
  // With a colon and nothing behind it, the line would be for what stands under it.
  return list === '' ? `lane ${lane.number}` : `lane ${lane.number}${random.chance(0.1) ? ':' : ''} ${list}`;
}
