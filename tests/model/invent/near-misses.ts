/*
 * Lines of which the notation says plainly that they are a fault, each beside one that is hardly
 * different and none. They stand in a session of lanes 1, 2 and 4, of which 4 has no css.
 */

import type { Random } from './random.ts';
import { writeTime } from '../write/write-time.ts';

export interface NearMiss {
  /** Before the first part. */
  readonly header?: readonly string[];
  /** In the part, after a set; the faulty line is the last, or the one that `at` counts to from 0. */
  readonly lines: readonly string[];
  readonly at?: number;
  readonly isFault: boolean;
}

interface Values {
  /** A time with a colon, of at least a minute. */
  time(): string;
  /** From 2. */
  count: number;
  /** Whole lengths of 25 m, from 50. */
  distance: number;
  words: string;
}

type Draw = (values: Values) => NearMiss;

const bad = (...lines: string[]): NearMiss => ({ lines, isFault: true });
const good = (...lines: string[]): NearMiss => ({ lines, isFault: false });
const list = (many: number, value: () => string): string => Array.from({ length: many }, value).join(', ');
const setOf = ({ count, distance, words }: Values): string => `${count} x ${distance} ${words}`;

const LISTS_A_REP: Draw[] = [
  (v) => good(`${setOf(v)} @ ${list(v.count, v.time)}`),
  (v) => bad(`${setOf(v)} @ ${list(v.count + 1, v.time)}`),
  (v) => bad(`${v.count + 1} x 50 @ ${list(v.count, v.time)}`),
  (v) => bad(`${setOf(v)} @ ${list(v.count, v.time)} drop 5`),
  (v) => bad(`0/${v.count}/${v.count + 1} x 50 @ ${list(v.count, v.time)}`),
  (v) => good(`0/${v.count}/${v.count} x 50 @ ${list(v.count, v.time)}`),
  (v) => bad(`20:00 of 100s @ ${list(v.count, v.time)}`),
  (v) => good(`100-50-100 @ ${list(3, v.time)}`),
  (v) => bad(`100-50-100 @ ${list(2, v.time)}`),
  (v) => good(`${setOf(v)} @ ${v.time()}, 25 fast`),
  (v) => good(`2 x 50 @ ${v.time()}, 90`),
  (v) => bad(`3 x 50 @ ${v.time()}, 90`),
  (v) => good(`${setOf(v)} @ 2:00 hold ${list(v.count, v.time)}`),
  (v) => bad(`${setOf(v)} @ 2:00 hold ${list(v.count + 1, v.time)}`),
  (v) => bad(`${setOf(v)} hold ${list(v.count, v.time)}`),
  (v) => bad(`${setOf(v)} rest 15, 20`),
  (v) => bad(`${setOf(v)} rest 15, 25 fast`),
  (v) => good(`${setOf(v)} rest 15, fast`),
];

const HALVES: Draw[] = [
  (v) => good(`${setOf(v)} odds @ ${v.time()}, evens rest 20`),
  (v) => good(`${setOf(v)} evens fast @ ${v.time()} odds easy @ ${v.time()}`),
  (v) => good(`${setOf(v)} odds fast, evens easy @ ${v.time()}`),
  (v) => good(`${setOf(v)} odds fast @ ${v.time()}`),
  (v) => bad(`${setOf(v)} odds fast @ ${v.time()}, evens easy`),
  (v) => bad(`${setOf(v)} @ ${v.time()} odds fast @ ${v.time()}, evens easy @ ${v.time()}`),
  (v) => bad(`${setOf(v)} odds @ ${v.time()} drop 5, evens @ ${v.time()}`),
  (v) => bad(`${setOf(v)} odds @ ${v.time()}, ${v.time()}, evens @ ${v.time()}`),
  (v) => bad(`100-50-100 odds @ ${v.time()}, evens @ ${v.time()}`),
  (v) => bad(`20:00 of 100s odds @ ${v.time()}, evens @ ${v.time()}`),
];

const SOME_LANES: Draw[] = [
  (v) => good(`lanes 1-2: ${setOf(v)} @ css`),
  (v) => bad(`lanes 1-4: ${setOf(v)} @ css`),
  (v) => bad(`${setOf(v)} @ css+10`),
  (v) => bad(`${setOf(v)} @ 2:00 hold css`),
  (v) => good(`${v.count}/1/0 x 50 @ css+5 hold css`),
  (v) => bad(`lanes 2-1: ${setOf(v)} @ base`),
  (v) => bad(`lanes 1-3: ${setOf(v)} @ base`),
  (v) => bad(`lane 3: ${setOf(v)} @ base`),
  (v) => good(`lane 1, 4: ${v.count}/2 x 50 @ ${v.time()}/2:30`),
  (v) => bad(`lane 1, 4: ${v.count}/2/2 x 50 @ ${v.time()}`),
  (v) => bad(`lanes 1-2: 0 x 50 @ ${v.time()}`),
  () => bad('lanes 1-2: talk 1:00 turns'),
  () => bad('lanes 1-2: break 1:00'),
  (v) => ({ ...bad('lanes 1-2:', `  ${setOf(v)} @ base`, '  talk 1:00'), at: 2 }),
  (v) => ({ ...bad('lanes 1-2:', `  ${setOf(v)} @ base`, '  note: hands'), at: 2 }),
  (v) => ({ ...bad('lanes 1-2:', `  lane 1: ${setOf(v)} @ base`), at: 1 }),
  (v) => good('lanes 1-2:', `  ${setOf(v)} @ base`, '  3 rounds', `    ${setOf(v)} rest 10`),
  (v) => good('lane 4: 2 rounds', `  ${setOf(v)} @ base`),
  () => bad('lanes 1-2:'),
  (v) => bad(`lane 1 ${setOf(v)} @ base`),
];

