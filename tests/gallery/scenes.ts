/*
 * What the gallery shows: sessions, the commands that bring a run to a state, and the moment at which
 * it is looked at. Invented squads; times in seconds since the session was opened.
 */

import type { Page } from 'playwright';
import type { Command } from '../../app/core/run/command/command.ts';
import { button } from '../support/coach/coach-hand.ts';
import { LANE_SCENES } from './lane-scenes.ts';
import { LANES_SHOWN } from './lanes-shown.ts';
import { HISTORY_SCENES } from './history-scenes.ts';
import { LIBRARY_SCENES } from './library-scenes.ts';
import type { Scene, ScreenName } from './scene.ts';
import { POOLSIDE_SCENES } from './sharing/poolside-scenes.ts';
import { SHARING_SCENES } from './sharing/sharing-scenes.ts';
import { WRITE_SCENES } from './write-scenes.ts';

const ALL: readonly ScreenName[] = ['wall', 'coach', 'remote'];

const SIX_LANES = `Harbour squad, Thursday
pool 25 m
start 19:30
finish 20:30
lane 1 css 1:20, base 1:30, 5 swimmers
lane 2 css 1:28, base 1:40, 6 swimmers
lane 3 css 1:36, base 1:50, 5 swimmers
lane 4 css 1:45, base 2:00, 3 swimmers, gap 10
lane 5 base 2:10, 4 swimmers
lane 6 base 2:20, 4 swimmers

Warm-up
6:00 choice
4 x 50 back and free by 25 @ base+10

Turns
talk 1:30 push off under the waves, three kicks, then the first stroke
4/4/4/3/3/0 x 50 drill, fist and free @ 1:15

Main set
3 rounds
  100 steady @ base
  4 x 50 fast @ 0:50/0:55/1:00/1:05/1:10/1:15
break 0:45 drink
6/6/6/5/5/5 x 75 free, odds fast @ 1:30/1:35/1:40/1:45/1:50/2:00 hold 1:05/1:10/1:15/1:20/1:25/1:30

Swim-down
200 easy choice
`;

const LONG = 'arms long, legs quiet, breathe to both sides and look at the floor of the pool '.repeat(5).trim();

const TEN_LANES = `The squad with the longest name that anybody has ever written on a whiteboard beside a pool
start 19:30
finish 20:30
${Array.from({ length: 10 }, (_, lane) => `lane ${lane + 1} css 1:2${lane}, base 1:${30 + lane}, ${1 + lane * 2} swimmers`).join('\n')}

The part with the longest name that anybody has ever written on a whiteboard beside a pool
12 rounds
  12 x 100 ${LONG} @ base hold 1:15
20 x 50 ${LONG} @ 1:00
`;

const ONE_LANE = `One lane
start 19:30
finish 20:30
lane 4 css 1:30, 4 swimmers

Main set
6 x 150 free @ 2:30 hold css
`;

const BY_REST = `Harbour squad, by rests
start 19:30
finish 20:00
lane 1 css 1:20, 5 swimmers
lane 2 css 1:28, 6 swimmers
lane 3 css 1:36, 3 swimmers

Main set
2 rounds
  8 x 50 fast rest 0:15
  break 0:45 drink
100 easy rest 0:20
`;

const BY_NAME = `Harbour squad, by name
lane 1 base 1:20, Ada, Ben, Cem, Dot
lane 2 base 1:25, Eva, Finn, Gül, Hal, Ida
lane 3 base 1:30, Jon, Kit, Liv
lane 4 base 1:35, Mia, Ned, Oda

Main set
8 x 50 free @ 1:00 hold 0:40
`;

/** Started on 30 s; cut to 5 of 8 at 40 s. */
const CUT: readonly [number, Command][] = [
  [19, { do: 'start' }],
  [40, { do: 'cut', line: 10, n: 3 }],
];

const FAULTY = SIX_LANES.replace('@ base+10', '@ 1.30')
  .replace('talk 1:30', 'talk')
  .replace('  100 steady', '  100 steady 8 x')
  .replace('lane 3 css 1:36', 'lane 3 css 136');

const LATE = SIX_LANES.replace('finish 20:30', 'finish 20:05');

/** T0 at 30 s. */
const STARTED: readonly [number, Command][] = [[19, { do: 'start' }]];

/** To the start of a part of the six lanes: each Move on passes one stretch over while nothing is going. */
function passing(stretches: number): [number, Command][] {
  return Array.from({ length: stretches }, (_, index) => [1 + index, { do: 'move-on' }]);
}

/** The main set of the six lanes, its T0 at 30 s: lane 1 leaves at 30, 120, 170, 220 and 270 s. */
const MAIN_SET: readonly [number, Command][] = [...passing(3), [19, { do: 'start' }]];

/** The drills after the talk, T0 at 30 s: lanes 4 and 5 have one less, lane 6 none. */
const DRILLS: readonly [number, Command][] = [...passing(2), [19, { do: 'start' }]];

