/*
 * How each drawing is drawn. Colour is never alone: what was planned is an outline, what was done is filled, lanes have
 * shapes and their numbers.
 */

import { barX, dot, gridX, gridY, line, lineY, rectY, ruleX, ruleY, text, type PlotOptions } from '@observablehq/plot';
import { MONTHS } from '../../../app/core/day.ts';
import type { LaneOf, TestedPace, WeekOf } from '../../../app/core/record/history/over-time.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import type { Drawn } from './what-is-drawn.ts';

const DAY = 86_400_000;
const DONE = 'var(--deed)';
const INK = 'var(--ink)';

/** In px: room for the words beside the axes. */
const MARGINS = { marginTop: 28, marginLeft: 62, marginRight: 24, marginBottom: 36 } as const;

export function plotOf(drawn: Drawn): PlotOptions {
  switch (drawn.kind) {
    case 'distance by week':
      return byWeek(`distance in ${drawn.unit}`, drawn.weeks, [
        rectY(drawn.weeks, { x1: from, x2: to, y: 'distance', fill: DONE, ...gapsOf(drawn.weeks) }),
        isLong(drawn.weeks)
          ? ruleY(drawn.weeks, { x1: from, x2: to, y: 'planned', stroke: INK, strokeWidth: 1.5 })
          : rectY(drawn.weeks, { x1: from, x2: to, y: 'planned', stroke: INK, strokeWidth: 1.5, fill: 'none' }),
      ]);
    case 'load by week':
      return byWeek('load and strain', drawn.weeks, [
        rectY(drawn.weeks, {
          x1: from,
          x2: to,
          y: 'load',
          fill: 'var(--edge)',
          stroke: isLong(drawn.weeks) ? 'none' : INK,
          ...gapsOf(drawn.weeks),
        }),
        lineY(strained(drawn.weeks), { x: middle, y: 'strain', stroke: INK, strokeWidth: 2 }),
        dot(strained(drawn.weeks), {
          x: middle,
          y: 'strain',
          fill: 'var(--card)',
          stroke: INK,
          strokeWidth: 2,
          r: isLong(drawn.weeks) ? 2 : 4.5,
        }),
      ]);
    case 'distance by lane': {
      const name = ({ lane }: { readonly lane: number }): string => `Lane ${lane}`;
      return {
        ...{ ...MARGINS, height: 64 + drawn.lanes.length * 34 },
        x: { label: `distance in ${drawn.unit}`, labelAnchor: 'right', ticks: 4, tickFormat: plain },
        y: { label: null, domain: drawn.lanes.map(name) },
        marks: [
          gridX({ strokeOpacity: 0.25, ticks: 4 }),
          barX(drawn.lanes, { x: 'planned', y: name, stroke: INK, strokeWidth: 1.5, fill: 'none' }),
          barX(drawn.lanes, { x: 'distance', y: name, fill: DONE, insetTop: 4, insetBottom: 4 }),
          // What was swum stands in its bar, or beside one that is short.
          text(swumIn(drawn.lanes, true), { ...swumText(name), textAnchor: 'end', dx: -6, fill: 'var(--on-deed)' }),
          text(swumIn(drawn.lanes, false), { ...swumText(name), textAnchor: 'start', dx: 6, fill: INK }),
          ruleX([0]),
        ],
      };
    }
    case 'css over time': {
      const { paces } = drawn;
      const name = ({ lane }: TestedPace): string => `Lane ${lane}`;
      return {
        ...{ ...MARGINS, marginRight: 66, height: 300 },
        x: { type: 'utc', label: null, ticks: 4 },
        // Faster is higher.
        y: {
          label: `css per 100 ${drawn.unit}`,
          reverse: true,
          nice: true,
          tickFormat: (css: number) => reading(css),
          ticks: 5,
        },
        marks: [
          gridY({ strokeOpacity: 0.25, ticks: 5 }),
          line(paces, { x: dayOf, y: 'css', z: 'lane', stroke: INK, strokeWidth: 1.5 }),
          dot(paces, { x: dayOf, y: 'css', symbol: name, fill: DONE, stroke: INK, r: 5 }),
          text(lastOfEach(paces), { x: dayOf, y: 'css', text: name, textAnchor: 'start', dx: 10, fill: INK }),
        ],
      };
    }
  }
}

