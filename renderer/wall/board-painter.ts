/*
 * Draws the face of the whole wall screen, on every frame, into the structure that React has made. Each part
 * of it fails by itself.
 */

import type { ClockChoice } from '../../app/core/run/readings.ts';
import type { RunView } from '../../app/core/run/view.ts';
import type { Millis } from '../../app/core/units.ts';
import { createDigits } from '../ui/digits.ts';
import type { Measure } from '../ui/fit-text.ts';
import { driftAt } from './drift.ts';
import { calloutOf, clockFace, modeOf, stripFace, type WallMode } from './face.ts';
import { createGuard } from './guard.ts';
import { headFace, type Callout, type Head } from './head-face.ts';
import type { LaneFace } from './lane-face.ts';
import type { Layout } from './layout.ts';
import { createLights } from './light.ts';
import { createStripPainter } from './strip-painter.ts';
import { attributeWriter, placeIn, wordsWriter, type Writer } from './writers.ts';

export interface BoardPainter {
  paint(scene: Scene): void;
  /** The host has said something new: what could not be drawn is tried again. */
  again(): void;
}

/** What is drawn on a frame. */
export interface Scene {
  readonly view: RunView;
  /** Local time of day at t = 0, in ms after midnight. */
  readonly openedAt: Millis;
  readonly choice: ClockChoice;
  /** When a stretch was given up last; -Infinity for never. */
  readonly abandonedAt: Millis;
  /** The screen's own clock, in ms. */
  readonly own: number;
  readonly lost: LostText | null;
}

/** What is said of a lost link; `large` after a minute. */
export interface LostText {
  readonly text: string;
  readonly large: boolean;
}

/** The most lines of a part that are listed while its start is waited for. */
const MOST_LINES = 6;

export function createBoardPainter(board: HTMLElement, layout: Layout, measure: Measure): BoardPainter {
  const setMode = attributeWriter(board, 'data-mode');
  const setLost = attributeWriter(board, 'data-lost');
  const clock = createGuard(placeIn(board, 'clock-box'), CLOCK, () => {
    const box = placeIn(board, 'clock');
    box.textContent = '';
    return layout.face.place(box, layout.clock);
  });
  const head = createGuard(placeIn(board, 'head-words'), HEAD, () => headWriters(board, layout, measure));
  const callout = createGuard(placeIn(board, 'callout'), CALLOUT, () => calloutWriter(board, layout, measure));
  const strips = new Map(
    Array.from(board.querySelectorAll<HTMLElement>('[data-lane]'), (strip) => [
      Number(strip.dataset['lane']),
      createGuard(strip, laneWords(strip.dataset['lane']!), () => createStripPainter(strip, layout, measure)),
    ]),
  );
  const lights = createLights();
  let place = '';

  /** The strips' faces, as far as they can be worked out. */
  function facesOf({ view, choice, abandonedAt }: Scene): readonly LaneFace[] {
    const faces: LaneFace[] = [];
    view.lanes.forEach((lane, index) => {
      const face = strips.get(lane.number)?.work(() => stripFace(view, lane, index, choice, abandonedAt));
      if (face) faces.push(face);
    });
    return faces;
  }

  return {
    paint(scene) {
      const { view, openedAt, choice, own, lost } = scene;
      const mode = modeOf(view);
      setMode(mode);
      setLost(lost ? (lost.large ? 'large' : 'small') : '');
      clock.draw((paintFace) => paintFace({ text: clockFace(view, choice).text }));
      head.draw((write) => write(headFace(view, openedAt, choice), clockFace(view, choice).label, lost));
      callout.draw((write) => write(calloutOf(view, openedAt), mode));
      const faces = mode === 'done' ? [] : facesOf(scene);
      const light = lights.at(view.t, leaving(faces));
      for (const face of faces) {
        strips.get(face.number)?.draw((strip) => strip.paint(face, light.has(face.number), mode !== 'swim'));
      }
      const { x, y } = driftAt(own, layout.drift);
      const moved = `translate(${x}px, ${y}px)`;
      if (moved !== place) board.style.transform = place = moved;
    },
    again() {
      for (const part of [clock, head, callout, ...strips.values()]) part.again();
    },
  };
}

const CLOCK = { name: 'The clock', advice: "Go by the pool's clock and the coach's word." };
const HEAD = { name: 'The head', advice: 'Ask the coach what is swum; the leaves go on.' };
const CALLOUT = { name: 'What comes next', advice: 'Ask the coach.' };

