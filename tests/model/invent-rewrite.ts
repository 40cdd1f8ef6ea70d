/*
 * Texts for `rewrite`: mostly the text in force with other parts in the place of what is to come,
 * now and then one that must be refused.
 */

import { inventPart } from './invent-part.ts';
import { inventMoreParts } from './invent-session.ts';
import type { Random } from './random.ts';
import { scenarioOf, type RunState } from './run-state.ts';
import { everyItem, textOf, type ScenarioPart, type WrittenScenario } from './scenario.ts';
import { writeParts } from './write-session.ts';

/** A text; what it means is put among the texts unless it has faults. */
export function inventRewrite(state: RunState, random: Random, texts: Map<string, WrittenScenario>): string {
  const written = rewritten(state, random);
  const firstNew = state.lastBegunPart + 1;
  const kind = random.weighted([
    [80, 'fitting'],
    [10, 'same'],
    [6, 'with a fault'],
    [4, 'other line'],
    [3, 'other setting'],
    [firstNew > 0 ? 3 : 0, 'no heading'],
  ] as const);
  switch (kind) {
    case 'same':
      return known(state.written, texts);
    case 'with a fault':
      return `${textOf(written)}4 x 50 free @ 1.30${written.lineEnd}`;
    case 'other line':
      return known(withOtherLine(written, random), texts);
    case 'other setting':
      return known(withOtherSetting(state, random), texts);
    case 'no heading':
      return textOf({ ...written, parts: [...written.parts.slice(0, firstNew), ['4 x 50 free @ 1:00']] });
    case 'fitting':
      return known(written, texts);
  }
}

function known(written: WrittenScenario, texts: Map<string, WrittenScenario>): string {
  const text = textOf(written);
  texts.set(text, written);
  return text;
}

function rewritten(state: RunState, random: Random): WrittenScenario {
  const { written } = state;
  const scenario = scenarioOf(state);
  const firstNew = state.lastBegunPart + 1;
  const kept = scenario.parts.slice(0, firstNew);
  const more = partsToCome(state, random, firstNew);
  const keptText = written.parts.slice(0, firstNew);
  const linesBefore = written.header.length + keptText.flat().length;
  return {
    ...written,
    scenario: { ...scenario, parts: [...kept, ...more] },
    parts: [...keptText, ...writeParts(scenario, more, linesBefore, random)],
  };
}

function partsToCome(state: RunState, random: Random, firstNew: number): ScenarioPart[] {
  const scenario = scenarioOf(state);
  const isSwum = (part: ScenarioPart): boolean =>
    everyItem(part.items).some((item) => item.kind === 'set' || item.kind === 'block' || item.kind === 'timed-swim');
  for (;;) {
    // A text without a title has no headings either: they would be taken for one.
    const untitled = firstNew === 0 ? [inventPart(random, scenario, null)] : [];
    const more = scenario.title === null ? untitled : inventMoreParts(random, scenario, 3);
    if ([...scenario.parts.slice(0, firstNew), ...more].some(isSwum)) return more;
  }
}

/** A comment changes nothing of what is meant, and still the line is another. */
function withOtherLine(written: WrittenScenario, random: Random): WrittenScenario {
  const index = random.whole(0, written.header.length - 1);
  const header = written.header.map((line, place) => (place === index ? `${line} #` : line));
  return { ...written, header };
}

/** One line of settings more, where the header ends. Only where nothing has begun could it come into force. */
function withOtherSetting(state: RunState, random: Random): WrittenScenario {
  const written = rewritten({ ...state, lastBegunPart: -1 }, random);
  const startOn = written.scenario.startOn === 30 ? 60 : 30;
  const scenario = { ...written.scenario, startOn };
  const header = [...written.header, `start on ${startOn}`];
  return { ...written, scenario, header, parts: writeParts(scenario, scenario.parts, header.length, random) };
}
