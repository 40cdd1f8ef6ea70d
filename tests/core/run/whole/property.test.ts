import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ON_ITS_WAY, LEAD, UNDO_FOR } from '../../../../app/core/run/align.ts';
import { apply, fold } from '../../../../app/core/run/fold.ts';
import { projectedEnd, projectedTimes } from '../../../../app/core/run/hour/projection.ts';
import { leavesOf, sameLeave, type Leave } from '../../../../app/core/run/record.ts';
import { begin, settle } from '../../../../app/core/run/settle.ts';
import { currentStretch, openRun, type RunState } from '../../../../app/core/run/state.ts';
import { view } from '../../../../app/core/run/view.ts';
import { planOf } from '../../../support/run/deck.ts';
import { evenings, type Evening } from '../../../support/run/evening.ts';
import { runs } from '../../../support/run/runs.ts';

const RUNS = { numRuns: runs(300) };

/** What happens at every accepted or refused command of an evening. */
interface Moment {
  readonly before: RunState;
  readonly after: RunState;
  readonly name: string;
  readonly ok: boolean;
  readonly at: number;
}

function momentsOf({ text, phase, steps }: Evening): readonly Moment[] {
  let state = openRun(planOf(text), phase);
  let at = 0;
  return steps.map(({ after, command }) => {
    at += after;
    const before = state;
    const answer = apply(before, command, at);
    state = answer.state;
    return { before, after: state, name: command.do, ok: answer.ok, at };
  });
}

/** Everything that a command at `at` finds done: what has left, or is on its way, were nothing more commanded. */
function factsAt(state: RunState, at: number): readonly Leave[] {
  return leavesOf(settle(state, at + ON_ITS_WAY));
}

/** By lane, its first leave after a time if nothing more is commanded. */
function nextLeaves(state: RunState, after: number): ReadonlyMap<number, number> {
  const next = new Map<number, number>();
  for (const { lane, at } of leavesOf(settle(state, Infinity), after)) if (!next.has(lane)) next.set(lane, at);
  return next;
}

