/*
 * Draws a lane's face into its strip.
 */

import { createDigits } from '../../ui/digits/digits.ts';
import type { Measure, Place } from '../../ui/digits/fit-text.ts';
import type { WallChoice } from '../screen/wall-choice.ts';
import type { LaneFace } from './lane-face.ts';
import type { Layout } from '../layout.ts';
import { smallWords, type SmallForm } from './small-words.ts';
import { createWater, type Water } from './water.ts';
import { STACKED, wordSize } from './strip-layout.ts';
import {
  attributeWriter,
  firstThatFits,
  fuller,
  hiddenWriter,
  isSaid,
  joined,
  placeIn,
  wholeWriter,
  type Writer,
} from '../board/writers.ts';

export interface StripPainter {
  /** look: the one it may have now; small: the form while nobody swims, null while they do; shared: whether the head says its words. */
  paint(face: LaneFace, look: LaneFace['state'], small: SmallForm | null, shared: boolean): void;
  readonly water: Water;
}

export function createStripPainter(
  strip: HTMLElement,
  layout: Layout,
  choice: WallChoice,
  measure: Measure,
): StripPainter {
  const state = stateWriter(strip);
  const leaves = attributeWriter(strip, 'data-leaves');
  const leaveElement = placeIn(strip, 'leave');
  const leave = createDigits(leaveElement);
  const hideLeave = hiddenWriter(leaveElement);
  const secondsElement = placeIn(strip, 'seconds');
  const seconds = createDigits(secondsElement);
  const hideSeconds = hiddenWriter(secondsElement);
  const long = attributeWriter(secondsElement, 'data-long');
  const dots = createDots(placeIn(strip, 'dots'));
  const water = createWater(placeIn(strip, 'water'), choice.pushOff, layout.lanes.width);
  // The two forms share their places, so each begins anew what it writes there.
  let form: 'strip' | 'small' | null = null;
  let saidWords = '';
  let words: WordsPainter = () => {};
  let smalls: ReturnType<typeof smallWords> = () => {};

  return {
    paint(face, look, small, shared) {
      state(look);
      leaves(face.dots ? 'yes' : '');
      hideLeave(face.leave === '');
      leave.show(face.leave);
      hideSeconds(face.seconds === '');
      seconds.show(face.seconds);
      long(face.seconds.length > 2 ? `${face.seconds.length}` : '');
      dots(face.dots);
      water.fill(face.drainedAt);
      if (small) {
        if (form !== 'small') smalls = smallWords(strip, layout, measure, choice);
        form = 'small';
        smalls(face, shared, small);
        return;
      }
      if (form !== 'strip') words = WORDS[layout.lanes.form](strip, layout, measure, choice);
      const key = wordsKey(face, shared);
      // Digits change every second; words are measured only where they have changed.
      if (form !== 'strip' || key !== saidWords) words(face, shared);
      form = 'strip';
      saidWords = key;
    },
    water,
  };
}

/**
 * By a class for each state, because the browser looks again at everything that any state changes where they are values
 * of an attribute; the attribute is for whoever reads the page.
 */
function stateWriter(strip: HTMLElement): (state: LaneFace['state']) => void {
  const attribute = attributeWriter(strip, 'data-state');
  let shown = '';
  return (state) => {
    attribute(state);
    const name = `is-${state}`;
    if (name === shown) return;
    if (shown !== '') strip.classList.remove(shown);
    strip.classList.add((shown = name));
  };
}

function wordsKey(face: LaneFace, shared: boolean): string {
  const { word, then, rep, isNow, round, interval, target, words, after, turn, turnByName, dots } = face;
  return [word, then, rep, isNow, round, interval, target, words, after, turn, turnByName, dots?.of, shared].join('\n');
}

export type WordsPainter = (face: LaneFace, shared: boolean) => void;

type MakeWords = (strip: HTMLElement, layout: Layout, measure: Measure, choice: WallChoice) => WordsPainter;

const WORDS: { readonly [form in Layout['lanes']['form']]: MakeWords } = {
  columns: besideWords,
  stack: besideWords,
  below: belowWords,
};

/** Words smaller than this share of what they should be are left out. */
const LEAST = 0.62;

/** "now" is said where the rep's words need not become smaller than this for it. */
const LEAST_NOW = 0.8;

