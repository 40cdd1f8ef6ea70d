import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const tokens = readFileSync(new URL('../../../renderer/ui/tokens.css', import.meta.url), 'utf8');

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

// What is read in each state, on what. Everything that is read at all is held to the same 7:1.
const READ: readonly (readonly [state: string, text: string, ground: string])[] = [
  ['clock, lane number and leave', 'on-deep', 'deep'],
  ['seconds, words and the words of lanes that are out or finished', 'on-deep-quiet', 'deep'],
  ['leave and seconds of a lane that is ready', 'ready', 'deep'],
  ['number, leave and seconds of a lane that is leaving', 'on-light', 'light'],
  ['small words of a lane that is leaving', 'on-light-quiet', 'light'],
  ['the word "stopped", on the lighter stripe', 'on-stopped', 'stopped'],
  ['the word "stopped", on the darker stripe', 'on-stopped', 'stopped-stripe'],
  ['number and words of a stopped lane', 'on-deep', 'stopped'],
  ['small words of a stopped lane', 'on-stopped-quiet', 'stopped'],
  ['a lost link', 'on-stopped', 'deep'],
];

for (const [state, text, ground] of READ) {
  test(`contrast is at least 7:1 for ${state}`, () => {
    expect(contrast(token(text), token(ground))).toBeGreaterThanOrEqual(7);
  });
}

test('water is told from the deep by at least 3:1', () => {
  expect(contrast(token('pool-water'), token('deep'))).toBeGreaterThanOrEqual(3);
});
