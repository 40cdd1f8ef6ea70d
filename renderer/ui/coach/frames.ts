/*
 * One loop of animation frames for a page: on each the run is looked at once, and whoever draws is
 * told. What React shows is told less often: when something changes that is more than a digit. A throw of
 * one of them keeps neither the others nor the next frame from coming.
 */

import type { Link } from '../../link/link.ts';
import { guarded, reportMishap } from '../../link/mishap.ts';
import type { DeckRun } from '../../link/store.ts';
import { view, type RunView } from '../../../app/core/run/view.ts';
import { stopSettles } from './commands/refusal.ts';

/** The run as it is looked at on a frame. */
export interface RunMoment {
  readonly run: DeckRun;
  readonly view: RunView;
}

export interface Frames {
  /** Calls with each frame's moment (null without a run or a clock) until what it returns is called. */
  draw(each: (moment: RunMoment | null) => void): () => void;
  /** Calls when a lane, the stretch or the second has changed. */
  changed(call: () => void): () => void;
  /** The last frame's moment. */
  latest(): RunMoment | null;
  /** The moment of the last change: the same until the next. */
  shown(): RunMoment | null;
  stop(): void;
}

/** Where the browser gives no frames (a page that is covered), the run is still looked at so often, in ms. */
const SELDOM = 250;

export function startFrames(link: Link): Frames {
  const drawers = new Set<(moment: RunMoment | null) => void>();
  const watchers = new Set<() => void>();
  let moment: RunMoment | null = null;
  let shownAs = '';
  let shown: RunMoment | null = null;
  let frame = 0;

  function look(): void {
    const seen = momentOf(link);
    // Digits of which nobody knows whether they are right are not shown; the buttons stay, by what was known last.
    moment = seen === 'unknown' ? null : seen;
    for (const each of drawers) each(moment);
    const now = seen === 'unknown' ? shownAs : outline(seen);
    if (now === shownAs) return;
    shownAs = now;
    shown = moment;
    for (const call of watchers) call();
  }

  function onFrame(): void {
    frame = requestAnimationFrame(onFrame);
    look();
  }

  const timer = setInterval(look, SELDOM);
  const forget = link.store.subscribe(() => {
    shownAs = '';
  });
  onFrame();

  return {
    draw: (each) => subscribe(drawers, guarded('drawing what counts', each)),
    changed: (call) => subscribe(watchers, guarded('drawing what changes', call)),
    latest: () => moment,
    shown: () => shown,
    stop() {
      clearInterval(timer);
      cancelAnimationFrame(frame);
      forget();
    },
  };
}

function momentOf(link: Link): RunMoment | null | 'unknown' {
  try {
    const { run } = link.store.getState();
    const t = link.now();
    return run && t !== null ? { run, view: view(run.state, t) } : null;
  } catch (error) {
    reportMishap('working out the run', error);
    return 'unknown';
  }
}

function subscribe<Call>(calls: Set<Call>, call: Call): () => void {
  calls.add(call);
  return () => {
    calls.delete(call);
  };
}

/** Differs where a page has more to change than digits that count. */
function outline(moment: RunMoment | null): string {
  if (!moment) return 'none';
  const { view: now, run } = moment;
  const lanes = now.lanes.map(
    ({ state, next, last, swimmers, gap }) =>
      `${state} ${next ? next.at : ''} ${last ? last.away : ''} ${swimmers} ${gap}`,
  );
  return `${run.id} ${now.phase} ${now.index} ${Math.floor(now.t / 1000)} ${stopSettles(now)} ${lanes.join('|')}`;
}
