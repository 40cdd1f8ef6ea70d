/*
 * Draws a lane's face into its strip.
 */

import { createDigits } from '../../ui/digits.ts';
import type { Measure } from '../../ui/fit-text.ts';
import type { PushOff } from '../screen/lane-choice.ts';
import type { LaneFace } from './lane-face.ts';
import type { Layout } from '../layout.ts';
import { smallWords } from './small-words.ts';
import { attributeWriter, firstThatFits, fuller, joined, placeIn, wholeWriter } from '../writers.ts';

export interface StripPainter {
  /** look: the one it may have now; small: the form while nobody swims; shared: whether the head says its words. */
  paint(face: LaneFace, look: LaneFace['state'], small: boolean, shared: boolean): void;
}

/** Steps of the water's edge, by its full width: finer than anyone sees, and few enough to draw. */
const WATER_STEPS = 1200;

export function createStripPainter(strip: HTMLElement, layout: Layout, from: PushOff, measure: Measure): StripPainter {
  const state = attributeWriter(strip, 'data-state');
  const leaves = attributeWriter(strip, 'data-leaves');
  const leaveElement = placeIn(strip, 'leave');
  const leave = createDigits(leaveElement);
  const secondsElement = placeIn(strip, 'seconds');
  const seconds = createDigits(secondsElement);
  const long = attributeWriter(secondsElement, 'data-long');
  const dots = createDots(placeIn(strip, 'dots'));
  const water = createWater(placeIn(strip, 'water'), from);
  // The two forms share their places, so each begins anew what it writes there.
  let form: boolean | null = null;
  let words: WordsPainter = () => {};

  return {
    paint(face, look, small, shared) {
      state(look);
      leaves(face.dots ? 'yes' : '');
      leaveElement.hidden = face.leave === '';
      leave.show(face.leave);
      secondsElement.hidden = face.seconds === '';
      seconds.show(face.seconds);
      long(face.seconds.length > 2 ? `${face.seconds.length}` : '');
      dots(face.dots);
      water(face.water);
      if (form !== small) words = (small ? smallWords : WORDS[layout.lanes.form])(strip, layout, measure);
      form = small;
      words(face, shared);
    },
  };
}

export type WordsPainter = (face: LaneFace, shared: boolean) => void;

type MakeWords = (strip: HTMLElement, layout: Layout, measure: Measure) => WordsPainter;

const WORDS: { readonly [form in Layout['lanes']['form']]: MakeWords } = {
  columns: besideWords,
  stack: besideWords,
  below: belowWords,
};

/** Words smaller than this share of what they should be are left out. */
const LEAST = 0.62;

function besideWords(strip: HTMLElement, { lanes }: Layout, measure: Measure): WordsPainter {
  const { large, small, rep, interval, words, after, leaving } = lanes;
  const write = (name: string, width: number, size: number, lines = 1) => {
    const place = { width: Math.max(1, width - small * 0.45), size, least: size * LEAST };
    const high = lines > 1 ? { ...place, height: lanes.height * 0.9 } : place;
    return wholeWriter(placeIn(strip, name), high, measure);
  };
  const writeRep = write('rep', rep.width, large);
  const writeRound = write('round', rep.width, large);
  const writeInterval = write('interval', interval.width, large);
  const writeTarget = write('target', interval.width, large);
  const writeWords = write('words', words.width, small, 2);
  const writeAfter = write('after', after.width, small);
  const turnInRep = leaving.width === 0;
  const writeTurn = write('turn', turnInRep ? rep.width : leaving.width, small);
  const word = wordWriter(strip, lanes, measure);
  return (face, shared) => {
    word(face.word);
    writeRep(face.rep);
    writeRound(turnInRep && face.turn !== '' ? face.turn : face.round);
    writeInterval(interval.width > 0 ? face.interval : '');
    writeTarget(interval.width > 0 ? face.target : '');
    writeWords(words.width > 0 && !shared ? face.words : '');
    writeAfter(after.width > 0 ? face.after : '');
    writeTurn(turnInRep ? '' : face.turn);
  };
}

/** One line or two below the digits, the last of the items going first; shorter while dots stand at its end. */
function belowWords(strip: HTMLElement, { lanes }: Layout, measure: Measure): WordsPainter {
  const { rep, large, dot, lines } = lanes;
  const place = (width: number) => ({ width: Math.max(1, width), size: large, least: large * LEAST });
  const turn = wholeWriter(placeIn(strip, 'turn'), place(rep.width * 0.5), measure);
  const first = wholeWriter(placeIn(strip, 'rep'), place(rep.width), measure);
  const second = wholeWriter(placeIn(strip, 'round'), place(rep.width), measure);
  const third = wholeWriter(placeIn(strip, 'interval'), place(rep.width), measure);
  const fourth = wholeWriter(placeIn(strip, 'target'), place(rep.width), measure);
  const word = wordWriter(strip, lanes, measure);
  return (face, shared) => {
    const dots = face.dots ? face.dots.of * dot + large * 0.8 + measure(face.turn) * large : 0;
    const words = shared ? '' : face.words;
    const fit = (items: readonly string[], width: number): string =>
      firstThatFits(fuller(...items), place(width), measure);
    word(face.word);
    turn(face.turn);
    const { rep: count, round, interval, target, after } = face;
    if (lines === 1) {
      first(fit([count, round, interval, target, words, after], rep.width - dots));
      return;
    }
    first(lines === 2 ? joined([count, round]) : count);
    second(lines === 2 ? fit([interval, target, words, after], rep.width) : round);
    if (lines === 2) return;
    third(interval);
    fourth(
      fit(
        [target, words, after].filter((item) => item !== ''),
        rep.width,
      ),
    );
  };
}

/** Stands in the places of leave and seconds: "stopped". */
function wordWriter(strip: HTMLElement, lanes: Layout['lanes'], measure: Measure): (text: string) => void {
  const width = lanes.seconds.x + lanes.seconds.width - lanes.leave.x;
  const place = { width, size: lanes.cap * 1.12, least: lanes.cap * 0.3 };
  return wholeWriter(placeIn(strip, 'word'), place, measure);
}

/** A dot a swimmer, filled as each goes. */
function createDots(element: HTMLElement): (dots: LaneFace['dots']) => void {
  let shown = '';
  return (dots) => {
    const text = dots ? `${dots.away} of ${dots.of} away` : '';
    if (text === shown) return;
    shown = text;
    const of = dots && dots.of > 1 ? dots.of : 0;
    element.hidden = of === 0;
    element.setAttribute('aria-label', text);
    while (element.childElementCount > of) element.lastElementChild?.remove();
    while (element.childElementCount < of) element.appendChild(element.ownerDocument.createElement('i'));
    Array.from(element.children).forEach((dot, index) => {
      dot.className = dots && index < dots.away ? 'dot dot-away' : 'dot';
    });
  };
}

/** Drains towards the edge that swimmers push off from. */
function createWater(element: HTMLElement, from: PushOff): (share: number) => void {
  const side = from === 'left' ? 1 : -1;
  let shown = -1;
  return (share) => {
    const step = Math.ceil(share * WATER_STEPS);
    if (step === shown) return;
    shown = step;
    element.hidden = step === 0;
    element.style.transform = `translateX(${(step / WATER_STEPS - 1) * 100 * side}%)`;
  };
}
