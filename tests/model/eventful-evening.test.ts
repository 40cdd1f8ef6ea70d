/*
 * The eventful evening once more: the independent model, told what the session means and not its text,
 * comes to the same leaves as the program.
 */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { rehearsal } from '../../app/cli/rehearse.ts';
import { readScript } from '../../app/cli/script.ts';
import { MINUTE, SECOND } from '../../app/core/units.ts';
import { planOf } from '../support/run/deck.ts';
import type { Command } from './run/command.ts';
import { lane, part, pause, plainSession, rounds } from './invent/plain-scenario.ts';
import { modelRehearsal } from './run/run-model.ts';
import { everyItem, type PerLane, type ScenarioItem, type WrittenScenario } from './scenario.ts';

const folder = new URL('../cases/eventful-evening/', import.meta.url);
const textOf = (name: string): string => readFileSync(fileURLToPath(new URL(name, folder)), 'utf8');

const HEADINGS = ['Warm-up', 'Turns', 'Main set', 'Swim-down'];

/** Of the items in order, in the text; and once a set of sprints has been written in below the 75s. */
const LINES = [15, 18, 19, 22, 23, 24, 25, 26, 29];
const REWRITTEN_LINES = [15, 18, 19, 22, 23, 24, 25, 26, 27, 30];

test('[run] the model and the program agree on the eventful evening, leave for leave', () => {
  const script = readScript(textOf('script.jsonl'));
  if (!script.ok) throw new Error(JSON.stringify(script.faults));
  const commands = script.value.map(({ atMs, fields }) => ({ atMs, ...fields }) as Command);
  const rewritten = commands.find((command) => command.do === 'rewrite')?.text ?? '';
  const texts = new Map([[rewritten, session(rewritten, swim([1], 25, '0:45 0:45 0:45 0:45 0:45 0:45'))]]);
  const { answers, ...model } = modelRehearsal(session(textOf('session.txt')), 0, commands, texts);
  const { answers: answered, ...program } = rehearsal(planOf(textOf('session.txt')), 0, script.value);
  expect(answered.map(({ ok }) => ok)).toEqual(answers.map(({ ok }) => ok));
  expect(program).toEqual(model);
  expect(model.leaves.length).toBeGreaterThan(100);
});

/** What a text of the evening means, and its lines. */
function session(text: string, ...sprints: ScenarioItem[]): WrittenScenario {
  const parts = [
    part('Warm-up', swim([4], 100, '2:00 2:00 2:15 2:15 2:30 2:30')),
    part('Turns', pause('talk', 120), swim([6, 6, 5, 5, 4, 4], 50, '1:15 1:15 1:30 1:30 1:45 1:45')),
    part(
      'Main set',
      rounds(
        3,
        swim([1], 100, '1:45 1:50 2:00 2:10 2:20 2:30'),
        swim([4, 4, 4, 3, 3, 3], 50, '0:55 1:00 1:00 1:10 1:15 1:20'),
      ),
      pause('break', 45),
      swim([5, 5, 5, 4, 4, 4], 75, '1:30 1:30 1:40 1:50 1:50 2:00'),
      ...sprints,
    ),
    part('Swim-down', swim([4, 4, 4, 3, 3, 3], 50, '1:15 1:15 1:20 1:30 1:30 1:30')),
  ];
  const [start, finish] = [19 * 60 + 30, 20 * 60 + 30];
  const lanes = [
    lane(1, { swimmers: 5 }),
    lane(2, { swimmers: 4 }),
    lane(3, { swimmers: 4 }),
    lane(4, { swimmers: 3, gap: 10 }),
    lane(5, { swimmers: 3 }),
    lane(6, { swimmers: 3 }),
  ];
  const written = plainSession(parts, { start, finish, lanes });
  written.scenario.parts
    .flatMap(({ items }) => everyItem(items))
    .forEach((item, index) => {
      item.line = (sprints.length > 0 ? REWRITTEN_LINES : LINES)[index] ?? 0;
    });
  const lines = text.split('\n');
  const starts = HEADINGS.map((heading) => lines.indexOf(heading));
  const sections = starts.map((start, index) => lines.slice(start, starts[index + 1]));
  return { ...written, header: lines.slice(0, starts[0]), parts: sections };
}

/** counts: one for all lanes, or one a lane; intervals as m:ss, one a lane. */
function swim(counts: readonly number[], metres: number, intervals: string): ScenarioItem {
  const each = intervals.split(' ').map((text) => ({ kind: 'time' as const, ms: timeOf(text) }));
  return {
    kind: 'set',
    line: 0,
    shape: { kind: 'repeat', counts: perLane(counts), distances: { same: metres * 10 } },
    words: '',
    timing: { kind: 'interval', lanes: { each }, step: 0 },
    hold: null,
  };
}

function perLane(values: readonly number[]): PerLane<number> {
  return values.length === 1 ? { same: values[0]! } : { each: values };
}

function timeOf(text: string): number {
  const [minutes, seconds] = text.split(':').map(Number);
  return minutes! * MINUTE + seconds! * SECOND;
}
