/*
 * A scenario put down as session text: headings, indents, bullets, comments, blank lines, settings
 * in any order. Each item learns here which line it stands on.
 */

import type { Random } from './random.ts';
import type { Scenario, ScenarioItem, ScenarioLane, ScenarioPart, WrittenScenario } from './scenario.ts';
import { decimal, writeItem, writeTime } from './write-line.ts';

/** Writes the session; the lines of its items are set by this. */
export function writeSession(scenario: Scenario, random: Random): WrittenScenario {
  const { header, finishLine, lanesText } = writeHeader(scenario, random);
  return {
    scenario,
    header,
    finishLine,
    lanesText,
    parts: writeParts(scenario, scenario.parts, header.length, random),
    lineEnd: random.chance(0.15) ? '\r\n' : '\n',
    byteOrderMark: random.chance(0.1),
  };
}

/** The text of parts that begin after so many lines, one list of lines a part. */
export function writeParts(
  scenario: Scenario,
  parts: readonly ScenarioPart[],
  linesBefore: number,
  random: Random,
): string[][] {
  let line = linesBefore;
  return parts.map((part) => {
    const lines = writePart(part, scenario, line, random);
    line += lines.length;
    return lines;
  });
}

function writePart(part: ScenarioPart, scenario: Scenario, linesBefore: number, random: Random): string[] {
  const lines: string[] = [];
  const put = (text: string): number => lines.push(text) + linesBefore;
  if (part.heading !== null) put(part.heading + (random.chance(0.15) ? ':' : ''));
  const margin = part.heading === null ? '' : random.pick(['', '', '  ', '\t']);
  lines.push(...writeItems(part.items, scenario, linesBefore + lines.length, margin, random));
  if (random.chance(0.6)) put('');
  return lines;
}

/** The lines of items that stand at a margin, after so many lines. */
export function writeItems(
  items: readonly ScenarioItem[],
  scenario: Scenario,
  linesBefore: number,
  margin: string,
  random: Random,
): string[] {
  const lines: string[] = [];
  const put = (text: string): number => lines.push(text) + linesBefore;
  const bullet = random.chance(0.2) ? random.pick(['- ', '\u2022 ', 'a) ', '1) ']) : '';

  const putItems = (some: readonly ScenarioItem[], indent: string): void => {
    for (const item of some) {
      if (lines.length > 0 && random.chance(0.1)) put(random.pick(['', '# fins ready', '   ']));
      const comment = random.chance(0.06) ? random.pick([' # watch the turns', ' #']) : '';
      item.line = put(
        indent + bullet + writeItem(item, scenario, random) + comment + (random.chance(0.03) ? '  ' : ''),
      );
      if (item.kind !== 'rounds') continue;
      if (item.oneLine) for (const only of item.items) only.line = item.line;
      else putItems(item.items, indent + random.pick(['  ', '  ', '    ', ' ', '\t']));
    }
  };
  putItems(items, margin);
  return lines;
}

function writeHeader(
  scenario: Scenario,
  random: Random,
): { header: string[]; finishLine: number | null; lanesText: string | null } {
  const settings = settingLines(scenario, random);
  const inFile = random.chance(0.15)
    ? settings.filter((line) => /^(lane|pool|gap)\b/.test(line) && random.chance(0.5))
    : [];
  const lines = random.chance(0.6) ? settings : random.shuffled(settings);
  const own = lines.filter((line) => !inFile.includes(line));
  if (scenario.title !== null) {
    own.splice(
      random.chance(0.8) ? 0 : random.whole(0, own.length),
      0,
      scenario.title + (random.chance(0.1) ? ':' : ''),
    );
  }
  const header = own.flatMap((line) => {
    const indented = line !== scenario.title && random.chance(0.05) ? `  ${line}` : line;
    return random.chance(0.05) ? ['# as agreed', indented] : [indented];
  });
  if (random.chance(0.7)) header.push('');
  const finish = header.findIndex((line) => /^\s*finish/.test(line));
  return {
    header,
    finishLine: finish < 0 ? null : finish + 1,
    lanesText:
      inFile.length === 0
        ? null
        : `# lanes of the pool\n${[...inFile, ...decoys(scenario, inFile, random)].join('\n')}\n`,
  };
}

/** Lanes of the lanes file that the session replaces with its own. */
function decoys(scenario: Scenario, inFile: readonly string[], random: Random): string[] {
  const replaced = scenario.lanes.filter(
    (lane) => !inFile.some((line) => new RegExp(`^lane ${lane.number}\\b`).test(line)),
  );
  // A default lane is written nowhere, so nothing of the session would replace its decoy.
  if (isDefault(scenario.lanes) || !random.chance(0.5)) return [];
  return replaced.slice(0, 1).map((lane) => `lane ${lane.number} base 3:10, 9 swimmers, gap 7`);
}

function settingLines(scenario: Scenario, random: Random): string[] {
  const { pool, start, finish, gap, between, startOn, grid, lanes } = scenario;
  const colon = (): string => (random.chance(0.1) ? ':' : '');
  const unlessUsual = (isUsual: boolean, line: string): string[] => (isUsual && random.chance(0.6) ? [] : [line]);
  const length = decimal(pool.hundredths, 100) + (random.chance(0.3) ? '' : ' ') + pool.unit;
  return [
    ...unlessUsual(pool.hundredths === 2500 && pool.unit === 'm', `pool${colon()} ${length}`),
    ...(start === null ? [] : [`start${colon()} ${clock(start, random)}`]),
    ...(finish === null ? [] : [`finish${colon()} ${clock(finish, random)}`]),
    ...unlessUsual(gap === 5, `gap${colon()} ${gap}`),
    ...unlessUsual(
      between.ms === 60_000 && !between.auto,
      `between${between.auto ? ' auto' : ''} ${writeTime(between.ms, random, 'colon')}`,
    ),
    ...unlessUsual(startOn === 5, `start on ${startOn}`),
    ...unlessUsual(grid === 5, `grid${colon()} ${grid}`),
    ...(isDefault(lanes) ? [] : random.shuffled(lanes).map((lane) => laneLine(lane, random))),
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
    ...(lane.base === null ? [] : [`base ${writeTime(lane.base, random, 'bare')}`]),
    ...(lane.css === null ? [] : [`css ${writeTime(lane.css, random, 'bare')}`]),
    ...(lane.gap === null ? [] : [`gap ${lane.gap}`]),
    ...(lane.names.length === 0 && lane.swimmers === 1 && random.chance(0.6) ? [] : [swimmers]),
  ];
  const list = random.shuffled(clauses).join(random.chance(0.9) ? ', ' : ',');
  return list === '' ? `lane ${lane.number}` : `lane ${lane.number} ${list}`;
}

function clock(minutes: number, random: Random): string {
  const hours = Math.floor(minutes / 60);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${random.chance(0.8) ? two(hours) : hours}:${two(minutes % 60)}`;
}
