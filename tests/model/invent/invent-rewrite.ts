/*
 * Texts for `rewrite`: the text in force with pieces put in, taken out, changed or moved, mostly near
 * where the run stands; with nothing changed but comments; now and then one that must be refused.
 */

import { editable, marginOf, writtenFrom, type EditedItem, type EditedPart } from '../write/edit-text.ts';
import { inventItem } from './invent-part.ts';
import { inventMoreParts, isTooLong } from './invent-session.ts';
import { hasNoteUnderLanes, piecesOf } from '../pieces.ts';
import type { Random } from './random.ts';
import { hasPending, scenarioOf, type RunState } from '../run/run-state.ts';
import {
  everyItem,
  isNote,
  isSwum,
  textOf,
  type Scenario,
  type ScenarioItem,
  type WrittenScenario,
} from '../scenario.ts';
import { writeItems, writeParts } from '../write/write-session.ts';

/** A text; what it means is put among the texts unless it has faults. */
export function inventRewrite(state: RunState, random: Random, texts: Map<string, WrittenScenario>): string {
  const kind = random.weighted([
    [75, 'pieces'],
    [14, 'comments'],
    [3, 'same'],
    [3, 'with a fault'],
    [2, 'other header'],
    [3, 'all other'],
  ] as const);
  switch (kind) {
    case 'pieces':
      return known(withOtherPieces(state, random), texts);
    case 'comments':
      return known(withOtherComments(state.written, random), texts);
    case 'same':
      return known(state.written, texts);
    case 'with a fault':
      return `${textOf(withOtherPieces(state, random))}4 x 50 free @ 1.30${state.written.lineEnd}`;
    case 'other header':
      return known(withOtherHeader(state.written, random), texts);
    case 'all other':
      return known(withOtherParts(state, random), texts);
  }
}

function known(written: WrittenScenario, texts: Map<string, WrittenScenario>): string {
  const text = textOf(written);
  texts.set(text, written);
  return text;
}

/** A place in the text: before item `item` of part `part`, or behind its last. */
interface Gap {
  readonly part: number;
  readonly item: number;
}

/** A few changes, one behind the other or far apart. */
function withOtherPieces(state: RunState, random: Random): WrittenScenario {
  for (;;) {
    const parts = editable(state.written);
    const gap = gapNear(state, parts, random);
    const changes = random.pick([1, 1, 1, 2, 2, 3]);
    for (let change = 0; change < changes; change += 1) {
      changeSomething(parts, change === 0 || random.chance(0.5) ? gap : anyGap(parts, random), state, random);
    }
    const rewritten = writtenFrom(state.written, parts);
    if (isSession(rewritten)) return rewritten;
  }
}

/** Where the run stands, or close behind it: there most rules about pieces meet. */
function gapNear(state: RunState, parts: readonly EditedPart[], random: Random): Gap {
  if (random.chance(0.2)) return anyGap(parts, random);
  const lines = linesOfMoment(state, random);
  const pieces = piecesOf(state.written);
  const line = lines.length > 0 ? random.pick(lines) : null;
  // The place that a go-to named may be left over from a text before.
  const own = pieces.find((piece) => piece.some((each) => each.line === line))?.[0]?.line;
  for (const [part, { items }] of parts.entries()) {
    const item = items.findIndex(({ from }) => from === own);
    if (item >= 0) return { part, item: Math.min(items.length, item + random.pick([0, 0, 1, 1, 1, 2])) };
  }
  return anyGap(parts, random);
}

function linesOfMoment(state: RunState, random: Random): number[] {
  const stretch = state.stretches[state.current];
  const named = [state.startFrom?.line ?? Infinity].filter((line) => line < Infinity);
  const next = state.lanes.filter(hasPending).flatMap((lane) => lane.pending.slice(0, 1).map(({ rep }) => rep.line));
  const last = state.lanes.flatMap((lane) => lane.pending.slice(-1).map(({ rep }) => rep.line));
  const inStretch = stretch ? stretch.lanes.flat().map((rep) => rep.line) : [];
  const pause = stretch?.line ?? null;
  return random.pick([
    [...named, ...next],
    [...named, ...last],
    [...state.linesLeft].slice(-1),
    inStretch.slice(-1),
    pause === null ? inStretch : [pause],
    [...state.cuts.keys()],
  ]);
}

function anyGap(parts: readonly EditedPart[], random: Random): Gap {
  if (parts.length === 0) return { part: 0, item: 0 };
  const part = random.whole(0, parts.length - 1);
  return { part, item: random.whole(0, parts[part]?.items.length ?? 0) };
}