/** The distance of a ladder in a column, where it has the line of a round too: swimmers have to know it before all else. */
const RUNG = 1.2;

function besideWords(strip: HTMLElement, { lanes }: Layout, measure: Measure, choice: WallChoice): WordsPainter {
  const { names } = choice;
  const { large, small, rep, interval, words, after, leaving } = lanes;
  const inside = (width: number): number => Math.max(1, width - small * 0.45);
  const write = (name: string, width: number, size: number, lines = 1) => {
    const place = { width: inside(width), size, least: Math.min(size, large) * LEAST };
    const high = lines > 1 ? { ...place, height: lanes.height * 0.9 } : place;
    return wholeWriter(placeIn(strip, name), high, measure);
  };
  const writeRep = sized((size) => write('rep', rep.width, size));
  const writeRound = sized((size) => write('round', rep.width, size));
  const writeInterval = sized((size) => write('interval', interval.width, size));
  const writeTarget = write('target', interval.width, large);
  const writeWords = write('words', words.width, small, 2);
  const writeAfter = write('after', after.width, small);
  const turnInRep = leaving.width === 0;
  const turnWidth = turnInRep ? rep.width : leaving.width;
  // For the name, which a number needs no room for, it may become smaller.
  const turnPlace = { width: inside(turnWidth), size: large, least: small * LEAST };
  const writeTurn = wholeWriter(placeIn(strip, 'turn'), turnPlace, measure);
  const fitTurn = (face: LaneFace): string =>
    turnIn(face, names, { width: turnWidth - small * 0.45, size: small * LEAST, least: 0 }, measure);
  const word = wordWriter(strip, lanes, measure, choice);
  // In a column what has no second line has its room.
  const alone = lanes.form === 'stack' ? Math.max(large, Math.min(lanes.height * ALONE, rep.width / STACKED)) : large;
  return (face, shared) => {
    word(face);
    const below = turnInRep && face.turn !== '' ? fitTurn(face) : face.round;
    const rung = lanes.form === 'stack' && below === '' ? face.rung : null;
    if (rung) {
      writeRep(rung.distance, large * RUNG);
      const size = large * (2 - RUNG);
      const place = { width: inside(rep.width), size: size * LEAST_NOW, least: 0 };
      writeRound(firstThatFits(nowFirst(face, rung.count), place, measure), size);
    } else {
      const size = below === '' ? alone : large;
      const place = { width: inside(rep.width), size: size * LEAST_NOW, least: 0 };
      writeRep(firstThatFits(repIn(face), place, measure), size);
      writeRound(below, large);
    }
    const hasInterval = interval.width > 0;
    // No larger than the distance of a ladder.
    writeInterval(hasInterval ? face.interval : '', face.target !== '' ? large : rung ? large * RUNG : alone);
    writeTarget(hasInterval ? face.target : '');
    writeWords(words.width > 0 && !shared ? face.words : '');
    writeAfter(after.width > 0 ? face.after : '');
    writeTurn(turnInRep ? '' : fitTurn(face));
  };
}

/** Of the strip's height: one line in a half of it. */
const ALONE = 0.36;

/** size: of its type, or of its place's width. */
type WriteSized = (text: string, size: number) => void;

/** Of a text whose size changes with what stands beside it: each size begins anew what it writes. */
function sized(make: (size: number) => Writer): WriteSized {
  let write: Writer = () => {};
  let made = NaN;
  return (text, size) => {
    if (size !== made) write = make(size);
    made = size;
    write(text);
  };
}

/** Beside lanes that say the rep to come, what the swimmers still wait for who are left of this one: "now 2 of 4". */
function repIn(face: LaneFace): readonly string[] {
  return nowFirst(face, face.rep);
}

function nowFirst({ isNow }: LaneFace, text: string): readonly string[] {
  return isNow && text !== '' ? [`now ${text}`, text] : [text];
}

/** Whose turn is next: by name where the settings want it, the session has it and it fits. */
function turnIn({ turn, turnByName }: LaneFace, names: boolean, place: Place, measure: Measure): string {
  return names ? firstThatFits([turnByName, turn], place, measure) : turn;
}

/**
 * Lines below the digits, the last of the items going first. While a tail goes it stands at their ends, whose turn is next
 * above its dots, both on the one line where there is no other; each line keeps clear of what stands at its own end.
 */
