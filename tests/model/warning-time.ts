/*
 * [R6] Whether any command sends a lane off, or makes its next leave come earlier, with less than ten
 * seconds of warning. It is read off what the program itself prints: for each accepted command but
 * `undo`, the run with the script up to it is held against the run with the script just before it, both
 * played out with nothing more commanded. What is compared is each lane's first leave from the
 * command's own instant on, so that one which the command brings into its own first quarter of a second
 * is seen. Leaves that were due in that quarter second without the command are on their way: they must
 * be there with it too, and the next one after them is the lane's next leave.
 */

import { rehearsal, type RehearsedLeave } from '../../app/cli/rehearse.ts';
import { openPlan } from '../../app/core/plan/open-plan.ts';
import { textOf } from './scenario.ts';
import type { Trial } from './trial.ts';

const LEAD = 10_000;
const ON_ITS_WAY = 250;

/** The first command that gives too little warning, with what it does to a lane, or null. */
export function suddenLeave({ written, phaseMs, commands }: Trial): string | null {
  const opened = openPlan({ text: textOf(written), lanesText: written.lanesText });
  if (!opened.ok) return null;
  const plan = opened.value;
  const lines = commands.map(({ atMs, ...fields }) => ({ atMs, fields }));
  let before = rehearsal(plan, phaseMs, []);
  for (const [index, command] of commands.entries()) {
    const after = rehearsal(plan, phaseMs, lines.slice(0, index + 1));
    if (after.answers[index]?.ok && command.do !== 'undo') {
      for (const lane of new Set([...before.leaves, ...after.leaves].map((leave) => leave.lane))) {
        const ofLane = (leaves: readonly RehearsedLeave[]): RehearsedLeave[] =>
          leaves.filter((leave) => leave.lane === lane && leave.atMs >= command.atMs);
        const breach = tooLittleWarning(ofLane(before.leaves), ofLane(after.leaves), command.atMs);
        if (breach !== null) return `command ${index} (${command.do} at ${command.atMs}): lane ${lane} ${breach}`;
      }
    }
    before = after;
  }
  return null;
}

/** Of one lane, the leaves from a command at t on, without it and with it: what is wrong with them, or null. */
export function tooLittleWarning(
  without: readonly RehearsedLeave[],
  withIt: readonly RehearsedLeave[],
  t: number,
): string | null {
  // A leave at the command's very time comes before it.
  const onTheirWay = without.filter((leave) => leave.atMs <= t + ON_ITS_WAY);
  const lost = onTheirWay.find((leave, index) => JSON.stringify(leave) !== JSON.stringify(withIt[index]));
  if (lost) return `loses the leave that was on its way at ${lost.atMs}`;
  const was = without[onTheirWay.length]?.atMs ?? Infinity;
  const is = withIt[onTheirWay.length]?.atMs ?? Infinity;
  return is < t + LEAD && is < was ? `leaves at ${is} instead of ${was}` : null;
}