describe('whatever is commanded', () => {
  it('[R1] the past is never rewritten', () => {
    fc.assert(
      fc.property(evenings, (evening) => {
        for (const { before, after, name, ok, at } of momentsOf(evening)) {
          if (!ok) {
            expect(after).toBe(before);
            continue;
          }
          // Without what was undone, a leave on its way is still to come.
          const kept = leavesOf(settle(after, name === 'undo' ? at + ON_ITS_WAY : at));
          for (const leave of factsAt(before, at)) expect(kept.some((other) => sameLeave(leave, other))).toBe(true);
        }
      }),
      RUNS,
    );
  });

  it('the leaves of a lane never go back in time', () => {
    fc.assert(
      fc.property(evenings, (evening) => {
        const moments = momentsOf(evening);
        const last = new Map<number, number>();
        for (const { lane, at } of moments[moments.length - 1]!.after.departed.flatMap(timesOf)) {
          expect(at).toBeGreaterThan(last.get(lane) ?? -1);
          last.set(lane, at);
        }
      }),
      RUNS,
    );
  });

  it('[R6] no command but undo sends a lane off, or sooner than shown, with less than the lead', () => {
    fc.assert(
      fc.property(evenings, (evening) => {
        for (const { before, after, name, ok, at } of momentsOf(evening)) {
          if (!ok || name === 'undo') continue;
          // From the command's own instant: what it brings into its next 250 ms is as much a breach.
          const shown = nextLeaves(before, at);
          for (const [lane, leave] of nextLeaves(after, at)) {
            if (leave < at + LEAD) expect(leave).toBeGreaterThanOrEqual(shown.get(lane) ?? Infinity);
          }
        }
      }),
      RUNS,
    );
  });

  it('[undo] taken back before anyone acted on it, a command leaves no trace', () => {
    fc.assert(
      fc.property(evenings, fc.integer({ min: 0, max: UNDO_FOR }), (evening, later) => {
        for (const { before, after, name, ok, at } of momentsOf(evening)) {
          if (!ok || name === 'undo' || name === 'mark') continue;
          const t = at + later;
          const same = withoutCommand(before, t);
          if (same !== withoutCommand(after, t)) continue;
          const undone = apply(after, { do: 'undo' }, t);
          expect(undone.ok).toBe(true);
          expect({ ...undone.state, undoable: [] }).toEqual({ ...settle(before, t), undoable: [] });
        }
      }),
      RUNS,
    );
  });

  it('folding a prefix and then the rest equals folding all, and time may pass in any steps', () => {
    fc.assert(
      fc.property(evenings, fc.integer({ min: 900, max: 60_000 }), (evening, pause) => {
        let at = 0;
        const commands = evening.steps.map(({ after, command }) => ({ at: (at += after), command }));
        const plan = planOf(evening.text);
        const whole = fold(plan, evening.phase, commands);
        let state = openRun(plan, evening.phase);
        let t = 0;
        for (const { at: time, command } of commands) {
          for (; t < time; t += pause) state = settle(state, t);
          state = apply(state, command, time).state;
          t = time;
        }
        expect(leavesOf(settle(state, Infinity))).toEqual(leavesOf(settle(whole, Infinity)));
        expect(settle(state, Infinity).doneAt).toBe(settle(whole, Infinity).doneAt);
      }),
      RUNS,
    );
  });

  it('[projection] it is what then happens when every start comes as projected', () => {
    fc.assert(
      fc.property(evenings, (evening) => {
        const { after, at } = momentsOf(evening).slice(-1)[0]!;
        const now = settle(after, at);
        if (now.phase === 'done') return;
        expect(played(now, at)).toBe(projectedEnd(now, at));
        expect(projectedTimes(now, at).slice(-1)[0]!.end).toBe(projectedEnd(now, at));
      }),
      RUNS,
    );
  });

  it('the view can be asked at any time, and its next leaves are those that then happen', () => {
    fc.assert(
      fc.property(evenings, fc.integer({ min: 0, max: 300_000 }), (evening, later) => {
        const moments = momentsOf(evening);
        for (const moment of moments) expect(view(moment.after, moment.at).lanes.length).toBeGreaterThan(0);
        const { after, at } = moments.slice(-1)[0]!;
        const t = at + later;
        const seen = view(after, t);
        const coming = nextLeaves(after, t);
        for (const lane of seen.lanes) {
          if (lane.state !== 'pending' || lane.next!.at === null) continue;
          expect(lane.next!.at).toBe(coming.get(lane.number));
        }
      }),
      RUNS,
    );
  });
});

/** Leaves of a departure in the order in which they were recorded. */
function timesOf({ lane, reps, from, to, origin }: RunState['departed'][number]): { lane: number; at: number }[] {
  return reps.slice(from, to).map((rep) => ({ lane, at: origin + rep.offset }));
}

/** All leaves up to an undo's horizon, as one string to compare. */
function withoutCommand(state: RunState, t: number): string {
  const leaves = leavesOf(settle(state, t + ON_ITS_WAY));
  return leaves
    .map(({ lane, at, rep }) => `${lane} ${at} ${rep.set.line} ${rep.set.rounds.map((r) => r.round)} ${rep.rep}`)
    .join();
}

/** When the session is over if stopped lanes are resumed at t and every later start comes by the plan's rule. */
function played(state: RunState, t: number): number {
  const times = projectedTimes(state, t);
  const resumed = state.lanes.some((lane) => lane.stoppedBy !== null) ? apply(state, { do: 'resume' }, t).state : state;
  let now = { ...resumed, steeredAt: -1e12, commandAt: t };
  for (let k = 0; ; k++) {
    if (now.phase === 'waiting') now = begin(now, now.index, times[k]!.start);
    const index = now.index;
    const isLast = index === now.stretches.length - 1;
    if (isLast && currentStretch(now).untimed) {
      // Ends on the coach's word: as projected, at its estimated end.
      return times[k]!.end;
    }
    const ended = settle(now, times[k]!.end);
    expect(ended.phase !== 'going' || ended.index !== index).toBe(true);
    if (ended.phase === 'done') return ended.doneAt!;
    now = ended;
  }
}
