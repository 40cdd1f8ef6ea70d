/*
 * A run on the phone and on the tablet: one lane looked after, what is behind More, and what they say where something is
 * not well.
 */

import type { BrowserContext, Page } from 'playwright';
import type { Command } from '../../../app/core/run/command/command.ts';
import { FIRST_SETTINGS } from '../../../app/core/screen/screen-settings.ts';
import type { FromHost } from '../../../app/wire/messages.ts';
import { button } from '../../support/coach/coach-hand.ts';
import type { Scene } from '../scene.ts';
import { device, ON } from './sharing-scenes.ts';
import { cuttable, keepFar } from './told-pages.ts';

const SESSION = `Harbour squad, Thursday
start 19:30
finish 20:30
lane 1 base 1:30, 5 swimmers
lane 2 base 1:40, 6 swimmers
lane 3 base 1:50, 5 swimmers
lane 4 base 2:00, 3 swimmers
lane 5 base 2:10, 4 swimmers
lane 6 base 2:20, 4 swimmers

Warm-up
8 x 50 back and free by 25 @ 1:00/1:05/1:10/1:15/1:20/1:25
break 0:45 drink

Main set
3 rounds
  100 steady @ base
  4 x 50 fast @ 0:50/0:55/1:00/1:05/1:10/1:15
`;

const STARTED: readonly [number, Command][] = [[19, { do: 'start' }]];

/** Into the break, which the main set waits after. */
const BREAK: readonly [number, Command][] = [
  [1, { do: 'move-on' }],
  [19, { do: 'start' }],
];

const cuts = new WeakMap<BrowserContext, () => Promise<void>>();

const SHARED: readonly FromHost[] = [
  {
    say: 'screens',
    screens: ['Wall 1', 'Wall 2'].map((name) => ({
      name,
      settings: FIRST_SETTINGS,
      connected: [{ search: '', room: { width: 1920, height: 1080 } }],
    })),
  },
  { say: 'presence', screens: { desk: 2, wall: 2, remote: 2 } },
  {
    say: 'sharing',
    sharing: {
      ...ON,
      devices: [
        device('a', 'wall', 'Wall 1'),
        device('e', 'wall', 'Wall 2'),
        device('b', 'remote', 'Remote 1'),
        device('c', 'remote', 'Remote 2'),
        device('d', 'tablet', 'Tablet 1'),
      ],
    },
  },
];

export const POOLSIDE_SCENES: readonly Scene[] = [
  phone('lane looked after', STARTED, 60, (page) => button(page, 'Lane 2').click()),
  phone('lane stopped', [...STARTED, [60, { do: 'stop', lanes: [2] }]], 100, (page) => button(page, 'Lane 2').click()),
  phone('all stopped', [...STARTED, [60, { do: 'stop' }]], 100),
  phone('break, the coach starts', BREAK, 30),
  phone('more', STARTED, 60, (page) => button(page, 'More').click()),
  phone('more of one lane', STARTED, 60, async (page) => {
    await button(page, 'Lane 2').click();
    await button(page, 'More').click();
  }),
  phone('times', STARTED, 110, async (page) => {
    await button(page, 'More').click();
    await button(page, 'Times').click();
  }),
  phone('refused', STARTED, 60, async (page) => {
    await button(page, 'Undo').click({ force: true });
    await page.getByText(/^There is nothing to undo/).waitFor();
  }),
  phone('finished just now', [...STARTED, [60, { do: 'finish' }]], 64),
  phone('finished', [...STARTED, [60, { do: 'finish' }]], 90),
  { ...phone('clock off', STARTED, 60, (page) => page.getByText(/^Do not leave/).waitFor()), between: keepFar },
  {
    ...phone('no link', STARTED, 60, async (page) => {
      await button(page, 'Stop').waitFor();
      await cuts.get(page.context())?.();
      await page.getByText(/^The link is lost/).waitFor();
    }),
    between: async (context) => void cuts.set(context, await cuttable(context)),
  },
  shared('a run shared', ['coach', 'tablet']),
  shared('screens in a run', ['coach'], (coach) => button(coach, /^Screens/).click()),
  shared('screens in a run, tablet', ['tablet'], (coach) => button(coach, /^Screens/).click()),
];

function phone(
  name: string,
  commands: Scene['commands'],
  at: number,
  prepare?: (page: Page) => Promise<unknown>,
): Scene {
  const scene = { name: `phone, ${name}`, session: SESSION, commands, at, screens: ['remote'], fresh: true } as const;
  return prepare ? { ...scene, prepare: async (page) => void (await prepare(page)) } : scene;
}

function shared(name: string, screens: Scene['screens'], prepare?: Scene['prepare']): Scene {
  const scene: Scene = {
    name: `sharing, ${name}`,
    session: SESSION,
    commands: STARTED,
    at: 60,
    screens,
    fresh: true,
    told: SHARED,
  };
  return prepare ? { ...scene, prepare } : scene;
}
