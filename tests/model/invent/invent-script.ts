/*
 * Random scripts for a session: commands that mostly fit the moment at which they are given, and now
 * and then do not. The model itself is asked how the run stands by then.
 */

import { COMMAND_NAMES, type Command } from '../run/command.ts';
import { inventRewrite } from './invent-rewrite.ts';
import type { Random } from './random.ts';
import { nextTime } from './invent-time.ts';
import { ModelRun } from '../run/run-model.ts';
import { hasPending, isStopped, scenarioOf, type RunState } from '../run/run-state.ts';
import { everyItem, type WrittenScenario } from '../scenario.ts';

export interface Script {
  readonly commands: readonly Command[];
  /** What the texts of its rewrites mean; texts with faults are not in it. */
  readonly texts: Map<string, WrittenScenario>;
}

/** Up to `atMost` commands, in order of time. */
export function inventScript(written: WrittenScenario, phaseMs: number, random: Random, atMost: number): Script {
  const texts = new Map<string, WrittenScenario>();
  const run = new ModelRun(written, phaseMs, texts);
  const commands: Command[] = [];
  const known: Known = { texts, cutLines: [] };
  const count = random.whole(1, atMost);
  // Commands that come often in one script meet each other in ways that an even mixture hardly shows.
  const favourites = random.shuffled(COMMAND_NAMES).slice(0, random.pick([0, 2, 3]));
  let t = random.chance(0.5) ? 0 : random.whole(0, 30_000);
  const give = (command: Command): boolean => {
    commands.push(command);
    if (command.do === 'cut' && command.line !== undefined) known.cutLines.push(command.line);
    return run.give(command) === null;
  };
  for (;;) {
    let name = inventCommandName(run.at(t), random, favourites);
    while (give(inventCommand(name, run.at(t), t, random, known))) {
      const follows = FOLLOW_UPS.find(({ after, chance }) => after.includes(name) && random.chance(chance));
      if (!follows) break;
      t += random.pick(follows.delays);
      name = follows.name;
    }
    if (commands.length >= count || (run.at(t).phase === 'done' && random.chance(0.6))) return { commands, texts };
    t = nextTime(run, t, random);
  }
}

/** What the script has come to so far. */
interface Known {
  readonly texts: Map<string, WrittenScenario>;
  readonly cutLines: number[];
}

interface FollowUp {
  readonly after: readonly string[];
  readonly name: string;
  readonly chance: number;
  readonly delays: readonly number[];
}

const UNDO_DELAYS = [0, 1, 250, 1000, 2750, 3000, 4000, 7000, 9000, 9749, 9750, 9999, 10_000, 10_000, 10_001];

/** What a rule says of two commands together hardly comes up by chance. The first that happens to follow, does. */
const FOLLOW_UPS: readonly FollowUp[] = [
  { after: ['start', 'stop'], name: 'start', chance: 0.08, delays: [0, 1000, 2999, 3000, 3001] },
  { after: ['stop'], name: 'resume', chance: 0.08, delays: [0, 1000, 5000, 20_000, 60_000] },
  { after: ['stop'], name: 'lane-in', chance: 0.05, delays: [0, 5000] },
  { after: ['stop'], name: 'rewrite', chance: 0.08, delays: [0, 5000, 20_000] },
  { after: ['undo'], name: 'undo', chance: 0.2, delays: [0, 1000, 5000] },
  // Commands that take leaves away: a late undo of them is a rule of its own.
  { after: ['move-on', 'restart', 'go-to', 'finish', 'lane-out'], name: 'undo', chance: 0.35, delays: UNDO_DELAYS },
  { after: ['stop'], name: 'undo', chance: 0.2, delays: UNDO_DELAYS },
  { after: ['cut'], name: 'restart', chance: 0.1, delays: [0, 5000] },
  { after: ['cut'], name: 'rewrite', chance: 0.1, delays: [0, 5000] },
  { after: ['cut'], name: 'go-to', chance: 0.08, delays: [0, 5000] },
  { after: ['sit-out', 'rejoin'], name: 'rewrite', chance: 0.06, delays: [0, 5000] },
  { after: ['go-to'], name: 'cut', chance: 0.15, delays: [0, 5000] },
  { after: ['go-to'], name: 'rewrite', chance: 0.2, delays: [0, 5000] },
  { after: ['go-to'], name: 'start', chance: 0.1, delays: [0, 5000] },
  { after: ['rewrite'], name: 'cut', chance: 0.15, delays: [0, 5000] },
  { after: ['rewrite'], name: 'rewrite', chance: 0.1, delays: [0, 5000] },
  { after: ['rewrite'], name: 'restart', chance: 0.07, delays: [0, 5000] },
  { after: ['rewrite'], name: 'lane-in', chance: 0.05, delays: [0, 5000] },
  { after: COMMAND_NAMES.filter((name) => name !== 'undo'), name: 'undo', chance: 0.06, delays: UNDO_DELAYS },
];

function inventCommandName(state: RunState, random: Random, favourites: readonly string[]): string {
  if (random.chance(0.03)) return random.pick(COMMAND_NAMES);
  const favourite = favourites.length > 0 && state.phase !== 'done' && random.chance(0.4);
  return favourite ? random.pick(favourites) : random.weighted(likely(state));
}

function inventCommand(name: string, state: RunState, t: number, random: Random, known: Known): Command {
  const command = { atMs: t, do: name, ...fieldsFor(name, state, random, known) };
  return random.chance(0.015) ? spoiled(command, random) : command;
}