/** Lanes whose bar has room for its figure, or those that have not. */
function swumIn(lanes: readonly LaneOf[], isRoomy: boolean): readonly LaneOf[] {
  const longest = Math.max(...lanes.map(({ planned, distance }) => Math.max(planned, distance)));
  return lanes.filter(({ distance }) => distance > longest / 4 === isRoomy);
}

function swumText(y: (lane: LaneOf) => string) {
  return { x: 'distance', y, text: ({ distance }: LaneOf) => `${distance}` };
}

function byWeek(label: string, weeks: readonly WeekOf[], marks: NonNullable<PlotOptions['marks']>): PlotOptions {
  return {
    ...MARGINS,
    height: 260,
    // At least eight weeks wide: a single one would fill the drawing.
    x: {
      ...{ type: 'utc', label: null, ticks: mondaysOf(domainOf(weeks)), domain: domainOf(weeks) },
      tickFormat: weeksIn(domainOf(weeks)) > A_YEAR ? dayAndYearLabel : dayLabel,
    },
    y: { label, ticks: 5, tickFormat: plain, grid: false },
    marks: [gridY({ strokeOpacity: 0.25, ticks: 5 }), ...marks, ruleY([0])],
  };
}

const LEAST_WEEKS = 8;

/** In weeks: with more than so many there is no room between bars, and none for an outline around each. */
const MOST_APART = 60;

/** In weeks: in more than that a day comes twice. */
const A_YEAR = 52;

function isLong(weeks: readonly WeekOf[]): boolean {
  return weeksIn(domainOf(weeks)) > MOST_APART;
}

/** In px, beside each bar. */
function gapsOf(weeks: readonly WeekOf[]): { readonly insetLeft: number; readonly insetRight: number } {
  const inset = isLong(weeks) ? 0 : 3;
  return { insetLeft: inset, insetRight: inset };
}

function weeksIn([first, end]: readonly [Date, Date]): number {
  return Math.round((end.getTime() - first.getTime()) / (7 * DAY));
}

function domainOf(weeks: readonly WeekOf[]): readonly [Date, Date] {
  const end = to(weeks[weeks.length - 1]!).getTime();
  return [new Date(Math.min(from(weeks[0]!).getTime(), end - LEAST_WEEKS * 7 * DAY)), new Date(end)];
}

/** In weeks: the first of these with which at most so many days stand below. */
const WEEK_STEPS = [1, 2, 4, 8, 13, 26, 52];
const MOST_DAYS = 5;

/** Mondays, on which weeks begin, the newest week's among them. */
function mondaysOf([first, end]: readonly [Date, Date]): readonly Date[] {
  const weeks = weeksIn([first, end]);
  const step = WEEK_STEPS.find((each) => weeks / each <= MOST_DAYS) ?? Math.ceil(weeks / MOST_DAYS);
  const count = Math.ceil(weeks / step);
  return Array.from({ length: count }, (_, n) => new Date(end.getTime() - (1 + (count - 1 - n) * step) * 7 * DAY));
}

/** As in the tables: the library would write 25,000. */
function plain(figure: number): string {
  return `${figure}`;
}

/** "23 Nov". */
function dayLabel(day: Date): string {
  return `${day.getUTCDate()} ${MONTHS[day.getUTCMonth()]!.slice(0, 3)}`;
}

/** "23 Nov 2026". */
function dayAndYearLabel(day: Date): string {
  return `${dayLabel(day)} ${day.getUTCFullYear()}`;
}

function from({ monday }: WeekOf): Date {
  return new Date(`${monday}T00:00:00Z`);
}

function to(week: WeekOf): Date {
  return new Date(from(week).getTime() + 7 * DAY);
}

function middle(week: WeekOf): Date {
  return new Date(from(week).getTime() + 3.5 * DAY);
}

function dayOf({ day }: TestedPace): Date {
  return new Date(`${day}T00:00:00Z`);
}

function strained(weeks: readonly WeekOf[]): readonly WeekOf[] {
  return weeks.filter(({ strain }) => strain !== null);
}

function lastOfEach(paces: readonly TestedPace[]): readonly TestedPace[] {
  return paces.filter(({ lane }, index) => paces[index + 1]?.lane !== lane);
}
