/*
 * The clock as a dial with one hand that goes round in a minute, smaller digits below it, and on its rim a mark for
 * the next leave of each lane: when the hand comes to a mark that is filled, that lane goes; a small dashed one is for a
 * later turn of the hand. The dial has a side of
 * the screen for itself; on a screen on end it stands above the lanes.
 */

import { MINUTE, SECOND } from '../../../app/core/units.ts';
import { createFlow, type Way } from '../board/flow.ts';
import { CAP, createDigits } from '../../ui/digits/digits.ts';
import type { Box, ClockFace, Division, FaceMark, FaceRoom, FaceSettings } from './clock-face.ts';
import { FIVE, NUMERALS, placeMarks, QUARTER, RIM, type PlacedMark } from './sweep-marks.ts';

export const sweepFace: ClockFace = {
  name: 'sweep',
  usual: 'pool',
  measure(room) {
    if (room.lanes === 0) return [alone(room)];
    return room.width > room.height ? [beside(room, shareOf(room.lanes))] : [above(room)];
  },
  numerals: (size) => (partsOf(size).dial.height / ACROSS) * QUARTER * CAP,
  place(box, size, settings) {
    const { dial, digits: digitsBox } = partsOf(size);
    const add = (part: Box): HTMLElement => {
      const element = box.appendChild(box.ownerDocument.createElement('div'));
      const { x, y, width, height } = part;
      return styled(element, {
        position: 'absolute',
        left: `${x}px`,
        top: `${y}px`,
        width: `${width}px`,
        height: `${height}px`,
      });
    };
    drawDial(drawing(add(dial)));
    const hand = add(dial);
    drawHand(drawing(hand));
    hand.style.willChange = 'transform';
    // The hand goes under all numbers.
    const above = drawing(add(dial));
    drawNumerals(above, settings);
    const marksIn = draw(above, 'g', {}, {});
    const below = add(digitsBox);
    below.className = 'digits';
    below.style.justifyContent = 'center';
    below.style.fontSize = `${digitsBox.height / CAP}px`;
    below.setAttribute('role', 'timer');
    below.setAttribute('aria-label', 'Clock');
    const digits = createDigits(below);
    let shown = '';
    return {
      paint({ text, marks }) {
        digits.show(text);
        const key = JSON.stringify(marks);
        if (key !== shown) drawMarks(marksIn, marks);
        shown = key;
      },
      hand: createFlow(hand, TURN),
    };
  },
};

/** One place a frame; for those who want less motion one a second. */
const TURN: Way = {
  takes: MINUTE,
  places: 3600,
  fewPlaces: 60,
  again: true,
  at: (share) => `rotate(${(share * 360).toFixed(1)}deg)`,
};

/** Of the height of its box: the digits under the dial, and what keeps them from it. */
const DIGITS = 0.085;
const GAP = 0.03;

function partsOf({ width, height }: Box): { readonly dial: Box; readonly digits: Box } {
  const across = Math.min(width, height * (1 - DIGITS - GAP));
  const x = (width - across) / 2;
  const top = (height - across - height * (DIGITS + GAP)) / 2;
  return {
    dial: { x, y: top, width: across, height: across },
    digits: { x: 0, y: top + across + height * GAP, width, height: height * DIGITS },
  };
}

/** Of the width: the dial, by how many lanes want the rest. */
function shareOf(lanes: number): number {
  return lanes <= FEW ? 0.42 : lanes <= MANY ? 0.44 : 0.4;
}

/** So few have the largest leaves, which want the width; more than so many have two columns, or words beside small ones. */
const FEW = 3;
const MANY = 6;

/** The digits of leaves may be larger than those below the dial: the dial is the clock. */
const ANY = Infinity;

function beside({ width, height }: FaceRoom, share: number): Division {
  const clock = { x: 0, y: 0, width: Math.min(height * (1 - DIGITS - GAP), width * share), height };
  const x = clock.width + width * 0.035;
  const head = height * 0.165;
  return {
    clock,
    words: { x, y: 0, width: width - x, height: head * 0.94 },
    body: { x, y: head, width: width - x, height: height - head },
    most: ANY,
  };
}

function above({ width, height, headMost }: FaceRoom): Division {
  const head = Math.min(headMost, width * 0.68);
  const clock = { x: 0, y: 0, width: head * (1 - DIGITS - GAP), height: head * 0.98 };
  const x = clock.width + width * 0.03;
  return {
    clock,
    words: { x, y: 0, width: width - x, height: head * 0.96 },
    body: { x: 0, y: head, width, height: height - head },
    most: ANY,
  };
}

function alone({ width, height }: FaceRoom): Division {
  const y = height * 0.87;
  const words = { x: 0, y, width, height: height - y };
  return { clock: { x: 0, y: 0, width, height: y * 0.98 }, words, body: words, most: ANY };
}

const SVG = 'http://www.w3.org/2000/svg';

/** Of the dial, in hundredths of its radius. */
const ACROSS = 200;

