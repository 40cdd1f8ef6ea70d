/*
 * A run under test: commands at times, and what came of them, in few words.
 */

import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import type { Command } from '../../../app/core/run/command/command.ts';
import { apply } from '../../../app/core/run/fold.ts';
import { projectedEnd } from '../../../app/core/run/hour/projection.ts';
import { leavesOf } from '../../../app/core/run/record.ts';
import { settle } from '../../../app/core/run/settle.ts';
import { openRun, type RunState } from '../../../app/core/run/state.ts';
import { view, type RunView } from '../../../app/core/run/view.ts';

/** The plan of a session text that is known to have no faults; throws with the faults otherwise. */
export function planOf(text: string, lanesText: string | null = null): Plan {
  const opened = openPlan({ text, lanesText });
  if (!opened.ok) throw new Error(`faults: ${JSON.stringify(opened.faults)}`);
  return opened.value;
}

/** Times in seconds, because tests are written from the deck. */
export class Deck {
  state: RunState;

  constructor(text: string, phaseSeconds = 0) {
    this.state = openRun(planOf(text), phaseSeconds * 1000);
  }

  /** Gives a command; throws where it is refused. */
  at(seconds: number, command: Command): this {
    const answer = apply(this.state, command, Math.round(seconds * 1000));
    if (!answer.ok) throw new Error(`${command.do} at ${seconds}: ${answer.why}`);
    this.state = answer.state;
    return this;
  }

  /** The sentence with which a command is refused; throws where it is accepted. The state stays. */
  refusal(seconds: number, command: Command): string {
    const answer = apply(this.state, command, Math.round(seconds * 1000));
    if (answer.ok) throw new Error(`${command.do} at ${seconds} was accepted`);
    return answer.why;
  }

  /** Leave times of a lane up to a time (all by default), in seconds. */
  leaves(lane: number, until = Infinity): number[] {
    return leavesOf(settle(this.state, until * 1000))
      .filter((leave) => leave.lane === lane)
      .map((leave) => leave.at / 1000);
  }

  /** The same with the line and rep: "7.2 at 90". */
  reps(lane: number, until = Infinity): string[] {
    return leavesOf(settle(this.state, until * 1000))
      .filter((leave) => leave.lane === lane)
      .map(({ rep, at }) => `${rep.set.line}.${rep.rep} at ${at / 1000}`);
  }

  settled(seconds: number): RunState {
    return settle(this.state, seconds * 1000);
  }

  view(seconds: number): RunView {
    return view(this.state, seconds * 1000);
  }

  projected(seconds: number): number {
    return projectedEnd(settle(this.state, seconds * 1000), seconds * 1000) / 1000;
  }
}
