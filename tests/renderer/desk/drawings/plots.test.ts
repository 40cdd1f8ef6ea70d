// @vitest-environment happy-dom
/* The drawings of the history, from a first week to years: what was swum is seen in each, and days are told apart. */

import { plot } from '@observablehq/plot';
import { expect, test } from 'vitest';
import type { WeekOf } from '../../../../app/core/record/history/over-time.ts';
import { plotOf } from '../../../../renderer/desk/drawings/plots.ts';
import type { Drawn } from '../../../../renderer/desk/drawings/what-is-drawn.ts';

const MONDAY = Date.UTC(2026, 10, 23);

/** So many weeks, the newest that of 23 November 2026. */
const weeks = (count: number): readonly WeekOf[] =>
  Array.from({ length: count }, (_, n) => ({
    monday: new Date(MONDAY - (count - 1 - n) * 7 * 86_400_000).toISOString().slice(0, 10),
    ...{ runs: 2, planned: 5000, distance: 4000, loaded: 2, load: 600, monotony: 0.6, strain: 360 },
  }));

const drawn = (what: Drawn) => plot({ ...plotOf(what), width: 900, figure: false });

/** In px. */
const bars = (count: number, kind: 'distance by week' | 'load by week', fill: string): readonly number[] => {
  const svg = drawn(kind === 'load by week' ? { kind, weeks: weeks(count) } : { kind, weeks: weeks(count), unit: 'm' });
  return Array.from(svg.querySelectorAll(`g[fill="${fill}"] rect`), (bar) => Number(bar.getAttribute('width')));
};

test.each([1, 30, 143, 500])('[history] of %i weeks each has a bar that is seen', (count) => {
  for (const widths of [bars(count, 'distance by week', 'var(--deed)'), bars(count, 'load by week', 'var(--edge)')]) {
    expect(widths).toHaveLength(count);
    expect(Math.min(...widths)).toBeGreaterThan(1);
  }
});

test('[history] where a day comes twice its year stands with it, figures are written as in the tables', () => {
  const words = (count: number) =>
    Array.from(
      drawn({ kind: 'distance by week', weeks: weeks(count), unit: 'm' }).querySelectorAll('text'),
      (each) => each.textContent,
    );
  expect(words(143)).toContain('23 Nov 2026');
  expect(words(30)).toContain('23 Nov');
  expect(words(30)).toContain('5000');
});