function drawing(box: HTMLElement): SVGElement {
  const svg = box.ownerDocument.createElementNS(SVG, 'svg');
  svg.setAttribute('viewBox', `${-ACROSS / 2} ${-ACROSS / 2} ${ACROSS} ${ACROSS}`);
  svg.setAttribute('aria-hidden', 'true');
  box.appendChild(svg);
  return styled(svg, { position: 'absolute', left: '0', top: '0', width: '100%', height: '100%' });
}

type Style = { readonly [property: string]: string };

/** The pages allow no style attributes; what a script sets one by one is none. */
function styled<Styled extends HTMLElement | SVGElement>(element: Styled, style: Style): Styled {
  for (const property of Object.keys(style)) element.style.setProperty(property, style[property]!);
  return element;
}

type Attributes = { readonly [name: string]: string | number };

function draw(into: Element, name: string, attributes: Attributes, style: Style): SVGElement {
  const element = into.ownerDocument.createElementNS(SVG, name);
  for (const key of Object.keys(attributes)) element.setAttribute(key, `${attributes[key]}`);
  into.appendChild(element);
  return styled(element, style);
}

function write(
  into: Element,
  text: string,
  at: { readonly x: number; readonly y: number; readonly size: number },
  ink: Style,
): void {
  const { x, y, size } = at;
  const place = { x, y: y + size * CAP * 0.5, 'font-size': size, 'text-anchor': 'middle' };
  draw(into, 'text', place, ink).textContent = text;
}

function drawDial(svg: SVGElement): void {
  draw(svg, 'circle', { r: 99 }, { fill: 'var(--dial)', stroke: 'var(--float)', 'stroke-width': '1.4' });
  for (let second = 0; second < 60; second++) {
    const isFive = second % 5 === 0;
    const tick = { y1: -96, y2: isFive ? -86 : -90, transform: `rotate(${second * 6})` };
    draw(svg, 'line', tick, isFive ? line('--on-deep', '2.2') : line('--quiet', '1'));
  }
}

/** Each with an edge of the dial's colour, so that it is read on the hand too. */
function drawNumerals(svg: SVGElement, { top }: FaceSettings): void {
  const edge = { stroke: 'var(--dial)', 'stroke-width': '4', 'stroke-linejoin': 'round', 'paint-order': 'stroke' };
  for (let second = 5; second <= 60; second += 5) {
    const isQuarter = second % 15 === 0;
    const at = { ...pointAt(second * SECOND, NUMERALS), size: isQuarter ? QUARTER : FIVE };
    const ink = { ...edge, fill: `var(${isQuarter ? '--on-deep' : '--quiet'})`, 'font-weight': '600' };
    write(svg, second === 60 ? top : `${second}`, at, ink);
  }
}

function drawHand(svg: SVGElement): void {
  draw(svg, 'line', { y1: 16, y2: -93 }, line('--on-deep', '3.2'));
  draw(svg, 'circle', { r: 6 }, { fill: 'var(--on-deep)' });
}

function line(colour: string, width: string): Style {
  return { stroke: `var(${colour})`, 'stroke-width': width, 'stroke-linecap': 'round' };
}

interface Look {
  readonly plate: string;
  readonly edge: string;
  readonly ink: string;
}

const LOOKS: { readonly [look in FaceMark['look']]: Look } = {
  later: { plate: '--dial', edge: '--float', ink: '--quiet' },
  waiting: { plate: '--surface-behind', edge: '--surface', ink: '--on-deep' },
  ready: { plate: '--ready', edge: '--ready', ink: '--on-light' },
  leaving: { plate: '--light', edge: '--light', ink: '--on-light' },
};

function drawMarks(svg: SVGElement, marks: readonly FaceMark[]): void {
  while (svg.lastChild) svg.removeChild(svg.lastChild);
  for (const mark of placeMarks(marks)) drawMark(svg, mark);
}

function drawMark(svg: SVGElement, { text, look, hand, x, y, width, height, size }: PlacedMark): void {
  const { plate, edge, ink } = LOOKS[look];
  const rim = pointAt(hand, RIM);
  const dashes: Style = look === 'later' ? { 'stroke-dasharray': '2.4 2.8' } : {};
  draw(svg, 'line', { x1: rim.x, y1: rim.y, x2: x, y2: y }, { ...line(edge, '1.2'), ...dashes });
  const box = { x: x - width / 2, y: y - height / 2, width, height, rx: height / 2 };
  draw(svg, 'rect', box, { fill: `var(${plate})`, stroke: `var(${edge})`, 'stroke-width': '1.2', ...dashes });
  write(svg, text, { x, y, size }, { fill: `var(${ink})`, 'font-weight': '600' });
}

function pointAt(hand: number, radius: number): { readonly x: number; readonly y: number } {
  const angle = (hand / MINUTE) * 2 * Math.PI;
  return { x: Math.sin(angle) * radius, y: -Math.cos(angle) * radius };
}
