import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const tokens = ['ui/tokens.css', 'wall/colours.css']
  .map((file) => readFileSync(new URL(`../../../renderer/${file}`, import.meta.url), 'utf8'))
  .join('\n');

/** Relative luminance of an sRGB colour `#rrggbb`, by WCAG 2.2. */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const value = parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

function token(name: string): string {
  const found = new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(tokens);
  if (!found?.[1]) throw new Error(`no token ${name}`);
  return found[1];
}

test('the sum agrees with published ones: black on white, #767676 and #595959 on white', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.5422, 3);
  expect(contrast('#595959', '#ffffff')).toBeCloseTo(7.0047, 3);
});

/** Clock, leaves, seconds and lane numbers; everything that is read at all, where it is no dearer. */
const LARGE: readonly (readonly [state: string, text: string, ground: string])[] = [
  ['clock, lane number and leave on the deck', 'on-deep', 'deck'],
  ['lane number and leave on water', 'on-deep', 'water'],
  ["the same where the water's edge crosses them", 'on-deep', 'surface-behind'],
  ['lane number on amber water', 'on-deep', 'ready-water'],
  ['seconds on the deck', 'seconds', 'deck'],
  ['seconds on water', 'seconds', 'water'],
  ['leave and seconds of a lane that is ready, on the deck', 'ready', 'deck'],
  ['the same on amber water', 'ready', 'ready-water'],
  ['number, leave and seconds of a lane that is leaving', 'on-light', 'light'],
  ['the word "stopped", on the lighter stripe', 'on-stopped', 'stopped'],
  ['the word "stopped", on the darker stripe', 'on-stopped', 'stopped-stripe'],
  ['number and words of a stopped lane', 'on-deep', 'stopped'],
  ['words of lanes that are out or finished', 'quiet', 'deck'],
  ['a lost link', 'on-stopped', 'deck'],
  ['numerals of the dial', 'quiet', 'dial'],
  ['number of a lane on the dial that is ready', 'on-light', 'ready'],
];

const SMALL: typeof LARGE = [
  ['round, target and the leave after on water', 'quiet', 'water'],
  ["the same where the water's edge crosses them", 'quiet', 'surface-behind'],
  ['the same on amber water', 'quiet', 'ready-water'],
  ["the same where the amber water's edge crosses them", 'quiet', 'ready-behind'],
  ['small words of a lane that is leaving', 'on-light-quiet', 'light'],
  ['small words of a stopped lane', 'on-stopped-quiet', 'stopped'],
];

for (const [least, pairs] of [
  [7, LARGE],
  [4.5, SMALL],
] as const) {
  for (const [state, text, ground] of pairs) {
    test(`[wall] contrast is at least ${least}:1 for ${state}`, () => {
      expect(contrast(token(text), token(ground))).toBeGreaterThanOrEqual(least);
    });
  }
}

test('[wall] the edge of the water is told from deck and water by at least 3:1', () => {
  for (const [edge, water] of [
    ['surface', 'water'],
    ['ready', 'ready-water'],
  ] as const) {
    expect(contrast(token(edge), token('deck'))).toBeGreaterThanOrEqual(3);
    expect(contrast(token(edge), token(water))).toBeGreaterThanOrEqual(3);
  }
});