function laneWords(lane: string): { readonly name: string; readonly advice: string } {
  return { name: `Lane ${lane}`, advice: "Leave at the coach's word." };
}

function leaving(faces: readonly LaneFace[]): ReadonlySet<number> {
  return new Set(faces.filter(({ state }) => state === 'leaving').map(({ number }) => number));
}

function headWriters(board: HTMLElement, layout: Layout, measure: Measure) {
  const { wordsWidth: width, wordsHeight: height } = layout;
  const write = (name: string, share: number, part = 1): Writer => {
    const size = height * share;
    return wordsWriter(placeIn(board, name), { width: width * part, size, least: size * 0.6 }, measure);
  };
  // Under the clock there is less height and more width: the end stands at the title's side.
  const beside = layout.head === 'beside';
  const title = write('title', beside ? 0.33 : 0.4, beside ? 1 : 0.58);
  const set = write('set', beside ? 0.22 : 0.3);
  const then = write('then', beside ? 0.19 : 0.26, beside ? 1 : 0.66);
  const end = write('end', beside ? 0.19 : 0.28, beside ? 0.66 : 0.4);
  const label = write('clock-label', beside ? 0.33 : 0.4, beside ? 1 : 0.58);
  const lostSmall = write('lost', beside ? 0.19 : 0.26, 0.32);
  return (head: Head, clockLabel: string, lost: LostText | null): void => {
    // In a countdown the label is read with the clock, in the title's place.
    label(lost?.large === true ? '' : clockLabel);
    title(lost?.large === true ? lost.text : clockLabel === '' ? head.title : '');
    set(lost?.large === true ? 'This clock runs on by itself.' : head.set);
    then(lost?.large === true ? '' : head.then);
    const small = lost !== null && !lost.large;
    // Under the clock both have the same place.
    end(small && !beside ? '' : head.end);
    lostSmall(small ? lost.text : '');
  };
}

function calloutWriter(
  board: HTMLElement,
  layout: Layout,
  measure: Measure,
): (callout: Callout | null, mode: WallMode) => void {
  const root = placeIn(board, 'callout');
  const list = placeIn(board, 'callout-lines');
  const leftElement = placeIn(board, 'left');
  const left = createDigits(leftElement);
  const { height, captionHeight, leftCap } = layout.callout;
  const captionPlace = { width: layout.width, size: captionHeight * 0.8, least: captionHeight * 0.5 };
  const caption = wordsWriter(placeIn(board, 'callout-lanes'), captionPlace, measure);
  const wide = layout.head === 'beside';
  let shown = '';
  return (callout, mode) => {
    root.hidden = callout === null;
    caption(callout?.lanes ?? '');
    leftElement.hidden = callout === null || callout.left === '';
    if (!callout) return;
    left.show(callout.left);
    const key = JSON.stringify([mode, callout.title, callout.lines]);
    if (key === shown) return;
    shown = key;
    // Beside the time left the words have less room.
    const width = layout.width - (callout.left !== '' && wide ? layout.clock.width * 1.1 : 0);
    const free = callout.left !== '' && !wide ? height - leftCap * 1.3 : height;
    const most = Math.min(layout.clock.cap * 0.75, free * 0.3);
    // One line rather than two, where that is not much smaller.
    const onOneLine = width / measure(callout.title);
    const size = onOneLine >= most * 0.6 ? Math.min(most, onOneLine) : most;
    const title = { width, height: free * 0.46, size, least: size * 0.35 };
    wordsWriter(placeIn(board, 'callout-title'), title, measure)(callout.title);
    writeLines(list, callout.lines, width, free * 0.46, most * 0.62, measure);
  };
}

function writeLines(
  list: HTMLElement,
  lines: readonly string[],
  width: number,
  height: number,
  most: number,
  measure: Measure,
): void {
  const more = lines.length - MOST_LINES;
  const shown = more > 0 ? [...lines.slice(0, MOST_LINES - 1), `and ${more + 1} more`] : lines;
  const size = Math.min(most, height / (shown.length * 1.25));
  list.textContent = '';
  for (const text of shown) {
    const element = list.appendChild(list.ownerDocument.createElement('li'));
    const write: Writer = wordsWriter(element, { width, size, least: size * 0.6 }, measure);
    write(text);
  }
}