function changeSomething(parts: EditedPart[], gap: Gap, state: RunState, random: Random): void {
  const scenario = scenarioOf(state);
  const part = parts[gap.part];
  if (!part) return void addParts(parts, parts.length, scenario, random);
  const here = part.items[gap.item];
  const kind = random.weighted([
    [24, 'add'],
    [here ? 20 : 0, 'replace'],
    [here ? 14 : 0, 'take out'],
    [here ? 5 : 0, 'cut off'],
    [here && gap.item > 0 ? 5 : 0, 'swap'],
    [here ? 4 : 0, 'twice'],
    [part.items.some(({ item }) => isPause(item)) ? 16 : 0, 'join'],
    [scenario.title === null ? 0 : 8, 'add parts'],
    [parts.length > 1 ? 4 : 0, 'take part out'],
    [part.heading === null ? 0 : 4, 'other heading'],
  ] as const);
  switch (kind) {
    case 'add':
      return void part.items.splice(gap.item, 0, ...newItems(part, scenario, random));
    case 'replace':
      return void part.items.splice(gap.item, 1, ...newItems(part, scenario, random));
    case 'take out':
      return void part.items.splice(gap.item, 1);
    case 'cut off':
      return void part.items.splice(gap.item);
    case 'swap':
      return void part.items.splice(gap.item - 1, 2, ...part.items.slice(gap.item - 1, gap.item + 1).reverse());
    case 'twice':
      return void (here && part.items.splice(gap.item, 0, here));
    case 'join': {
      // Without a talk or break between them, what stood behind it joins what stood before.
      const pauses = part.items.filter(({ item }) => isPause(item));
      return void part.items.splice(part.items.indexOf(random.pick(pauses)), 1);
    }
    case 'add parts':
      return void addParts(parts, gap.part + 1, scenario, random);
    case 'take part out':
      return void parts.splice(gap.part, 1);
    case 'other heading':
      return void (
        (part.headingLines = [`${part.heading} again`, ...part.headingLines.slice(1)]),
        (part.heading += ' again')
      );
  }
}

function isPause(item: ScenarioItem): boolean {
  return item.kind === 'talk' || item.kind === 'break';
}

function newItems(part: EditedPart, scenario: Scenario, random: Random): EditedItem[] {
  const items = Array.from({ length: random.pick([1, 1, 1, 2]) }, () => inventItem(random, scenario));
  return items.map((item) => {
    const lines = writeItems([item], scenario, 0, marginOf(part), random);
    // A comment may have come before it; it learns its line from there.
    return { item, lines: lines.slice(item.line - 1), from: item.line };
  });
}

function addParts(parts: EditedPart[], at: number, scenario: Scenario, random: Random): void {
  const more = inventMoreParts(random, scenario, 2);
  const text = writeParts(scenario, more, 0, random);
  const onTheirOwn = { ...emptyText(scenario), scenario: { ...scenario, parts: more }, parts: text };
  if (scenario.title !== null) parts.splice(at, 0, ...editable(onTheirOwn));
}

function emptyText(scenario: Scenario): WrittenScenario {
  return {
    scenario,
    header: [],
    parts: [],
    finishLine: null,
    lanesText: null,
    lineEnd: '\n',
    byteOrderMark: false,
  };
}

/** What the notation takes for a session: something to swim, and no sets before the first heading but in the first part. */
function isSession(written: WrittenScenario): boolean {
  const { scenario } = written;
  const someSwum = everyItem(scenario.parts.flatMap((part) => part.items)).some(isSwum);
  // A note above the first set would be one of the session's.
  const isHeaded = scenario.parts.every(
    ({ heading, items: [first] }, index) => heading !== null || (index === 0 && first && !isNote(first)),
  );
  return someSwum && isHeaded && !isTooLong(scenario) && !hasNoteUnderLanes(written);
}

/** Comments, blanks at the end of lines, other line ends and empty lines behind everything: nothing is replaced. */
function withOtherComments(written: WrittenScenario, random: Random): WrittenScenario {
  const comment = (line: string): string => {
    if (line.trim() === '') return random.pick([line, '# not much to say', '  # 4 x 50 free @ 1:00', '']);
    if (/#/.test(line)) return random.chance(0.5) ? line : line.replace(/\s*#.*$/, random.pick(['', ' # other']));
    return random.chance(0.3) ? line + random.pick([' # tell lane 2', '  ', ' #', '\t']) : line;
  };
  const end = random.chance(0.3) ? [['', '# see you on Monday']] : [];
  const last = written.parts.length - 1;
  return {
    ...written,
    header: written.header.map(comment),
    parts: written.parts.map((lines, index) => [...lines.map(comment), ...(index === last ? end.flat() : [])]),
    lineEnd: random.pick(['\n', '\n', '\r\n']),
  };
}

/** Another line before the first part can come into force in no run that is open. */
function withOtherHeader(written: WrittenScenario, random: Random): WrittenScenario {
  const parts = editable(written);
  const startOn = written.scenario.startOn === 30 ? 60 : 30;
  const setting = random.chance(0.5) && !written.header.some((line) => /start on/.test(line));
  const header = [...written.header, setting ? `start on ${startOn}` : '# moved down by a line'];
  const scenario = setting ? { ...written.scenario, startOn } : written.scenario;
  const moved = { ...written, header, scenario };
  // Text and meaning go on as they were, a line further down.
  return writtenFrom(moved, parts);
}

function withOtherParts(state: RunState, random: Random): WrittenScenario {
  const { written } = state;
  const scenario = scenarioOf(state);
  for (;;) {
    const parts = scenario.title === null ? [] : inventMoreParts(random, scenario, 3);
    const text = writeParts(scenario, parts, written.header.length, random);
    const rewritten = { ...written, scenario: { ...scenario, parts }, parts: text };
    if (isSession(rewritten)) return rewritten;
    if (scenario.title === null) return written;
  }
}
