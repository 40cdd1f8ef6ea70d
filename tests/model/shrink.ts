/*
 * Makes a trial that shows a disagreement as small as it goes, step by step, keeping every step
 * after which there still is a disagreement about the same thing.
 */

import type { Command } from './run/command.ts';
import {
  everyItem,
  hasItems,
  isNote,
  isSwum,
  textOf,
  type ScenarioItem,
  type ScenarioPart,
  type WrittenScenario,
} from './scenario.ts';
import { disagreementIn, type Disagreement, type Trial } from './trial.ts';

/** The smallest trial that greedy steps lead to. */
export function shrink(trial: Trial): Trial {
  const about = disagreementIn(trial)?.about;
  let smallest = trial;
  for (let improved = true; improved;) {
    improved = false;
    for (const smaller of smallerTrials(smallest)) {
      if (stillDisagrees(smaller, about)) {
        smallest = smaller;
        improved = true;
        break;
      }
    }
  }
  return smallest;
}

function stillDisagrees(trial: Trial, about: Disagreement['about'] | undefined): boolean {
  try {
    return disagreementIn(trial)?.about === about;
  } catch {
    // Without a command that it rests on, a later one can be impossible for the model.
    return false;
  }
}

function* smallerTrials(trial: Trial): Generator<Trial> {
  const { commands } = trial;
  for (let size = Math.ceil(commands.length / 2); size >= 1; size = size === 1 ? 0 : Math.ceil(size / 2)) {
    for (let from = commands.length - size; from >= 0; from -= 1) {
      yield { ...trial, commands: [...commands.slice(0, from), ...commands.slice(from + size)] };
    }
  }
  if (trial.phaseMs !== 0) yield { ...trial, phaseMs: 0 };
  // A rewrite repeats the text that it was made for, so such a session stays as it is.
  if (!commands.some((command) => command.do === 'rewrite')) {
    for (const written of smallerSessions(trial.written)) yield { ...trial, written };
  }
  for (let index = 0; index < commands.length; index += 1) {
    const command = commands[index];
    for (const simpler of command ? simplerCommands(command) : []) {
      yield { ...trial, commands: commands.map((one, place) => (place === index ? simpler : one)) };
    }
  }
}

function simplerCommands(command: Command): Command[] {
  const { lanes } = command;
  return lanes && lanes.length > 1 ? lanes.map((lane) => ({ ...command, lanes: [lane] })) : [];
}

/** Sessions with one line less. Its place stays blank, so that the other lines keep their numbers. */
function* smallerSessions(written: WrittenScenario): Generator<WrittenScenario> {
  const { scenario } = written;
  for (let index = 0; index < scenario.parts.length; index += 1) {
    const part = scenario.parts[index];
    for (const [items, lines] of part ? withoutOne(part.items) : []) {
      if (!scenario.parts.some((one) => someSwum(one === part ? items : one.items))) continue;
      // Sets before any heading are a part only as long as there are some.
      if (part?.heading === null && (!items[0] || isNote(items[0]))) continue;
      const parts = scenario.parts.map((one, place): ScenarioPart =>
        place === index && part ? { ...part, items } : one,
      );
      const from = written.header.length + written.parts.slice(0, index).flat().length;
      const text = written.parts.map((one, place) =>
        place === index ? one.map((line, offset) => (lines.includes(from + offset + 1) ? '' : line)) : one,
      );
      yield { ...written, scenario: { ...scenario, parts }, parts: text };
    }
  }
  const last = scenario.parts.length - 1;
  if (
    last > 0 &&
    someSwum(scenario.parts.slice(0, -1).flatMap((part) => part.items)) &&
    scenario.parts[last]?.items.length === 0
  ) {
    yield {
      ...written,
      scenario: { ...scenario, parts: scenario.parts.slice(0, -1) },
      parts: written.parts.slice(0, -1),
    };
  }
}

/** The items without one of them, at any depth, and the lines that go with it. */
function* withoutOne(items: readonly ScenarioItem[]): Generator<[ScenarioItem[], number[]]> {
  for (const item of items) {
    yield [items.filter((one) => one !== item), linesOfItem(item)];
    if (!hasItems(item) || item.oneLine) continue;
    for (const [inner, lines] of withoutOne(item.items)) {
      if (!inner.every(isNote)) yield [items.map((one) => (one === item ? { ...item, items: inner } : one)), lines];
    }
  }
}

/** A session with nothing to swim is none. */
function someSwum(items: readonly ScenarioItem[]): boolean {
  return everyItem(items).some(isSwum);
}

function linesOfItem(item: ScenarioItem): number[] {
  return everyItem([item]).map((one) => one.line);
}

/** The trial to look at: the text with numbered lines, then the script. */
export function describeTrial({ written, phaseMs, commands }: Trial): string {
  const numbered = textOf(written)
    .split(/\r?\n/)
    .map((line, index) => `${String(index + 1).padStart(3)} | ${line}`)
    .filter((line) => !line.endsWith('| '));
  const file = written.lanesText === null ? [] : ['lanes file:', written.lanesText];
  return [...numbered, ...file, `phase ${phaseMs}`, ...commands.map((command) => JSON.stringify(command))].join('\n');
}