const NOTES: Draw[] = [
  () => bad('note:'),
  () => bad('kit:'),
  (v) => good(`        note: ${v.time()} is not 1.30`),
  (v) => good('2 rounds', '        kit: fins', `  ${setOf(v)} @ base`, '        note: hands', `  50 @ ${v.time()}`),
  () => ({ ...bad('3 rounds', '  note: nothing else'), at: 0 }),
];

const LINES: Draw[] = [
  (v) => good(`${setOf(v)} @ 10`),
  (v) => bad(`${setOf(v)} @ 9`),
  (v) => bad(`${setOf(v)} @ 1.30`),
  (v) => bad(`${setOf(v)} @ 130`),
  (v) => good(`${setOf(v)} @ 1'30`),
  (v) => good(`${setOf(v)} @ 2’05” drop 5`),
  (v) => bad(`${setOf(v)} @ 1:00:01`),
  (v) => bad(`${setOf(v)} @ ${v.time()} fast drop 5`),
  (v) => bad(`${setOf(v)} @ ${v.time()} hold 0:40 fast`),
  (v) => good(`${setOf(v)} @ ${v.time()} hold 0:40, fast`),
  (v) => bad(`${setOf(v)} rest 15 drop 5`),
  (v) => bad(`${setOf(v)} ${v.time()}`),
  (v) => bad(`${setOf(v)} w/ 15 sec`),
  (v) => bad(`${setOf(v)} 45" apart`),
  (v) => good(`${setOf(v)} by 25s`),
  (v) => bad(`${setOf(v)} + 50 easy`),
  (v) => bad(`${v.count} x ${v.distance} yd @ base`),
  () => bad('8 lengths'),
  () => good('20 m fast @ 1:00'),
  () => bad('501 x 25 @ 1:00'),
  () => bad('0/0/0 x 50 @ 1:00'),
  () => bad('2/3 x 50 @ 1:00'),
  (v) => bad(`${v.count} x (50 fast 50 easy) @ base`),
  () => bad('talk turns'),
  (v) => good(`talk ${v.time()} turns`),
  () => bad('2 rounds'),
  (v) => bad(`${setOf(v)} @ base`, '  50 easy'),
  () => bad('10:00 easy swim @ 1:00'),
  () => bad('10:00 easy swim hold 0:40'),
  () => bad('0:20 of 100s @ 1:00'),
  () => bad('pool 25 m'),
  () => bad('lane1: 4 x 50 @ base'),
];

const inHeader = (isFault: boolean, ...header: string[]): NearMiss => ({ header, lines: [], isFault });

const HEADERS: Draw[] = [
  () => inHeader(false, 'start 7:30 pm', 'finish 20:30'),
  () => inHeader(true, 'start 7:30 pm', 'finish 8:30'),
  () => inHeader(true, 'start 7:30', 'finish 8:30 pm'),
  () => inHeader(false, 'start 11:30 pm', 'finish 12:30 am'),
  () => inHeader(false, 'start 19:30-20:30'),
  () => inHeader(true, 'start 19:30-19:30'),
  () => inHeader(true, 'start 19:30-20:30', 'finish 20:45'),
  () => inHeader(true, 'start 13:30 pm'),
  () => inHeader(true, 'start 0:30 am'),
  () => inHeader(false, 'start 12:30 am'),
  () => inHeader(false, 'note: new here', 'start 7 pm', '    kit: fins', 'grid 10'),
  () => inHeader(true, 'grid 10', 'note: new here', 'grid 10'),
];

const ALL = [...LISTS_A_REP, ...HALVES, ...SOME_LANES, ...NOTES, ...LINES, ...HEADERS];

/** Every one of them once, with other values for another draw. */
export function drawNearMisses(random: Random): NearMiss[] {
  return ALL.map((draw) =>
    draw({
      time: () => writeTime(random.whole(12, 40) * 5000, random, 'sum'),
      count: random.whole(2, 6),
      distance: random.whole(2, 8) * 25,
      words: random.pick(['free', 'steady', 'kick', 'back and free by 25', 'easy choice']),
    }),
  );
}

const HEADER = ['Harbour squad', 'pool 25 m', 'lane 1 css 1:20, base 1:30', 'lane 2 css 1:28', 'lane 4 base 2:00'];

/** The whole text, and the line at which the fault is where there is one: any of the header's own. */
export function textWith({ header = [], lines, at = lines.length - 1 }: NearMiss): {
  text: string;
  from: number;
  to: number;
} {
  const before = [...HEADER, ...header, 'Main', '4 x 50 free @ 2:00'];
  const text = [...before, ...lines, 'Later', '100 easy', ''].join('\n');
  if (header.length > 0) return { text, from: HEADER.length + 1, to: HEADER.length + header.length };
  return { text, from: before.length + at + 1, to: before.length + at + 1 };
}