function likely(state: RunState): [number, string][] {
  if (state.phase === 'done')
    return [
      [6, 'undo'],
      [2, 'mark'],
      [1, 'start'],
    ];
  const common: [number, string][] = [
    [4, 'undo'],
    [6, 'cut'],
    [5, 'rewrite'],
    [5, 'go-to'],
    [5, 'move-on'],
    [6, 'restart'],
    [state.lanes.length > 1 ? 5 : 0, 'lane-out'],
    [state.lanes.some((lane) => !lane.isIn) ? 25 : 1, 'lane-in'],
    [3, 'swimmers'],
    [3, 'gap'],
    [2, 'mark'],
    [1, 'finish'],
  ];
  if (state.phase === 'waiting') return [...common, [60, 'start'], [1, 'resume']];
  const stopped = state.lanes.some(isStopped);
  // Only tails are still on the way: what follows is at stake, and what the tails add.
  if (!state.lanes.some(hasPending)) {
    const end: [number, string][] = [
      [30, 'stop'],
      [12, 'swimmers'],
      [12, 'gap'],
      [state.isHeld ? 30 : 1, 'resume'],
      [8, 'repeat'],
      [8, 'start'],
      [15, 'rewrite'],
      [5, 'skip'],
    ];
    return [...common, ...end];
  }
  return [
    ...common,
    [6, 'start'],
    [12, 'stop'],
    [stopped || state.isHeld ? 35 : 1, 'resume'],
    [stopped ? 18 : 1, 'rejoin'],
    [9, 'skip'],
    [7, 'sit-out'],
    [9, 'repeat'],
    [10, 'shift'],
    [9, 'interval'],
  ];
}

function fieldsFor(name: string, state: RunState, random: Random, known: Known): Partial<Command> {
  switch (name) {
    case 'stop':
    case 'resume':
      return mayNameLanes(state, random, state.lanes.some(hasPending) ? 0.45 : 0.1);
    case 'rejoin':
    case 'skip':
    case 'sit-out':
    case 'repeat':
      return mayNameLanes(state, random, 0.5);
    case 'shift':
    case 'interval':
      return {
        seconds: random.pick([5, 10, -5, -10, -15, 15, 30, -30, -60, 60, 1, -1, -120, 600]),
        ...mayNameLanes(state, random, 0.6),
      };
    case 'cut':
      // How much of a line may still be cut depends on what has been cut of it, and on rewrites since.
      return {
        line:
          known.cutLines.length > 0 && random.chance(0.4) ? random.pick(known.cutLines) : lineOfSession(state, random),
        n: random.pick([1, 1, 1, 2, 3]),
      };
    case 'rewrite':
      return { text: inventRewrite(state, random, known.texts) };
    case 'go-to':
      return placeInSession(state, random);
    case 'lane-out':
    case 'lane-in':
      return { lanes: namedLanes(state, random, name === 'lane-out') };
    case 'swimmers':
      return { n: random.pick([1, 2, 3, 5, 8, 20]), ...mayNameLanes(state, random, 0.6) };
    case 'gap':
      return { seconds: random.pick([1, 5, 10, 20, 60]), ...mayNameLanes(state, random, 0.6) };
    case 'mark':
      return { ...mayNameLanes(state, random, 0.3), ...(random.chance(0.7) ? { words: 'cramp' } : {}) };
    default:
      return {};
  }
}

function mayNameLanes(state: RunState, random: Random, probability: number): { lanes?: number[] } {
  return random.chance(probability) ? { lanes: namedLanes(state, random, true) } : {};
}

/** One or two that are in (or out); now and then any lanes at all. */
function namedLanes(state: RunState, random: Random, isIn: boolean): number[] {
  const fitting = state.lanes.filter((lane) => lane.isIn === isIn);
  const lanes = fitting.length === 0 || random.chance(0.05) ? state.lanes : fitting;
  const numbers = random.shuffled(lanes.map((lane) => lane.number)).slice(0, random.pick([1, 1, 1, 2, 2, 3]));
  return random.chance(0.02) ? [...numbers, 21] : numbers;
}

function lineOfSession(state: RunState, random: Random): number {
  if (random.chance(0.05)) return random.whole(1, 40);
  const items = everyItem(scenarioOf(state).parts.flatMap((part) => part.items));
  const toCome = new Set(
    state.stretches.slice(state.current).flatMap((stretch) => stretch.lanes.flat().map((rep) => rep.line)),
  );
  const fitting = items.filter((item) => item.kind === 'rounds' || toCome.has(item.line));
  return random.pick(fitting.length > 0 && random.chance(0.9) ? fitting : items).line;
}

function placeInSession(state: RunState, random: Random): Partial<Command> {
  const reps = state.stretches.flatMap((stretch) => stretch.lanes.flat());
  if (reps.length === 0) return { line: 1, rep: 1 };
  const rep = random.pick(reps);
  const rounds = rep.rounds.map(({ round }) => round);
  const place = { line: rep.line, rep: rep.rep, ...(rounds.length > 0 ? { rounds } : {}) };
  return random.chance(0.06)
    ? { ...place, ...random.pick([{ rep: 40 }, { line: 1 }, { rounds: [1, 1, 1, 1] }, { rounds: [9] }]) }
    : place;
}

/** A field too many, too few or out of range. */
function spoiled(command: Command, random: Random): Command {
  const wrongs: Partial<Command>[] = [
    { seconds: 0 },
    { seconds: 601 },
    { seconds: 2.5 },
    { n: 0 },
    { n: 21 },
    { lanes: [] },
    { line: 0 },
    { rep: 1 },
    { text: '' },
    { words: 'x'.repeat(201) },
  ];
  const lacking = Object.keys(command).filter((key) => key !== 'atMs' && key !== 'do');
  if (lacking.length === 0 || random.chance(0.6)) return { ...command, ...random.pick(wrongs) };
  const without = random.pick(lacking);
  return Object.fromEntries(Object.entries(command).filter(([key]) => key !== without)) as unknown as Command;
}
