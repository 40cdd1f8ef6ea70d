/*
 * One loop of animation frames for a page. On each frame the run is looked at once and everything that counts is
 * drawn; React is told only when more than a counting digit has changed. If one of them throws, the others and the
 * next frame still come.
 */

import type { Link } from '../../link/link.ts';
import { guarded, reportMishap } from '../../link/mishap.ts';
import type { DeckRun } from '../../link/store.ts';
import { view, type RunView } from '../../../app/core/run/view.ts';
import { stopSettles } from './commands/refusal.ts';

/** The run with its view at one instant. */
export interface RunMoment {
  readonly run: DeckRun;
  readonly view: RunView;
}

export interface Frames {
  /** Calls back on each frame, with null if there is no run or no clock. Returns the function that ends this. */
  draw(each: (moment: RunMoment | null) => void): () => void;
  /** Calls back when a lane, the stretch or the second has changed. */
  changed(call: () => void): () => void;
  /** As of the last frame. */
  latest(): RunMoment | null;
  /** As of the last change: the same object until the next one. */
  shown(): RunMoment | null;
  stop(): void;
}

/** How often the run is looked at if the browser gives no frames, as for a page that is covered, in ms. */
const SELDOM = 250;

export function startFrames(link: Link): Frames {
  const drawers = new Set<(moment: RunMoment | null) => void>();
  const watchers = new Set<() => void>();
  let moment: RunMoment | null = null;
  let shownAs = '';
  let shown: RunMoment | null = null;
  let frame = 0;

  function look(): void {
    const seen = momentOf(link, moment);
    // If the run cannot be worked out, its digits are blanked; the buttons stay as they were.
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

/** `before` itself where nothing has changed and no time has passed, as in a rehearsal that stands still. */
function momentOf(link: Link, before: RunMoment | null): RunMoment | null | 'unknown' {
  try {
    const { run } = link.store.getState();
    const t = link.now();
    if (!run || t === null) return null;
    return before?.run === run && before.view.t === t ? before : { run, view: view(run.state, t) };
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

/** A text that changes whenever more than counting digits has to be drawn. */
function outline(moment: RunMoment | null): string {
  if (!moment) return 'none';
  const { view: now, run } = moment;
  const lanes = now.lanes.map(
    ({ state, next, last, swimmers, gap }) =>
      `${state} ${next ? next.at : ''} ${last ? last.away : ''} ${swimmers} ${gap}`,
  );
  return `${run.id} ${now.phase} ${now.index} ${Math.floor(now.t / 1000)} ${stopSettles(now)} ${lanes.join('|')}`;
}
