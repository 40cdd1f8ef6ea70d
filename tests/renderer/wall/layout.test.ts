import { describe, expect, test } from 'vitest';
import { layoutFor, type Layout } from '../../../renderer/wall/layout.ts';
import { digitsFace } from '../../../renderer/wall/faces/digits-face.ts';
import type { Room } from '../../../renderer/wall/strip-layout.ts';

const SIZES = [
  [1920, 1080],
  [1280, 720],
  [3840, 2160],
  [1080, 1920],
  [390, 844],
  [844, 390],
  [1024, 768],
] as const;

function room(width: number, height: number, lanes: number, more: Partial<Room> = {}): Room {
  return { width, height, lanes, swimmers: 6, hours: false, ...more };
}

function everyRoom(): Room[] {
  const rooms: Room[] = [];
  for (const [width, height] of SIZES) {
    for (let lanes = 1; lanes <= 20; lanes++) {
      for (const swimmers of [1, 6, 20])
        for (const hours of [false, true]) rooms.push({ width, height, lanes, swimmers, hours });
    }
  }
  return rooms;
}

/** The widest row of a strip. */
function widthsOf({ lanes }: Layout): number {
  const { form, lines, number, leave, seconds, dots, rep, words, after } = lanes;
  const digits = number + leave + seconds;
  if (form === 'one-row') return digits + dots + rep + words + after;
  if (form === 'two-rows') return Math.max(digits, rep + words + dots);
  const below = number + words + after;
  return lines === 3 ? Math.max(digits, below, number + rep + after) : Math.max(digits + dots + rep, below);
}

describe('the design case: six lanes, 55 inches, 15 m', () => {
  for (const [width, height] of [SIZES[0], SIZES[1], SIZES[2]]) {
    test(`digits of leaves are at least 10.2 % of ${height} lines and three quarters of the strip`, () => {
      const { lanes } = layoutFor(room(width, height, 6), digitsFace);
      expect(lanes.cap / height).toBeGreaterThanOrEqual(0.102);
      expect(lanes.cap / lanes.height).toBeGreaterThanOrEqual(0.75);
    });
  }

  test('nothing is left out: words, target and the leave after have their places', () => {
    const { lanes } = layoutFor(room(1920, 1080, 6), digitsFace);
    expect(Math.min(lanes.rep, lanes.words, lanes.after, lanes.dots)).toBeGreaterThan(0);
  });
});

test('the head takes at most a quarter of the height; where the clock stands beside the words, everything included', () => {
  for (const each of everyRoom()) {
    const { head, insetY, headHeight } = layoutFor(each, digitsFace);
    expect(headHeight + (head === 'beside' ? insetY : 0)).toBeLessThanOrEqual(each.height / 4);
  }
});

test('a screen on end has a clock nearly as wide as itself, while leaves are read from 15 m all the same', () => {
  for (let lanes = 1; lanes <= 6; lanes++) {
    const layout = layoutFor(room(1080, 1920, lanes), digitsFace);
    expect(layout.clock.width / layout.width, `${lanes} lanes`).toBeGreaterThanOrEqual(0.9);
    expect(layout.lanes.cap / 1080, `${lanes} lanes`).toBeGreaterThanOrEqual(0.102);
  }
});

test('few lanes use the room: their strips fill the screen, with the leave after and words no smaller than those of four lanes', () => {
  // Of 3:4 screens and phones lying down other forms fill most of the room.
  for (const [width, height] of SIZES.slice(0, 5)) {
    const four = layoutFor(room(width, height, 4), digitsFace);
    for (let lanes = 1; lanes <= 3; lanes++) {
      const layout = layoutFor(room(width, height, lanes), digitsFace);
      const drawn = layout.insetY + layout.headHeight + layout.lanes.rows * layout.lanes.height;
      const name = `${lanes} lanes at ${width} x ${height}`;
      expect(drawn / (height - layout.insetY), name).toBeGreaterThanOrEqual(0.99);
      expect(layout.lanes.after, name).toBeGreaterThan(0);
      expect(layout.lanes.small / four.lanes.small, name).toBeGreaterThanOrEqual(0.8);
      expect(layout.lanes.cap, name).toBeGreaterThanOrEqual(four.lanes.cap * 0.98);
    }
  }
});

test('the clock is the largest thing on the screen', () => {
  for (const each of everyRoom()) {
    const layout = layoutFor(each, digitsFace);
    expect(layout.lanes.cap).toBeLessThan(layout.clock.cap);
  }
});

test('everything stands inside the inset of 5 %, drift included', () => {
  for (const each of everyRoom()) {
    const layout = layoutFor(each, digitsFace);
    const { insetX, insetY, drift, width, headHeight, lanes, callout } = layout;
    const shares = callout.captionHeight + callout.rows * callout.laneHeight;
    expect(insetX - drift).toBeGreaterThanOrEqual(each.width * 0.05);
    expect(insetX + width + drift).toBeLessThanOrEqual(each.width * 0.95);
    const foot = each.height * 0.95 - drift;
    expect(insetY + headHeight + lanes.rows * lanes.height).toBeLessThanOrEqual(foot);
    expect(insetY + headHeight + callout.height + shares).toBeLessThanOrEqual(foot);
  }
});

test('the places of a strip fill no more than its width', () => {
  for (const each of everyRoom()) {
    const layout = layoutFor(each, digitsFace);
    expect(widthsOf(layout)).toBeLessThanOrEqual(layout.lanes.width + 0.01);
    expect(layout.lanes.columns * layout.lanes.width).toBeLessThanOrEqual(layout.width);
  }
});

test('lane number, leave, seconds and rep have their places on every screen, with every number of lanes', () => {
  for (const each of everyRoom()) {
    const { number, leave, seconds, rep, repSmall, cap } = layoutFor(each, digitsFace).lanes;
    expect(Math.min(number, leave, seconds, cap)).toBeGreaterThan(0);
    // "round 2 of 3" takes 4.3 of its size.
    expect(rep / repSmall).toBeGreaterThanOrEqual(4.3);
  }
});

test('every lane has a strip', () => {
  for (const each of everyRoom()) {
    const { lanes, callout } = layoutFor(each, digitsFace);
    expect(lanes.rows * lanes.columns).toBeGreaterThanOrEqual(each.lanes);
    expect(callout.rows * callout.columns).toBeGreaterThanOrEqual(each.lanes);
  }
});

test('more than ten lanes share two columns where the screen is wide, and stay in one where it is not', () => {
  expect(layoutFor(room(1920, 1080, 10), digitsFace).lanes.columns).toBe(1);
  expect(layoutFor(room(1920, 1080, 11), digitsFace).lanes.columns).toBe(2);
  expect(layoutFor(room(1080, 1920, 20), digitsFace).lanes.columns).toBe(1);
});

test('where width is short the last in importance goes first: the leave after, then the words', () => {
  const order = [1920, 1500, 1250, 1090].map((width) => layoutFor(room(width, 1080, 6), digitsFace).lanes);
  const gone = order.map(({ after, words }) => (after > 0 ? 0 : words > 0 ? 1 : 2));
  expect([...gone].sort()).toEqual(gone);
  expect(new Set(gone).size).toBe(3);
});
