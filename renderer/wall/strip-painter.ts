/*
 * Draws a lane's face into its strip.
 */

import { createDigits } from '../ui/digits.ts';
import type { Measure } from '../ui/fit-text.ts';
import type { LaneFace } from './lane-face.ts';
import type { Layout } from './layout.ts';
import { attributeWriter, firstThatFits, placeIn, wordsWriter } from './writers.ts';

export interface StripPainter {
  /** light: whether the strip may be light now; small: the form it has while nobody swims. */
  paint(face: LaneFace, light: boolean, small: boolean): void;
}

/** Steps of the water's edge, by its full width: finer than anyone sees, and few enough to draw. */
const WATER_STEPS = 600;

export function createStripPainter(strip: HTMLElement, layout: Layout, measure: Measure): StripPainter {
  const state = attributeWriter(strip, 'data-state');
  const lit = attributeWriter(strip, 'data-light');
  const leaveElement = placeIn(strip, 'leave');
  const leave = createDigits(leaveElement);
  const secondsElement = placeIn(strip, 'seconds');
  const seconds = createDigits(secondsElement);
  const long = attributeWriter(secondsElement, 'data-long');
  const dots = createDots(placeIn(strip, 'dots'));
  const water = createWater(placeIn(strip, 'water'));
  // The two forms share their places, so each begins anew what it writes there.
  let form: boolean | null = null;
  let words: WordsPainter = () => {};

  return {
    paint(face, light, small) {
      state(face.state);
      lit(light ? 'yes' : '');
      leaveElement.hidden = face.leave === '';
      leave.show(face.leave);
      secondsElement.hidden = face.seconds === '';
      seconds.show(face.seconds);
      long(face.seconds.length > 2 ? 'yes' : '');
      dots(face.dots);
      water(face.water);
      if (form !== small) words = (small ? smallWords : stripWords)(strip, layout, measure);
      form = small;
      words(face);
    },
  };
}

type WordsPainter = (face: LaneFace) => void;

function stripWords(strip: HTMLElement, layout: Layout, measure: Measure): WordsPainter {
  const { lanes } = layout;
  const { form, lines } = lanes;
  const gap = lanes.small * 0.6;
  const line = (width: number, size: number) => ({ width: Math.max(1, width), size, least: size * 0.55 });
  const detailPlace = line(lanes.words - gap, lanes.small);
  const rep = wordsWriter(placeIn(strip, 'rep'), line(lanes.rep - gap, lanes.repLarge), measure);
  const round = wordsWriter(placeIn(strip, 'round'), line(lanes.rep - gap, lanes.repSmall), measure);
  const words = wordsWriter(placeIn(strip, 'words'), line(lanes.words - gap, lanes.large), measure);
  const detail = wordsWriter(placeIn(strip, 'detail'), detailPlace, measure);
  const after = wordsWriter(placeIn(strip, 'after'), line(Math.max(1, lanes.after), lanes.small), measure);
  const word = wordsWriter(
    placeIn(strip, 'word'),
    line(lanes.leave + lanes.seconds - lanes.cap * 0.4, lanes.cap * 1.05),
    measure,
  );
  const noWords = lanes.words === 0;
  const onlyInterval = !noWords && form === 'one-row' && lanes.words < lanes.small * 8;
  const repOnOneLine = form === 'two-rows' || lines === 3;
  return (face) => {
    word(face.word);
    rep(repOnOneLine ? joined([face.rep, face.round]) : face.rep);
    round(repOnOneLine ? '' : face.round);
    if (lines === 1) {
      words('');
      detail(firstThatFits(fuller(face.interval, face.words, face.target), detailPlace, measure));
    } else {
      words(noWords || onlyInterval ? '' : face.words);
      detail(noWords ? '' : firstThatFits(fuller(face.interval, face.target), detailPlace, measure));
    }
    after(lanes.after > 0 ? face.after : '');
  };
}

/**
 * While nobody swims: the lane's first set and its interval, on one line where they fit it large, else
 * below each other. Long words are cut rather than set small.
 */
function smallWords(strip: HTMLElement, layout: Layout, measure: Measure): WordsPainter {
  const { laneHeight, laneWidth } = layout.callout;
  const width = laneWidth - laneHeight * 1.15;
  const large = { width, size: laneHeight * 0.56, least: laneHeight * 0.56 };
  const small = { width, size: laneHeight * 0.4, least: laneHeight * 0.36 };
  const word = wordsWriter(placeIn(strip, 'word'), small, measure);
  let shown: string | null = null;
  return (face) => {
    word(face.word);
    const wordings = fuller(face.interval, face.rep, face.target);
    const key = joined([face.words, ...wordings]);
    if (key === shown) return;
    shown = key;
    const onOneLine = wordings.map((wording) => joined([face.words, wording]));
    const line = firstThatFits(onOneLine, large, measure);
    const fits = measure(line) * large.size <= width;
    wordsWriter(placeIn(strip, 'words'), fits ? large : small, measure)(fits ? line : face.words);
    wordsWriter(placeIn(strip, 'detail'), small, measure)(fits ? '' : firstThatFits(wordings, small, measure));
  };
}

/** Wordings from the fullest to the first item alone, the last item going first. */
function fuller(...items: readonly string[]): readonly string[] {
  return items.map((_, index) => joined(items.slice(0, items.length - index)));
}

function joined(items: readonly string[]): string {
  return items.filter((item) => item !== '').join(', ');
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

function createWater(element: HTMLElement): (share: number) => void {
  let shown = -1;
  return (share) => {
    const step = Math.ceil(share * WATER_STEPS);
    if (step === shown) return;
    shown = step;
    element.style.transform = `translateX(${(step / WATER_STEPS - 1) * 100}%)`;
  };
}
