import { describe, expect, test } from 'vitest';
import type { Box, ClockFace } from '../../../renderer/wall/faces/clock-face.ts';
import { FACES } from '../../../renderer/wall/faces/faces.ts';
import { sweepFace } from '../../../renderer/wall/faces/sweep-face.ts';
import { headSizes } from '../../../renderer/wall/head/head-sizes.ts';
import { digitsFace } from '../../../renderer/wall/faces/digits-face.ts';
import { nameBox } from '../../../renderer/wall/screen/screen-named.tsx';
import { layoutFor, type Layout, type Room } from '../../../renderer/wall/layout.ts';
import { wordSize, type Shows } from '../../../renderer/wall/strips/strip-layout.ts';
import { CAP } from '../../../renderer/ui/digits/digits.ts';

const SIZES = [
  [1920, 1080],
  [1280, 720],
  [3840, 2160],
  [1080, 1920],
  [390, 844],
  [844, 390],
  [1024, 768],
] as const;

const LEAVES_ONLY: Shows = { words: false, after: false, leavesOnly: true, twoColumns: true };
const ALL_SHOWN: Shows = { words: true, after: true, leavesOnly: false, twoColumns: false };

function room(width: number, height: number, lanes: number, more: Partial<Room> = {}): Room {
  return { width, height, lanes, swimmers: 6, widest: '88:88', inset: 0.05, shows: ALL_SHOWN, ...more };
}

function everyRoom(): Room[] {
  const rooms: Room[] = [];
  for (const [width, height] of SIZES) {
    for (let lanes = 1; lanes <= 20; lanes++) {
      for (const swimmers of [1, 6, 20])
        for (const widest of [':88', '88:88', '8:88:88'])
          for (const shows of [ALL_SHOWN, LEAVES_ONLY])
            rooms.push({ width, height, lanes, swimmers, widest, inset: 0.05, shows });
    }
  }
  return rooms;
}

let every: readonly (readonly [Room, Layout, ClockFace])[] | null = null;

/** Every room with every face. */
function everyLayout(): readonly (readonly [Room, Layout, ClockFace])[] {
  every ??= FACES.flatMap((face) => everyRoom().map((each) => [each, layoutFor(each, face), face] as const));
  return every;
}

/** Of the height at 1920 x 1080, by the number of lanes. */
const LEAST: readonly (readonly [lanes: number, share: number])[] = [
  [1, 0.26],
  [2, 0.2],
  [3, 0.17],
  [4, 0.13],
  [5, 0.102],
  [6, 0.102],
  [7, 0.084],
  [8, 0.084],
  [9, 0.084],
  [10, 0.084],
  [11, 0.084],
  [12, 0.084],
];

test('[strip] the word in place of a leave stays off the rope below it, with what hangs below its line', () => {
  for (const [, { lanes }] of everyLayout()) {
    // As in the styles; the typeface's line of writing is 0.4 em below the middle, and it hangs 0.2 em below that.
    const tier = lanes.main / lanes.tiers;
    const middle = tier * 0.5 - (lanes.cap / CAP) * 0.04;
    expect(middle + wordSize(lanes) * 0.6).toBeLessThan(tier * 0.98);
    expect(wordSize(lanes)).toBeGreaterThan(lanes.cap * 0.9);
  }
});

describe('[sizes] digits of leaves', () => {
  for (const [lanes, share] of LEAST) {
    test(`are at least ${share * 100} % of the height with ${lanes} lanes`, () => {
      for (const swimmers of [1, 6, 20]) {
        const { lanes: strips } = layoutFor(room(1920, 1080, lanes, { swimmers }), digitsFace);
        expect(strips.cap / 1080).toBeGreaterThanOrEqual(share);
      }
    });
  }

  test('beside a dial too', () => {
    for (const [lanes, share] of LEAST) {
      const { lanes: strips } = layoutFor(room(1920, 1080, lanes, { widest: ':88' }), sweepFace);
      expect(strips.cap / 1080, `${lanes} lanes`).toBeGreaterThanOrEqual(share);
    }
  });

  test('are at least three quarters of the strip from four lanes on', () => {
    for (const [{ lanes: count }, { lanes }] of everyLayout()) {
      if (count >= 4) expect(lanes.cap / lanes.height).toBeGreaterThanOrEqual(0.75);
    }
  });

  test('are never larger than a clock of digits; from four lanes on they are smaller', () => {
    for (const [each, { lanes, clock }, face] of everyLayout()) {
      if (face !== digitsFace) continue;
      expect(lanes.cap / clock.height).toBeLessThanOrEqual(each.lanes <= 3 ? 1 : 0.93);
    }
  });
});

