/*
 * A scenario put down as session text: headings, indents, bullets, comments, blank lines. Each item
 * learns here which line it stands on.
 */

import type { Random } from '../invent/random.ts';
import { endsWithLanes } from '../pieces.ts';
import {
  hasItems,
  isNote,
  type Scenario,
  type ScenarioItem,
  type ScenarioPart,
  type WrittenScenario,
} from '../scenario.ts';
import { writeHeader } from './write-header.ts';
import { writeItem } from './write-line.ts';

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
    let above: ScenarioItem | null = null;
    for (const item of some) {
      if (lines.length > 0 && random.chance(0.1)) put(random.pick(['', '# fins ready', '   ']));
      const comment = random.chance(0.06) ? random.pick([' # watch the turns', ' #']) : '';
      // A note may stand as deep as it likes, but not under lines for some lanes.
      const isDeep = isNote(item) && (above === null || !endsWithLanes(above)) && random.chance(0.3);
      const own = isDeep ? indent + random.pick(['  ', '\t', '      ']) : indent;
      const line = put(own + bullet + writeItem(item, scenario, random) + comment + (random.chance(0.03) ? '  ' : ''));
      const under = numbered(item, line);
      if (under.length > 0) putItems(under, indent + random.pick(['  ', '  ', '    ', ' ', '\t']));
      if (!isNote(item)) above = item;
    }
  };
  putItems(items, margin);
  return lines;
}

/** Tells the item its line, and what else stands on it; returns what stands under it. */
function numbered(item: ScenarioItem, line: number): readonly ScenarioItem[] {
  item.line = line;
  if (!hasItems(item)) return [];
  return item.oneLine ? item.items.flatMap((only) => numbered(only, line)) : item.items;
}
