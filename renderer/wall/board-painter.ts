/*
 * Draws the face of the whole wall screen, on every frame, into the structure that React has made. Each part
 * of it fails by itself.
 */

import type { RunView } from '../../app/core/run/view.ts';
import { MINUTE, type Millis } from '../../app/core/units.ts';
import type { Measure } from '../ui/fit-text.ts';
import { createCalloutPainter } from './callout/callout-painter.ts';
import { clockFace, handAt } from './clock-text.ts';
import { driftAt } from './screen/drift.ts';
import { calloutOf, modeOf, stripFace } from './face.ts';
import type { FaceMark, FaceNow } from './faces/clock-face.ts';
import { createGuard } from './screen/guard.ts';
import { headFace, NOTHING_SHARED, sharedBy } from './head/head-face.ts';
import { createHeadPainter, type LostText } from './head/head-painter.ts';
import type { WallChoice } from './screen/wall-choice.ts';
import type { LaneFace } from './strips/lane-face.ts';
import type { Layout } from './layout.ts';
import { createLights, type Looks } from './strips/light.ts';
import { nextChange } from './next-change.ts';
import { createNextSaid } from './next-said.ts';
import { smallForm } from './strips/small-words.ts';
import { createStripPainter } from './strips/strip-painter.ts';
import { attributeWriter, placeIn } from './writers.ts';

export interface BoardPainter {
  /** Until when nothing else changes than what `move` moves, unless the host says something new; not after the scene's time where that is not certain. */
  paint(scene: Scene): Millis;
  /** Moves water and hand on, from what was painted last. */
  move(t: Millis): void;
  /** The host has said something new: what could not be drawn is tried again. */
  again(): void;
}

/** What is drawn on a frame. */
export interface Scene {
  readonly view: RunView;
  /** Local time of day at t = 0, in ms after midnight. */
  readonly openedAt: Millis;
  /** When a stretch was given up last; -Infinity for never. */
  readonly abandonedAt: Millis;
  /** The screen's own clock, in ms. */
  readonly own: number;
  readonly lost: LostText | null;
}

export function createBoardPainter(
  board: HTMLElement,
  layout: Layout,
  choice: WallChoice,
  measure: Measure,
): BoardPainter {
  const setMode = attributeWriter(board, 'data-mode');
  const setLost = attributeWriter(board, 'data-lost');
  const clock = createGuard(placeIn(board, 'clock-box'), CLOCK, () => {
    const box = placeIn(board, 'clock');
    box.textContent = '';
    return layout.face.place(box, layout.clock, choice);
  });
  const head = createGuard(placeIn(board, 'head-words'), HEAD, () => createHeadPainter(board, layout, choice, measure));
  const callout = createGuard(placeIn(board, 'callout'), CALLOUT, () => createCalloutPainter(board, layout, measure));
  const strips = new Map(
    Array.from(board.querySelectorAll<HTMLElement>('[data-lane]'), (strip) => [
      Number(strip.dataset['lane']),
      createGuard(strip, laneWords(strip.dataset['lane']!), () => createStripPainter(strip, layout, choice, measure)),
    ]),
  );
  const sayNext = createNextSaid(
    board.querySelector<HTMLElement>('[data-said]')!,
    Array.from(strips.keys()),
    choice.clock,
  );
  const parts = [clock, head, callout, ...Array.from(strips.values())];
  const lights = createLights<LaneFace['state']>('leaving');
  let place = '';
  let shown: { readonly at: Millis; readonly face: FaceNow } | null = null;

  /** The strips' faces, as far as they can be worked out. */
  function facesOf({ view, abandonedAt }: Scene): readonly LaneFace[] {
    const faces: LaneFace[] = [];
    view.lanes.forEach((lane, index) => {
      const face = strips.get(lane.number)?.work(() => stripFace(view, lane, index, choice.clock, abandonedAt));
      if (face) faces.push(face);
    });
    return faces;
  }

  function move(t: Millis): void {
    if (shown) {
      const { at, face } = shown;
      clock.draw((paintFace) => paintFace({ ...face, hand: (face.hand + t - at) % MINUTE }));
    }
    strips.forEach((strip) => strip.draw((painter) => painter.move(t)));
  }

  return {
    paint(scene) {
      const { view, openedAt, own, lost } = scene;
      const mode = modeOf(view);
      setMode(mode);
      setLost(lost ? (lost.large ? 'large' : 'small') : '');
      const faces = facesOf(scene);
      const looks = lights.at(own, new Map(faces.map(({ number, state }) => [number, state])));
      const shared = head.work(() => sharedBy(view, faces)) ?? NOTHING_SHARED;
      head.work(() => sayNext(view));
      const { clock: shows } = choice;
      const face = clock.work(() => {
        const marks = mode === 'swim' ? marksOf(view, choice, looks) : [];
        return { text: clockFace(view, shows).text, hand: handAt(shows, view, view.t), marks };
      });
      shown = face && { at: view.t, face };
      head.draw((write) => {
        const { label } = clockFace(view, shows);
        const bare = mode !== 'swim';
        write({ head: headFace(view, openedAt, shows), shared, label, lost, bare });
      });
      callout.draw((write) => write(calloutOf(view, openedAt), shared));
      const isShared = shared.words !== '';
      const small = mode === 'swim' ? null : smallForm(faces, isShared, layout, measure, choice);
      for (const face of faces) {
        const look = looks.get(face.number) ?? face.state;
        strips.get(face.number)?.draw((strip) => strip.paint(face, look, small, isShared));
      }
      const { x, y } = driftAt(own, layout.drift);
      const moved = `translate(${x}px, ${y}px)`;
      if (moved !== place) board.style.transform = place = moved;
      move(view.t);
      return lights.isLate() || parts.some((part) => part.isDown()) ? view.t : nextChange(view, openedAt);
    },
    move,
    again() {
      for (const part of parts) part.again();
    },
  };
}

/** Of the hand. */
const TURN: Millis = MINUTE;

/** The next leaves of the lanes that are shown, or the leave that is happening. */
function marksOf(view: RunView, { clock }: WallChoice, looks: Looks<LaneFace['state']>): readonly FaceMark[] {
  const marks: FaceMark[] = [];
  for (const { number, next, last } of view.lanes) {
    const look = looks.get(number);
    if (look !== 'waiting' && look !== 'ready' && look !== 'leaving') continue;
    const at = look === 'leaving' ? last?.at : next?.at;
    if (at === null || at === undefined) continue;
    marks.push({ lane: number, hand: handAt(clock, view, at), look: at - view.t > TURN ? 'later' : look });
  }
  return marks;
}

const CLOCK = { name: 'The clock', advice: "Go by the pool's clock and the coach's word." };
const HEAD = { name: 'The head', advice: 'Ask the coach what is swum; the leaves go on.' };
const CALLOUT = { name: 'What comes next', advice: 'Ask the coach.' };

function laneWords(lane: string): { readonly name: string; readonly advice: string } {
  return { name: `Lane ${lane}`, advice: "Leave at the coach's word." };
}
