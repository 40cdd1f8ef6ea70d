/*
 * What a tap as a lane's first swimmer touches comes to: the time of the rep that it ends, in words, or why it is none.
 */

import { useState, useSyncExternalStore } from 'react';
import { handTime } from '../../../../app/core/record/times/hand-time.ts';
import { isTooSoon, touched } from '../../../../app/core/record/times/touch.ts';
import type { Leave } from '../../../../app/core/run/record.ts';
import { view, type NextRep, type RunView } from '../../../../app/core/run/view.ts';
import { leavesIn } from '../../../../app/core/run/view/record.ts';
import type { Millis } from '../../../../app/core/units.ts';
import { repText } from '../../../../app/core/words/rep.ts';
import { TOO_SOON, tenthText } from '../../../../app/core/words/time/hand-time.ts';
import type { RunMoment } from '../frames.ts';
import { useDeck, type Tools } from '../use-deck.ts';

export interface TimedRep {
  readonly leave: Leave;
  readonly time: Millis;
  /** Whether nobody swims that fast. */
  readonly isTooSoon: boolean;
  /** The host cannot be reached, and does not know of it yet. */
  readonly isUnsent: boolean;
}

export interface Touching {
  /** What the last tap came to, or why the host does not keep it; empty at first. */
  readonly said: string;
  touch(lane: number, t: Millis): void;
  /** The rep that a touch of this lane ends now, or its last where nobody can be back yet; null before its first leave. */
  swum(lane: number): Leave | null;
  /** The first rep of a set that is counted down: until it has left nothing ends in the lane. null otherwise. */
  toCome(lane: number): NextRep | null;
  /** Reps that have a time, the one that came in last first. */
  readonly timed: readonly TimedRep[];
  takeBack(rep: TimedRep): void;
}

export function useTouching({ touches, link }: Pick<Tools, 'touches' | 'link'>, moment: RunMoment): Touching {
  const { times, refused } = useSyncExternalStore(touches.subscribe, touches.state);
  const [said, setSaid] = useState('');
  const isLost = useDeck(link, ({ status }) => status === 'lost');
  const { run } = moment;
  const { unit } = moment.view.plan.session.pool;
  const leaves = leavesIn(moment.view);
  const hasOwn = (leave: Leave): boolean => touches.hasOwn(run.id, leave);
  const whatText = ({ rep }: Leave): string => `${repText(rep, unit)}, ${rep.rep} of ${rep.of}`;
  return {
    said: refused ?? said,
    touch(lane, t) {
      // A finger may have come down just before the last command.
      const known = Math.max(Math.floor(t), run.commands[run.commands.length - 1]?.at ?? 0);
      const at = view(run.state, known);
      const { part } = at.stretch;
      if (toComeIn(at, lane)) return setSaid(`Lane ${lane}: nobody has left${part === '' ? '' : ` in ${part}`} yet.`);
      const own = leavesIn(at).filter((leave) => leave.lane === lane);
      const leave = touched(own, t, unit, hasOwn);
      if (!leave) return setSaid(`Lane ${lane}: nobody can be back yet.`);
      if (hasOwn(leave)) return setSaid(`Lane ${lane} has its time: take it back first.`);
      const watch = Math.round(t - leave.at);
      touches.add(run.id, { lane, at: leave.at, watch });
      const doubt = isTooSoon(watch, leave.rep.distance, unit) ? `, ${TOO_SOON} Take it back if nobody came in` : '';
      setSaid(`Lane ${lane}: ${tenthText(watch)}, ${whatText(leave)}${doubt}.`);
    },
    swum(lane) {
      const own = leaves.filter((leave) => leave.lane === lane);
      return touched(own, moment.view.t, unit, hasOwn) ?? own[own.length - 1] ?? null;
    },
    toCome: (lane) => toComeIn(moment.view, lane),
    timed: leaves
      .flatMap((leave) => {
        const watches = times.find(({ lane, at }) => lane === leave.lane && at === leave.at)?.watches;
        if (!watches) return [];
        const time = handTime(watches);
        // With the host in reach a touch is on its way for a moment only.
        const isUnsent = (isLost || refused !== null) && touches.isUnsent(run.id, leave);
        return [{ leave, time, isTooSoon: isTooSoon(time, leave.rep.distance, unit), isUnsent }];
      })
      .sort((a, b) => b.leave.at + b.time - a.leave.at - a.time),
    takeBack({ leave }) {
      touches.add(run.id, { lane: leave.lane, at: leave.at, watch: null });
      setSaid(`Lane ${leave.lane}: time of ${whatText(leave)}, taken back.`);
    },
  };
}

function toComeIn({ phase, lanes }: RunView, lane: number): NextRep | null {
  const own = lanes.find(({ number }) => number === lane);
  return phase === 'going' && own && !own.leftHere ? own.next : null;
}