test('[sizes] on end one or two lanes use the height: the leave stands above lane number and seconds', () => {
  for (const [count, least] of [
    [1, 0.16],
    [2, 0.11],
  ] as const) {
    const { lanes } = layoutFor(room(1080, 1920, count), digitsFace);
    const { cap, leave, number, seconds, main, width } = lanes;
    expect([lanes.tiers, cap / 1920 >= least]).toEqual([2, true]);
    expect(main / 2).toBeGreaterThan(cap);
    expect(main + lanes.lines * lanes.large).toBeLessThan(lanes.height);
    expect(Math.min(leave.x, number.x)).toBeGreaterThanOrEqual(0);
    expect(seconds.x).toBeGreaterThan(number.x + number.width);
    for (const { x, width: wide } of [leave, seconds]) expect(x + wide).toBeLessThanOrEqual(width + 0.001);
  }
  expect(layoutFor(room(1080, 1920, 4), digitsFace).lanes.tiers).toBe(1);
  expect(layoutFor(room(1920, 1080, 1), digitsFace).lanes.tiers).toBe(1);
});

test('[sizes] the head is at most a quarter of the height, 0.4 with one to three lanes or on end, inset included', () => {
  for (const [each, { insetY, body }, face] of everyLayout()) {
    if (face !== digitsFace) continue;
    const most = each.lanes <= 3 || each.width < each.height ? 0.4 : 0.25;
    expect((insetY + body.y) / each.height).toBeLessThanOrEqual(most + 0.001);
  }
});

test('[sizes] two columns by themselves from eight lanes on where the screen is wide, and never below that or on end', () => {
  expect([7, 8, 12].map((lanes) => layoutFor(room(1920, 1080, lanes), digitsFace).lanes.columns)).toEqual([1, 2, 2]);
  expect(layoutFor(room(1080, 1920, 20), digitsFace).lanes.columns).toBe(1);
});

test('[sizes] interval and target stand as large as the rep, and nothing is left out of the design case', () => {
  const { lanes } = layoutFor(room(1920, 1080, 6), digitsFace);
  expect(lanes.form).toBe('columns');
  for (const place of [lanes.rep, lanes.interval, lanes.after, lanes.leaving]) expect(place.width).toBeGreaterThan(0);
  expect(lanes.large / 1080).toBeGreaterThanOrEqual(0.04);
});

test('[inset] everything stands inside it, drift included, from 0 to 10 %', () => {
  for (const face of FACES) {
    for (const inset of [0, 0.05, 0.1]) {
      for (const base of everyRoom().filter(({ swimmers }) => swimmers === 6)) {
        const layout = layoutFor({ ...base, inset }, face);
        const { insetX, insetY, drift, width, height } = layout;
        expect(insetX - drift).toBeGreaterThanOrEqual(base.width * inset);
        expect(insetX + width + drift).toBeLessThanOrEqual(base.width * (1 - inset));
        expect(insetY + height + drift).toBeLessThanOrEqual(base.height * (1 - inset));
        for (const box of [layout.clock, layout.words, layout.body]) expect(isInside(box, layout)).toBe(true);
      }
    }
  }
});

test('clock, words and lanes do not overlap, with any face', () => {
  for (const [, layout] of everyLayout()) {
    const { clock, words, body } = layout;
    expect([overlap(clock, words), overlap(clock, body), overlap(words, body)]).toEqual([false, false, false]);
  }
});

test("[which is which] a screen's name hides no leave, clock or seconds, with any face; it is at least a twentieth of the shorter side", () => {
  for (const [{ width, height, inset }, layout] of everyLayout()) {
    const { clock, body, insetX, insetY } = layout;
    for (const hasRun of [true, false]) {
      const { x, y, ...size } = nameBox(layout, hasRun);
      const onBoard = { x: x - insetX, y: y - insetY, ...size };
      expect([overlap(onBoard, clock), overlap(onBoard, body)]).toEqual([false, false]);
      if (inset <= 0.05) expect(size.height).toBeGreaterThanOrEqual(Math.min(width, height) / 20);
    }
  }
});

test('the strips fill no more than their room, and their places no more than the strip', () => {
  for (const [, { body, lanes }] of everyLayout()) {
    const { rows, columns, height, width, gap, main, large, lines, form } = lanes;
    expect(rows * height + (rows - 1) * gap).toBeLessThanOrEqual(body.height + 0.01);
    expect(columns * width).toBeLessThanOrEqual(body.width);
    for (const place of [lanes.rep, lanes.interval, lanes.words, lanes.after, lanes.leaving]) {
      expect(place.x + place.width).toBeLessThanOrEqual(width + 0.01);
    }
    if (form === 'below') expect(lines * large).toBeLessThanOrEqual(height - main);
  }
});

test('lane number, leave, seconds, rep and round have their places with every number of lanes', () => {
  for (const [, { lanes }] of everyLayout()) {
    expect(Math.min(lanes.number.width, lanes.leave.width, lanes.seconds.width, lanes.cap)).toBeGreaterThan(0);
    // "round 2 of 3" takes 4.6 of its size; in a column it is set smaller than "10 of 12", which takes 3.3.
    expect(lanes.rep.width / lanes.large).toBeGreaterThanOrEqual(lanes.form === 'stack' ? 3.75 : 4.6);
  }
});