const MIXED: readonly [number, Command][] = [
  ...MAIN_SET,
  [122, { do: 'stop', lanes: [2] }],
  [124, { do: 'lane-out', lanes: [5] }],
];

export const SCENES: readonly Scene[] = [
  { name: 'no session', session: null, commands: [], at: 1, screens: ALL },
  ...LIBRARY_SCENES,
  ...WRITE_SCENES,
  ...SHARING_SCENES,
  ...POOLSIDE_SCENES,
  ...HISTORY_SCENES,
  writing('writing with faults', FAULTY),
  writing('writing', SIX_LANES),
  writing('writing the longest words', TEN_LANES),
  writing('writing past the finish', LATE),
  { ...writing('writing, a cut made', LATE), prepare: writeAndCut },
  { ...writing('rehearsing', SIX_LANES), prepare: (coach) => rehearse(coach, SIX_LANES) },
  { ...writing('rehearsing, ten lanes', TEN_LANES), prepare: (coach) => rehearse(coach, TEN_LANES) },
  ...LANES_SHOWN.map(({ name, prepare }): Scene => ({ ...writing(name, ''), prepare })),
  { name: 'waiting for the first start', session: SIX_LANES, commands: [], at: 5, screens: ALL },
  { name: 'countdown', session: SIX_LANES, commands: MAIN_SET, at: 25.2, screens: ALL, fresh: true },
  { name: 'leaving and ready', session: SIX_LANES, commands: MAIN_SET, at: 120.3, screens: ALL, fresh: true },
  { name: 'stopped, out, tail leaving', session: SIX_LANES, commands: MIXED, at: 132, screens: ALL },
  { name: 'finished and no swim', session: SIX_LANES, commands: DRILLS, at: 215, screens: ALL },
  {
    name: 'all stopped',
    session: SIX_LANES,
    commands: [...MAIN_SET, [122, { do: 'stop' }]],
    at: 200,
    screens: ALL,
  },
  { name: 'talk', session: SIX_LANES, commands: [...passing(1), [19, { do: 'start' }]], at: 44, screens: ALL },
  {
    name: 'break',
    session: SIX_LANES,
    commands: [...MAIN_SET, [200, { do: 'move-on' }]],
    at: 204,
    screens: ALL,
  },
  { name: 'after a cut, by rests', session: BY_REST, commands: CUT, at: 63, screens: ALL, fresh: true },
  { name: 'break at hand', session: BY_REST, commands: CUT, at: 330, screens: ALL },
  {
    name: 'moved on in the middle',
    session: SIX_LANES,
    commands: [
      ...MAIN_SET,
      [32, { do: 'move-on' }],
      [80, { do: 'move-on' }],
      [81, { do: 'restart' }],
      [84, { do: 'start' }],
    ],
    at: 92,
    screens: ALL,
    fresh: true,
  },
  {
    name: 'a break comes by itself',
    session: SIX_LANES.replace('3 rounds', '1 rounds'),
    commands: MAIN_SET,
    at: 30 + 432,
    screens: ALL,
  },
  {
    name: 'lanes chosen',
    session: SIX_LANES,
    commands: [...MAIN_SET, [131, { do: 'skip' }]],
    at: 132,
    screens: ['coach', 'remote'],
    fresh: true,
    prepare: async (coach) => {
      await button(coach, 'Lane 1').click();
      await button(coach, 'Lane 3').click();
    },
  },
  { name: 'waiting for the main set', session: SIX_LANES, commands: passing(3), at: 20, screens: ALL },
  {
    name: 'untimed set',
    session: SIX_LANES,
    commands: [...passing(6), [19, { do: 'start' }]],
    at: 32.5,
    screens: ['wall', 'coach'],
  },
  {
    name: 'done',
    session: SIX_LANES,
    commands: [...MAIN_SET, [180, { do: 'mark', lanes: [3], words: 'cramp' }], [600, { do: 'finish' }]],
    at: 605,
    screens: ALL,
  },
  { name: 'one lane', session: ONE_LANE, commands: STARTED, at: 133, screens: ['wall', 'coach'] },
  ...LANE_SCENES,
  { name: 'no session, sweep', session: null, commands: [], at: 1, screens: ['wall'], asks: '?face=sweep' },
  {
    name: 'whose turn, by name',
    session: BY_NAME,
    commands: STARTED,
    at: 93,
    screens: ['wall'],
    asks: '?names',
    fresh: true,
  },
  ...(
    [
      ['countdown', MAIN_SET, 25.2],
      ['stopped, out, tail leaving', MIXED, 132],
      ['finished and no swim', DRILLS, 215],
      ['waits, and no swim', DRILLS, 262],
      ['lanes share a mark', [...DRILLS, [40, { do: 'shift', lanes: [2, 3], seconds: 5 }]], 108],
      ['all stopped', [...MAIN_SET, [122, { do: 'stop' }]], 200],
      ['talk', [...passing(1), [19, { do: 'start' }]], 44],
      ['break', [...MAIN_SET, [200, { do: 'move-on' }]], 204],
      ['waiting for the main set', passing(3), 20],
      ['done', [...MAIN_SET, [600, { do: 'finish' }]], 605],
    ] as const
  ).map(([name, commands, at]): Scene => {
    return { name: `sweep, ${name}`, session: SIX_LANES, commands, at, screens: ['wall'], asks: '?face=sweep' };
  }),
  ...['bright', 'contrast'].flatMap((light): readonly Scene[] => [
    { name: `no session, ${light}`, session: null, commands: [], at: 1, screens: ['wall'], asks: `?light=${light}` },
    ...['', '&face=sweep'].flatMap((face) => [
      inLight(light, { name: 'talk', commands: [...passing(1), [19, { do: 'start' }]], at: 44 }, face),
      inLight(light, { name: 'done', commands: [...MAIN_SET, [600, { do: 'finish' }]], at: 605 }, face),
      inLight(light, { name: 'leaving and ready', commands: MAIN_SET, at: 120.3, fresh: true }, face),
      inLight(light, { name: 'stopped, out, tail leaving', commands: MIXED, at: 132 }, face),
      inLight(light, { name: 'waiting for the main set', commands: passing(3), at: 20 }, face),
      inLight(light, { name: 'all stopped', commands: [...MAIN_SET, [122, { do: 'stop' }]], at: 200 }, face),
    ]),
  ]),
  { name: 'ten lanes waiting', session: TEN_LANES, commands: [], at: 5, screens: ['wall', 'coach'] },
  { name: 'ten lanes', session: TEN_LANES, commands: STARTED, at: 114, screens: ALL },
  {
    name: 'lane panel',
    session: SIX_LANES,
    commands: MIXED,
    at: 132,
    screens: ['coach'],
    fresh: true,
    prepare: (coach) => button(coach, 'Lane 4…').click(),
  },
  {
    name: 'marking',
    session: SIX_LANES,
    commands: MIXED,
    at: 132,
    screens: ['coach'],
    fresh: true,
    prepare: (coach) => button(coach, 'Mark').click(),
  },
  {
    name: 'rewriting',
    session: SIX_LANES,
    commands: MAIN_SET,
    at: 132,
    screens: ['coach'],
    fresh: true,
    prepare: (coach) => button(coach, 'Edit').click(),
  },
  {
    name: 'sound settings',
    session: SIX_LANES,
    commands: MIXED,
    at: 132,
    screens: ['coach'],
    fresh: true,
    prepare: openSoundSettings,
  },
  {
    name: 'past the hour',
    session: SIX_LANES,
    commands: [...passing(3), [3700, { do: 'start' }]],
    at: 3745,
    screens: ['coach'],
    fresh: true,
    prepare: async (coach) => void (await coach.getByLabel('Which clock').selectOption('run')),
  },
  {
    name: 'ten lanes rewriting',
    session: TEN_LANES,
    commands: STARTED,
    at: 85,
    screens: ['coach'],
    fresh: true,
    prepare: (coach) => button(coach, 'Edit').click(),
  },
  { name: 'running late', session: LATE, commands: [...passing(3), [700, { do: 'start' }]], at: 735, screens: ALL },
];