function belowWords(strip: HTMLElement, { lanes }: Layout, measure: Measure, choice: WallChoice): WordsPainter {
  const { rep, large, dot, lines } = lanes;
  const place = (width: number) => ({ width: Math.max(1, width), size: large, least: large * LEAST });
  const line = (name: string) => sized((width) => wholeWriter(placeIn(strip, name), place(width), measure));
  const turnMost = rep.width * TURN;
  const turn = wholeWriter(placeIn(strip, 'turn'), place(turnMost), measure);
  const [first, second, third, fourth] = [line('rep'), line('round'), line('interval'), line('target')];
  const word = wordWriter(strip, lanes, measure, choice);
  return (face, shared) => {
    const whoseTurn = turnIn(face, choice.names, place(rep.width * 0.3), measure);
    const atEnd = {
      turn: whoseTurn === '' ? 0 : Math.min(measure(whoseTurn) * large, turnMost) + large * 0.5,
      dots: face.dots ? face.dots.of * dot + large * 0.3 : 0,
    };
    const words = shared || !choice.words ? '' : face.words;
    const { round } = face;
    const counts = repIn(face);
    const { interval, target } = choice.leavesOnly ? NO_INTERVAL : face;
    const after = choice.after ? face.after : '';
    const fit = (wordings: readonly string[], width: number): string => firstThatFits(wordings, place(width), measure);
    const write = (to: WriteSized, wordings: readonly string[], width: number): void => to(fit(wordings, width), width);
    word(face);
    turn(whoseTurn);
    if (lines === 1) {
      const items = [counts[0]!, round, interval, target, words, after];
      write(first, fuller(...items.filter(isSaid)), rep.width - atEnd.turn - atEnd.dots);
      return;
    }
    const others = [target, words, after];
    const lower = lines === 2 ? fuller(...[interval, ...others].filter(isSaid)) : [round];
    // A line that is alone stands in the middle, beside both.
    const isAlone = lower.every((text) => text === '');
    const upper = lines === 2 ? counts.map((count) => joined([count, round])) : counts;
    write(first, upper, rep.width - (isAlone ? Math.max(atEnd.turn, atEnd.dots) : atEnd.turn));
    write(second, lower, rep.width - atEnd.dots);
    if (lines === 2) return;
    write(third, [interval], rep.width);
    write(fourth, fuller(...others.filter(isSaid)), rep.width);
  };
}

/** The most of a line for whose turn is next. */
const TURN = 0.45;

const NO_INTERVAL = { interval: '', target: '' };

/** Stands in the places of leave and seconds: "stopped"; what a lane swims next where that is large enough there. */
function wordWriter(
  strip: HTMLElement,
  lanes: Layout['lanes'],
  measure: Measure,
  { words }: WallChoice,
): (face: LaneFace) => void {
  const width = lanes.seconds.x + lanes.seconds.width - lanes.leave.x;
  const place = { width, size: wordSize(lanes), least: lanes.cap * 0.3 };
  const write = wholeWriter(placeIn(strip, 'word'), place, measure);
  const named = { ...place, size: lanes.cap * LEAST_NAMED };
  return ({ word, then }) => write(words && then !== '' ? firstThatFits([then, word], named, measure) : word);
}

/** Of the digits' height: the type of what a lane swims next. */
const LEAST_NAMED = 0.5;

/** A dot a swimmer, filled as each goes. */
function createDots(element: HTMLElement): (dots: LaneFace['dots']) => void {
  const hide = hiddenWriter(element);
  let shown = '';
  return (dots) => {
    const text = dots ? `${dots.away} of ${dots.of} away` : '';
    if (text === shown) return;
    shown = text;
    element.setAttribute('aria-label', text);
    // Out of sight they wait for the next leave, when there is the most to do.
    if (!dots) return;
    const of = dots.of > 1 ? dots.of : 0;
    hide(of === 0);
    while (element.childElementCount > of) element.lastElementChild?.remove();
    while (element.childElementCount < of) element.appendChild(element.ownerDocument.createElement('i'));
    Array.from(element.children).forEach((dot, index) => {
      const name = index < dots.away ? 'dot dot-away' : 'dot';
      if (dot.className !== name) dot.className = name;
    });
  };
}
