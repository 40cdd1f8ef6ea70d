/*
 * Draws the run on the board, frame after frame. Most frames have nothing to do. What comes with the next second is worked
 * out in the frames before, and written as soon as it is due, so that the frame that shows it only has to lay it out and
 * paint it; where no timer came in time that frame writes it itself.
 */

import { view, type RunView } from '../../../app/core/run/view.ts';
import { MINUTE, type Millis } from '../../../app/core/units.ts';
import { readingPast } from '../../../app/core/words/time/reading.ts';
import type { Link } from '../../link/link.ts';
import { reportMishap } from '../../link/mishap.ts';
import type { DeckRun } from '../../link/store.ts';
import { DO_NOT_LEAVE, offText } from '../../ui/clock-words.ts';
import { lastAbandoned } from '../../ui/leaving.ts';
import { createMeasure } from '../../ui/digits/measure.ts';
import { createBoardPainter, type Said } from './board-painter.ts';
import type { LostText } from '../head/head-painter.ts';
import type { Layout } from '../layout.ts';
import type { WallChoice } from '../screen/wall-choice.ts';
import { hiddenWriter } from './writers.ts';

/** A screen that has slept does not know the time: better none than a wrong one. */
const NO_TIME = "Setting this screen's clock\nIt must hear from the program first.";

const NO_RUN = "This screen cannot work out the run\nLeave at the coach's word, and load this page again.";

/** A lost link is said large from then on. */
const LONG_LOST = MINUTE;

const RUNS_ON = 'This clock runs on by itself.';

/** So long before a change it is worked out: several frames, also of a slow screen. */
const AHEAD: Millis = 400;

/** A change that is no farther off may come before the next frame. */
const NEXT_FRAME: Millis = 25;

/** Draws on every frame until what it returns is called; where there is nothing to draw it hides the board and says why. */
export function draw(
  board: HTMLElement,
  link: Link,
  choice: WallChoice,
  layout: Layout,
  onInstead: (text: string | null) => void,
): () => void {
  const painter = createBoardPainter(board, layout, choice, createMeasure(600));
  const hide = hiddenWriter(board);
  let frame = 0;
  let due: ReturnType<typeof setTimeout> | undefined;
  let saidInstead: string | null = null;
  // What was painted last, and whether it stands there whole; and what comes next.
  let now: Said | null = null;
  let isWhole = false;
  let ahead: Said | null = null;
  let saidLost: string | null = null;

  function sayInstead(text: string | null): void {
    if (text !== saidInstead) onInstead((saidInstead = text));
    hide(text !== null);
  }

  function onFrame(): void {
    frame = requestAnimationFrame(onFrame);
    paint();
    clearTimeout(due);
    const exact = link.exactNow();
    if (!now || exact === null || now.until - exact > NEXT_FRAME) return;
    due = setTimeout(paint, Math.ceil(now.until - exact));
  }

  function paint(): void {
    const t = link.now();
    const own = performance.now();
    const lost = lostText(link);
    const { run } = link.store.getState();
    if (!run) return hide(true);
    if (t === null) return sayInstead(NO_TIME);
    if (now && isWhole && holds(now, t) && wordsOf(lost) === saidLost) {
      painter.move(t, own);
      if (!ahead && now.until - t <= AHEAD) ahead = workOut(run, now.until);
      return;
    }
    if (!now || !holds(now, t)) {
      now = ahead && holds(ahead, t) ? ahead : workOut(run, t);
      ahead = null;
    }
    sayInstead(now ? null : NO_RUN);
    if (!now) return;
    saidLost = wordsOf(lost);
    const painted = painter.paint(now, own, lost);
    painter.move(t, own);
    isWhole = painted === 'whole';
    // What has failed is worked out anew.
    if (painted === 'failed') now = null;
  }

  function workOut(run: DeckRun, t: Millis): Said | null {
    const now = viewAt(run, t);
    if (!now) return null;
    return painter.workOut({ view: now, openedAt: run.openedAtTimeOfDay, abandonedAt: lastAbandoned(run.commands) });
  }

  const forget = link.store.subscribe(() => {
    now = ahead = null;
    painter.again();
  });
  onFrame();
  return () => {
    forget();
    clearTimeout(due);
    cancelAnimationFrame(frame);
  };
}

function wordsOf(lost: LostText | null): string {
  return `${lost?.text} ${lost?.more}`;
}

function holds({ view, until }: Said, t: Millis): boolean {
  return t >= view.t && t < until;
}

/** null where the run cannot be worked out. */
function viewAt({ state }: DeckRun, t: Millis): RunView | null {
  try {
    return view(state, t);
  } catch (error) {
    reportMishap('working out the run', error);
    return null;
  }
}

/** What is wrong with the link or the clock. The clock goes by itself without a link, until it is too bad to leave on. */
function lostText(link: Link): LostText | null {
  const lost = link.lostFor();
  const { clockQuality } = link.store.getState();
  const lostFor = lost === null ? null : `Link lost for ${readingPast(lost)}`;
  if (clockQuality?.quality === 'poor') return { text: DO_NOT_LEAVE, more: lostFor ?? offText(clockQuality) };
  if (lost !== null && lostFor !== null) return { text: lostFor, more: lost >= LONG_LOST ? RUNS_ON : null };
  return clockQuality?.quality === 'fair' ? { text: 'Clock: fair', more: null } : null;
}
