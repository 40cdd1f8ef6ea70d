/*
 * The history in the coach's window: eight weeks of an invented squad, one run of them opened.
 */

import type { Page } from 'playwright';
import { button } from '../support/coach/coach-hand.ts';
import type { DeckServerUnderTest } from '../support/host/deck/deck-server.ts';
import { DONE, journalLines, said, THURSDAY } from '../support/host/folders/written-journal.ts';
import type { Scene } from './scene.ts';

const DAY = 24 * 3_600_000;
const MINUTE = 60_000;

const TEXT = `Harbour squad, Thursday
pool 25 m
start 19:30
finish 20:30
lane 1 css 1:20, base 1:30, Ana, Bram, Chidi, Dilek
lane 2 css 1:28, base 1:40, 6 swimmers
lane 3 css 1:36, base 1:50, 5 swimmers
lane 4 css 1:44, base 2:00, 5 swimmers
lane 5 css 1:52, base 2:10, 4 swimmers
lane 6 css 2:00, base 2:20, 4 swimmers

Warm-up
400 choice @ 8:00

Test
400 all out @ 10:00
200 all out @ 6:00

Main set
3 rounds
  4 x 50 fast @ 0:50/0:55/1:00/1:05/1:10/1:15 hold 0:38/0:42/0:46/0:50/0:54/0:58
  100 easy @ 2:30

Swim-down
200 easy choice
`;

const TEN_LANES = `Harbour squad, Friday
${Array.from({ length: 10 }, (_, index) => `lane ${index + 1} css 1:${20 + index}, 5 swimmers`).join('\n')}

Main set
8 x 50 fast @ 1:30 hold 0:42
`;

const DEEDS = said([
  { atMs: 0, fields: { do: 'start' } },
  { atMs: 9 * MINUTE, fields: { do: 'start' } },
  { atMs: 12 * MINUTE, fields: { do: 'mark', lanes: [3], words: 'cramp' } },
  { atMs: 27 * MINUTE, fields: { do: 'start' } },
  { atMs: 30 * MINUTE, fields: { do: 'cut', line: 20, n: 1 } },
  { atMs: 31 * MINUTE, fields: { do: 'sit-out', lanes: [3] } },
  { atMs: 45 * MINUTE, fields: { do: 'start' } },
]);

/** Two a week, some harder than others. */
export async function swimEightWeeks(server: DeckServerUnderTest): Promise<void> {
  for (let n = 0; n < 16; n++) {
    const openedAt = THURSDAY - Math.floor(n / 2) * 7 * DAY - (n % 2) * 2 * DAY;
    const text = n % 2 === 0 ? TEXT : TEXT.replace('Thursday', 'Tuesday').replace('3 rounds', `${2 + (n % 4)} rounds`);
    const run = `run-${n}`;
    const lines = journalLines({ run, text, openedAt }, [...DEEDS, DONE]);
    server.disk.put(`/data/runs/${run}.jsonl`, Buffer.from(lines.join('')));
    const asked = { do: 'review', run } as const;
    const read = await server.records.ask<'review'>(asked);
    if (!read.ok) throw new Error(read.why);
    const times = read.record.lanes.flatMap(({ lane, leaves }) =>
      leaves
        .filter(({ words }) => words !== 'choice')
        .slice(0, 6)
        .map(({ atMs, distance }, index) => ({
          lane,
          at: atMs,
          watches: [Math.round(distance * (745 + lane * 45 + n * 4 + (distance > 200 ? 70 : 0) + index * 6))],
        })),
    );
    const names = n % 3 === 0 ? ['Ana', 'Bram', 'Dilek'] : ['Ana', 'Chidi'];
    const added = {
      marks: [{ command: 2, words: 'left calf, swam on' }],
      notes: ['Lane 2 ready for base 1:35. Fins earlier.'],
      attendance: [
        { lane: 1, swimmers: names.length, names },
        { lane: 2, swimmers: 5, names: null },
      ],
      effort: 4 + (n % 4),
      times,
    };
    const kept = await server.records.ask<'keep'>({ do: 'keep', run, version: read.version, added });
    if (!kept.ok) throw new Error(kept.why);
  }
}

export const HISTORY_SCENES: readonly Scene[] = [
  scene('history', () => Promise.resolve()),
  scene('history, a run asked to be deleted', (coach) => button(coach, 'Delete this run').click()),
  scene('history, weeks', (coach) => drawn(coach, 'Weeks')),
  scene('history, lanes', (coach) => drawn(coach, 'Lanes')),
  scene('history, a name', async (coach) => {
    await button(coach, /^Delete ?a name/).click();
    await coach.getByLabel('The name, as it is written').fill('Bram');
    await button(coach, 'Delete this name everywhere').click();
  }),
  ...(['Whiteboard', 'A sheet a lane', 'Timetable'] as const).map((sheet) => ({
    ...scene(`paper, ${sheet.toLowerCase()}`, async (coach) => {
      await button(coach, 'Do this again').click();
      await button(coach, 'Print').click();
      await button(coach, sheet).click();
    }),
  })),
  ...(['coach', 'remote'] as const).map(timesScene),
];

async function drawn(coach: Page, name: string): Promise<void> {
  await button(coach, new RegExp(`^${name}`)).click();
  await coach.getByRole('img').last().waitFor();
}

function scene(name: string, prepare: (coach: Page) => Promise<void>): Scene {
  return {
    ...{ name, session: null, commands: [], at: 1, screens: ['coach'], fresh: true, fill: swimEightWeeks },
    prepare: async (coach) => {
      await button(coach, 'History').click();
      await coach.getByRole('heading', { name: 'Harbour squad, Thursday' }).waitFor();
      await prepare(coach);
    },
  };
}

function timesScene(screen: 'coach' | 'remote'): Scene {
  return {
    ...{ name: 'times', session: TEN_LANES, commands: [[1, { do: 'start' }]], at: 80, screens: [screen], fresh: true },
    prepare: async (page) => {
      if (screen === 'remote') await button(page, 'More').click();
      await button(page, 'Times').click();
      for (const lane of [1, 2, 3, 10]) await button(page, `Touch lane ${lane}`).click();
      await page.getByText(/^Lane 10: /).waitFor();
    },
  };
}
