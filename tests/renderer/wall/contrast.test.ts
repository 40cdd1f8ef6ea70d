import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { SCREEN_CHOICES } from '../../../app/core/screen/screen-settings.ts';

const sheets = ['ui/tokens.css', 'wall/colours.css']
  .map((file) => readFileSync(new URL(`../../../renderer/${file}`, import.meta.url), 'utf8'))
  .join('\n');

const LIGHTS = SCREEN_CHOICES.light;

type Light = (typeof LIGHTS)[number];

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

/** A colour in a light; what a light does not give has the colour of the dark hall. */
function token(name: string, light: Light): string {
  const own = new RegExp(`\\[data-light='${light}'\\] \\{([^}]*)\\}`).exec(sheets)?.[1] ?? '';
  const pattern = new RegExp(`--${name}: (#[0-9a-f]{6});`);
  const found = pattern.exec(own) ?? pattern.exec(sheets);
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
  ['number of a lane that is ready, on its plate and on the dial', 'on-light', 'ready'],
  [
    'leave and seconds of a lane that is ready, where the edge of the amber water crosses them',
    'ready',
    'ready-behind',
  ],
  ['number of a lane on the dial that waits', 'on-deep', 'dial'],
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
    test(`[wall] contrast is at least ${least}:1 for ${state}, in every light`, () => {
      for (const light of LIGHTS) {
        expect(contrast(token(text, light), token(ground, light)), light).toBeGreaterThanOrEqual(least);
      }
    });
  }
}

test('[wall] the edge of the water is told from deck and water by at least 3:1, in every light', () => {
  for (const light of LIGHTS) {
    for (const [edge, water] of [
      ['surface', 'water'],
      ['ready', 'ready-water'],
    ] as const) {
      for (const ground of ['deck', water]) {
        expect(contrast(token(edge, light), token(ground, light)), light).toBeGreaterThanOrEqual(3);
      }
    }
  }
});

test('[wall] the plate of a lane that is ready and the strip of one that leaves stand out without colour, by at least 3:1', () => {
  for (const light of LIGHTS) {
    for (const ground of ['deck', 'water', 'ready-water']) {
      expect(contrast(token('ready', light), token(ground, light)), light).toBeGreaterThanOrEqual(3);
    }
    expect(contrast(token('light', light), token('deck', light)), light).toBeGreaterThanOrEqual(3);
  }
});

test('[wall] with the most contrast all that is read has 7:1', () => {
  for (const [state, text, ground] of SMALL) {
    expect(contrast(token(text, 'contrast'), token(ground, 'contrast')), state).toBeGreaterThanOrEqual(7);
  }
});