test('[talk] words and lanes fill a half each of a broad screen; else the lanes stand below the words, which have the whole width', () => {
  for (const [{ width, height, lanes }, { body, callout }] of everyLayout()) {
    const { aside, rows, laneHeight, captionHeight, leftCap } = callout;
    if (lanes === 0) continue;
    expect(aside).toBe(width > height && body.width > body.height * 1.3);
    expect(callout.width).toBeGreaterThanOrEqual(body.width * (aside ? 0.49 : 1));
    expect(callout.width + (aside ? callout.laneWidth : 0)).toBeLessThanOrEqual(body.width);
    const high = rows * laneHeight + captionHeight;
    expect(aside ? high : high + callout.height).toBeLessThanOrEqual(body.height);
    // "88:88 left", below the words.
    expect(leftCap * 3.4).toBeLessThanOrEqual(callout.width);
    expect(leftCap * 1.3).toBeLessThanOrEqual(callout.height * 0.45);
  }
});

test('[sweep] on a screen on end what is swum stands as large beside the dial as beside digits on a screen that lies', () => {
  const setOn = (width: number, height: number, face: ClockFace): number =>
    headSizes(layoutFor(room(width, height, 6), face).words, false).set.size;
  expect(setOn(1080, 1920, sweepFace)).toBeGreaterThanOrEqual(setOn(1920, 1080, digitsFace));
});

test('every lane has a strip, while they swim and while they do not', () => {
  for (const [each, { lanes, callout }] of everyLayout()) {
    expect(lanes.rows * lanes.columns).toBeGreaterThanOrEqual(each.lanes);
    expect(callout.rows * callout.columns).toBeGreaterThanOrEqual(each.lanes);
    expect(callout.height).toBeGreaterThan(0);
  }
});

test('where width is short the leave after goes first, then the words, then the columns', () => {
  const order = [1920, 1560, 1290].map((width) => layoutFor(room(width, 1080, 6), digitsFace).lanes);
  const kept = order.map(
    ({ after, words, form }) => [after.width > 0, words.width > 0, form === 'columns'].filter(Boolean).length,
  );
  expect([...kept].sort((a, b) => b - a)).toEqual(kept);
  expect(kept[0]).toBe(3);
});

describe('[left out]', () => {
  const capOf = (lanes: number, shows: Partial<Shows>, width = 1920, height = 1080): number =>
    layoutFor(room(width, height, lanes, { shows: { ...ALL_SHOWN, ...shows } }), digitsFace).lanes.cap;

  test('without words and the leave after, leaves are never smaller, and larger with six, ten and twelve lanes', () => {
    for (let lanes = 1; lanes <= 12; lanes++) {
      const fewer = capOf(lanes, { words: false, after: false });
      expect(fewer).toBeGreaterThanOrEqual(capOf(lanes, {}));
      if ([6, 10, 12].includes(lanes)) expect(fewer).toBeGreaterThan(capOf(lanes, {}));
    }
  });

  test('clock and leaves only: larger still, with number, seconds and rep beside them, and no interval', () => {
    for (let lanes = 1; lanes <= 12; lanes++) {
      const { lanes: strips } = layoutFor(room(1920, 1080, lanes, { shows: LEAVES_ONLY }), digitsFace);
      expect(strips.cap).toBeGreaterThanOrEqual(capOf(lanes, { words: false, after: false }) * 0.995);
      expect([strips.interval.width, strips.words.width, strips.after.width]).toEqual([0, 0, 0]);
    }
  });

  test('two columns with fewer than eight lanes, where that is asked for, the screen is wide and the leaves gain', () => {
    const columnsOf = (lanes: number, width: number, height: number): number =>
      layoutFor(room(width, height, lanes, { shows: { ...ALL_SHOWN, twoColumns: true } }), digitsFace).lanes.columns;
    expect([columnsOf(6, 1920, 1080), columnsOf(6, 1080, 1920), columnsOf(1, 1920, 1080)]).toEqual([2, 1, 1]);
    expect(capOf(6, { twoColumns: true })).toBeGreaterThan(capOf(6, {}));
  });
});

test('[no session] the clock has most of the board', () => {
  for (const face of FACES) {
    const { clock, width, height } = layoutFor(room(1920, 1080, 0), face);
    expect(clock.width > width * 0.9 || clock.height > height * 0.8).toBe(true);
  }
});

function isInside({ x, y, width, height }: Box, board: Layout): boolean {
  return x >= 0 && y >= 0 && x + width <= board.width + 0.01 && y + height <= board.height + 0.01;
}

function overlap(a: Box, b: Box): boolean {
  const across = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const down = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return across > 0.01 && down > 0.01;
}
