/*
 * The clock as digits, in a head above the lanes: beside the words of the head, or on a screen on end above them.
 */

import { CAP, createDigits, widthOf } from '../../ui/digits/digits.ts';
import type { Box, ClockFace, Division, FaceRoom } from './clock-face.ts';

export const digitsFace: ClockFace = {
  name: 'digits',
  usual: 'stretch',
  measure(room) {
    if (room.lanes === 0) return [alone(room)];
    const divide = room.width > room.height ? beside : above;
    // Heads of several heights to choose from: a lower one leaves the lanes more room, and says its words smaller.
    const mayBeLow = room.lanes <= FEW || divide === above || !room.words;
    const lower = [0.95, 0.9, 0.84, ...(mayBeLow ? [0.76, 0.68, 0.6, 0.52] : [])];
    return [divide(room, 1), ...lower.map((share) => divide(room, share))];
  },
  numerals: ({ height }) => height,
  place(box, { width, height }) {
    const element = box.ownerDocument.createElement('div');
    element.className = 'clock digits';
    element.setAttribute('role', 'timer');
    element.setAttribute('aria-label', 'Clock');
    element.style.width = `${width}px`;
    element.style.height = `${height}px`;
    element.style.fontSize = `${height / CAP}px`;
    box.appendChild(element);
    const digits = createDigits(element);
    return { paint: ({ text }) => digits.show(text), hand: null };
  },
};

/** With so many lanes, or fewer, the leaves may be as large as the clock. */
const FEW = 3;

/** The width of the clock, in heights of its digits. The pool's is short, and need not be a giant. */
function widthInCaps({ widest }: FaceRoom): number {
  return Math.max(widthOf(widest), widthOf('8:88')) / CAP;
}

function mostOf(cap: number, { lanes }: FaceRoom): number {
  return lanes <= FEW ? cap : cap * 0.92;
}

function beside(room: FaceRoom, share: number): Division {
  const { width, height, headMost, lanes } = room;
  const head = Math.floor(headMost * share);
  const widest = width * (lanes <= FEW ? 0.56 : 0.42);
  const cap = Math.max(1, Math.min(head * 0.88, widest / widthInCaps(room)));
  const clock = clockBox(room, cap, (head * 0.94 - cap) / 2);
  const x = clock.width + cap * 0.36;
  return {
    clock,
    words: { x, y: 0, width: width - x, height: head * 0.94 },
    body: { x: 0, y: head, width, height: height - head },
    most: mostOf(cap, room),
  };
}

function above(room: FaceRoom, share: number): Division {
  const { width, height, headMost } = room;
  const head = Math.floor(headMost * share);
  const leastWords = Math.min(width * 0.2, head * 0.5);
  const cap = Math.max(1, Math.min(width / widthInCaps(room), (head - leastWords) / 1.12));
  const y = cap * 1.12;
  return {
    clock: clockBox(room, cap, 0),
    words: { x: 0, y, width, height: head * 0.98 - y },
    body: { x: 0, y: head, width, height: height - head },
    most: mostOf(cap, room),
  };
}

/** Without lanes: as large as the board allows, what is said small below it. */
function alone(room: FaceRoom): Division {
  const { width, height } = room;
  const cap = Math.max(1, Math.min(height * 0.66, width / widthInCaps(room)));
  const clock = clockBox(room, cap, Math.max(0, (height * 0.8 - cap) / 2));
  const y = height * 0.82;
  const words = { x: 0, y, width, height: height - y };
  return { clock: { ...clock, x: Math.max(0, (width - clock.width) / 2) }, words, body: words, most: cap };
}

function clockBox(room: FaceRoom, cap: number, y: number): Box {
  return { x: 0, y, width: Math.ceil(cap * widthInCaps(room)), height: cap };
}