/** On the wall alone, which is in that light. */
function inLight(light: string, { name, ...scene }: Omit<Scene, 'screens' | 'session'>, face: string): Scene {
  const called = `${name}, ${light}${face === '' ? '' : ', sweep'}`;
  return { ...scene, name: called, session: SIX_LANES, screens: ['wall'], asks: `?light=${light}${face}` };
}

async function openSoundSettings(coach: Page): Promise<void> {
  await button(coach, /^Sound/).click();
  await coach.getByText('What sounds').click();
}

async function writeAndCut(coach: Page): Promise<void> {
  await coach.getByRole('textbox', { name: 'Session', exact: true }).fill(LATE);
  await coach.getByRole('region', { name: 'If you run late' }).getByRole('button', { name: /^Cut/ }).first().click();
  await coach.getByText('It takes both of these cuts:').waitFor();
}

/** Paused a while after the start, so that the picture stands. */
async function rehearse(coach: Page, text: string): Promise<void> {
  await coach.getByRole('textbox', { name: 'Session', exact: true }).fill(text);
  await button(coach, 'Rehearse').click();
  await button(coach, 'Start').click();
  await button(coach, '20 times the speed').click();
  await coach.waitForTimeout(2000);
  await button(coach, 'Pause').click();
}

function writing(name: string, text: string): Scene {
  return {
    name,
    session: null,
    commands: [],
    at: 1,
    screens: ['coach'],
    fresh: true,
    async prepare(coach) {
      await coach.getByRole('textbox', { name: 'Session', exact: true }).fill(text);
      // Until it is read and drawn, once typing has paused.
      await coach.waitForTimeout(1500);
    },
  };
}
