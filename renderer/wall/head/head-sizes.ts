/*
 * How large each line of the head is, and how much of the head it may take.
 */

import type { Place } from '../../ui/digits/fit-text.ts';
import { isColumn } from '../layout.ts';
import type { Box } from '../faces/clock-face.ts';

export type HeadLine =
  | 'time'
  | 'label'
  | 'title'
  | 'bareTitle'
  | 'lostTitle'
  | 'set'
  | 'written'
  | 'then'
  | 'thenAlone'
  | 'end'
  | 'endBelow'
  | 'endAlone'
  | 'lost';

/**
 * bareTitle: the title where it is all there is; lostTitle: what is wrong with link or clock in its place, never cut;
 * thenAlone: what comes next where the set as written does not stand above it; endBelow: the end where the set alone
 * stands above it; endAlone: where nothing is said but the title. showEnd: whether the end of the session is said beside what comes next.
 */
export function headSizes(words: Box, showEnd: boolean): { readonly [line in HeadLine]: Place } {
  return isColumn(words) ? inColumn(words) : inRows(words, showEnd);
}

/** Beside or below a clock: lines as wide as the head, the time of day and the end at their ends. */
function inRows({ width, height }: Box, showEnd: boolean): { readonly [line in HeadLine]: Place } {
  const line = (share: number, part: number, high?: number): Place => {
    const size = Math.min(height * share, width * share * 0.42);
    const place = { width: width * part, size, least: size * 0.55 };
    return high === undefined ? place : { ...place, height: height * high, least: size * 0.45 };
  };
  // Of the width: what the title has beside the time of day.
  const beside = 1 - Math.min(0.4, (height * 0.2 * 2.6) / width);
  return {
    time: line(0.2, 1 - beside),
    label: line(0.26, beside),
    title: line(0.27, beside),
    bareTitle: line(0.6, beside, 0.96),
    lostTitle: line(0.4, beside, 0.52),
    set: line(0.38, beside, 0.44),
    written: line(0.155, 1),
    then: line(0.155, showEnd ? 0.6 : 0.66),
    thenAlone: line(0.21, showEnd ? 0.6 : 0.66),
    end: line(0.2, 0.38),
    endBelow: line(0.21, 1),
    endAlone: line(0.28, 1),
    lost: line(0.21, 0.32),
  };
}

/** Beside a dial on a screen on end: the lines go by the width, and break. */
function inColumn({ width, height }: Box): { readonly [line in HeadLine]: Place } {
  const line = (share: number, high: number): Place => {
    const size = Math.min(width * share, height * high * 0.8);
    return { width, height: height * high, size, least: size * 0.5 };
  };
  return {
    time: line(0.17, 0.09),
    label: line(0.2, 0.18),
    title: line(0.18, 0.26),
    bareTitle: line(0.25, 0.75),
    lostTitle: line(0.18, 0.36),
    set: line(0.25, 0.36),
    written: line(0.12, 0.13),
    then: line(0.12, 0.14),
    thenAlone: line(0.15, 0.2),
    end: line(0.14, 0.08),
    endBelow: line(0.14, 0.08),
    endAlone: line(0.17, 0.12),
    lost: line(0.15, 0.08),
  };
}
