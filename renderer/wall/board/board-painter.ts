/*
 * Draws the face of the whole wall screen into the structure that React has made: first it is worked out, which may be
 * done before it is due, then written where it differs from what stands there. Each part of it fails by itself.
 */

import type { RunView } from '../../../app/core/run/view.ts';
import { MINUTE, type Millis } from '../../../app/core/units.ts';
import type { Measure } from '../../ui/digits/fit-text.ts';
import { createCalloutPainter } from '../callout/callout-painter.ts';
import { clockFace, handAt } from '../says/clock-text.ts';
import { driftAt } from '../screen/drift.ts';
import { calloutOf, modeOf, stripFace, type WallMode } from '../says/face.ts';
import type { Callout } from '../callout/callout-face.ts';
import { moveHand, type FaceMark } from '../faces/clock-face.ts';
import { canRun } from './flow.ts';
import { createGuard } from '../screen/guard.ts';
import { headFace, NOTHING_SHARED, sharedBy, type Head, type Shared } from '../head/head-face.ts';
import { createHeadPainter, type LostText } from '../head/head-painter.ts';
import type { WallChoice } from '../screen/wall-choice.ts';
import type { LaneFace } from '../strips/lane-face.ts';
import type { Layout } from '../layout.ts';
import { createLights, type Looks } from '../strips/light.ts';
import { nextChange } from '../says/next-change.ts';
import { createNextSaid } from '../says/next-said.ts';
import { createPace } from './pace.ts';
import { createShownLanes } from '../says/shown-lanes.ts';
import { smallForm, type SmallForm } from '../strips/small-words.ts';
import { createStripPainter } from '../strips/strip-painter.ts';
import { attributeWriter, placeIn } from './writers.ts';

export interface BoardPainter {
  /** What is to be said at a scene's time; touches nothing, so it can be done beforehand. */
  workOut(scene: Scene): Said;
  /** own: the screen's own clock, in ms. */
  paint(said: Said, own: number, lost: LostText | null): Painted;
  /** Moves water and hand on, from what was painted last. */
  move(t: Millis, own: number): void;
  /** The host has said something new: what could not be drawn is tried again. */
  again(): void;
}

/** late: a lane's look has still to change, see `light.ts`; failed: a sentence stands in the place of a part. */
export type Painted = 'whole' | 'late' | 'failed';

export interface Scene {
  readonly view: RunView;
  /** Local time of day at t = 0, in ms after midnight. */
  readonly openedAt: Millis;
  /** When a stretch was given up last; -Infinity for never. */
  readonly abandonedAt: Millis;
}

/** What the wall says from the view's time on; null for what cannot be worked out. */
export interface Said {
  readonly view: RunView;
  readonly mode: WallMode;
  /** Of the lanes that are shown. */
  readonly faces: readonly LaneFace[];
  readonly clock: string | null;
  readonly head: { readonly head: Head; readonly label: string } | null;
  readonly shared: Shared;
  readonly callout: { readonly shows: Callout | null } | null;
  readonly small: SmallForm | null;
  /** When the first of it changes. */
  readonly until: Millis;
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
  const shownOf = createShownLanes(Array.from(strips.keys()));
  const pace = createPace();
  const mayRun = canRun(board);
  let place = '';
  let shown: { readonly at: Millis; readonly hand: Millis } = { at: 0, hand: 0 };
  // How far behind the page's own time things run; null while they are put where they stand.
  let running: number | null = null;

  function facesOf({ view, abandonedAt }: Scene): readonly LaneFace[] {
    const faces: LaneFace[] = [];
    view.lanes.forEach((lane, index) => {
      const face = strips.get(lane.number)?.work(() => stripFace(view, lane, index, choice.clock, abandonedAt));
      if (face) faces.push(face);
    });
    return faces;
  }

  function move(t: Millis, own: number): void {
    const behind = mayRun ? pace.behind(t, own) : null;
    if (behind !== null && behind === running) return;
    running = behind;
    const { at, hand } = shown;
    clock.draw((face) => moveHand(face, hand + t - at, t, behind));
    strips.forEach((strip) =>
      strip.draw(({ water }) => {
        if (behind === null) water.stand(t);
        else water.run(behind);
      }),
    );
  }

  return {
    workOut(scene) {
      const { view, openedAt } = scene;
      const { clock: by } = choice;
      const mode = modeOf(view);
      const faces = facesOf(scene);
      // Worked out only where it is asked for, so that what fails there fails by itself.
      const own = (): RunView => (ownView ??= shownOf(view));
      let ownView: RunView | null = null;
      const shared = head.work(() => sharedBy(own(), faces)) ?? NOTHING_SHARED;
      return {
        view,
        mode,
        faces,
        shared,
        clock: clock.work(() => clockFace(view, by).text),
        head: head.work(() => ({ head: headFace(own(), openedAt, by), label: clockFace(view, by).label })),
        callout: callout.work(() => ({ shows: calloutOf(own(), openedAt, choice.words, faces) })),
        small: mode === 'swim' ? null : smallForm(faces, shared.words !== '', layout, measure, choice),
        until: nextChange(view, openedAt, by),
      };
    },
    paint(said, own, lost) {
      const { view, mode, faces, shared, small } = said;
      setMode(mode);
      setLost(lost ? (lost.more === null ? 'small' : 'large') : '');
      const looks = lights.at(own, new Map(faces.map(({ number, state }) => [number, state])));
      // What is due comes first: the clock, then the strips.
      const text = said.clock;
      if (text !== null) {
        shown = { at: view.t, hand: handAt(choice.clock, view, view.t) };
        clock.draw((face) =>
          face.paint({ text, marks: face.hand && mode === 'swim' ? marksOf(view, choice, looks) : [] }),
        );
      }
      for (const face of faces) {
        const look = looks.get(face.number) ?? face.state;
        strips.get(face.number)?.draw((strip) => strip.paint(face, look, small, shared.words !== ''));
      }
      const words = said.head;
      if (words) head.draw((write) => write({ ...words, shared, lost, bare: mode !== 'swim' }));
      if (said.callout) callout.draw((write) => write(said.callout!.shows, choice.words ? shared : NOTHING_SHARED));
      head.work(() => sayNext(view));
      const { x, y } = driftAt(own, layout.drift);
      const moved = `translate(${x}px, ${y}px)`;
      if (moved !== place) board.style.transform = place = moved;
      running = null;
      if (parts.some((part) => part.isDown())) return 'failed';
      return lights.isLate() ? 'late' : 'whole';
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
