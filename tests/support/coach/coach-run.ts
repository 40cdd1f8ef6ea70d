/*
 * Runs for the tests of the coach's screens: from a text, with commands given at their times.
 */

import type { Command } from '../../../app/core/run/command/command.ts';
import { apply } from '../../../app/core/run/fold.ts';
import { openRun, type RunState } from '../../../app/core/run/state.ts';
import { openPlan } from '../../../app/core/plan/open-plan.ts';

export const HARBOUR = `Harbour squad, Thursday
pool 25 m
start 19:30
finish 20:30
lane 1 base 1:30, 5 swimmers
lane 2 base 1:40, 6 swimmers

Warm-up
200 easy

Main set
3 rounds
  150 steady @ base
  4 x 50 fast @ 0:50/0:55
talk 1:30 turns

Swim-down
4 x 50 easy @ 1:10
`;

/** A run of the text after the commands, each accepted; throws where one is not. */
export function runOf(text: string, ...commands: readonly (readonly [number, Command])[]): RunState {
  const plan = openPlan({ text, lanesText: null });
  if (!plan.ok) throw new Error(JSON.stringify(plan.faults));
  return afterCommands(openRun(plan.value, 0), ...commands);
}

export function afterCommands(state: RunState, ...commands: readonly (readonly [number, Command])[]): RunState {
  return commands.reduce((before, [at, command]) => {
    const answer = apply(before, command, at);
    if (!answer.ok) throw new Error(`${command.do} at ${at}: ${answer.why}`);
    return answer.state;
  }, state);
}
