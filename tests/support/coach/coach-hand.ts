/*
 * Gives commands in the coach's window and on a phone's remote as a coach does: by the buttons, found by their accessible
 * names alone.
 */

import type { Locator, Page } from 'playwright';
import type { Command, CommandName, CommandOf } from '../../../app/core/run/command/command.ts';
import { writeOn } from './write-window/written-page.ts';

/** Longer than the press that Move on and Finish want, in ms. */
const LONG_PRESS = 700;

export interface BeforeCommand {
  /** Swimmers of a lane as the window shows them. */
  swimmers(lane: number): number;
  /** How the outline names a line; null to take the cut that is offered beside it. */
  outlineName(line: number): RegExp | null;
}

type Press<Name extends CommandName> = (page: Page, command: CommandOf<Name>, before: BeforeCommand) => Promise<void>;

/** The commands it knows the buttons of. */
const PRESSES: { readonly [Name in CommandName]?: Press<Name> } = {
  start: (page) => button(page, /^Start( now)?$/).click(),
  undo: (page) => button(page, 'Undo').click(),
  'move-on': (page) => button(page, 'Move on').click({ delay: LONG_PRESS }),
  finish: (page) => button(page, 'Finish').click({ delay: LONG_PRESS }),
  stop: (page, { lanes }) => button(page, lanes ? `Stop lane ${lanes[0]}` : 'Stop all lanes').click(),
  resume: (page, { lanes }) => button(page, lanes ? `Resume lane ${lanes[0]}` : 'Resume').click(),
  rejoin: (page, { lanes }) => button(page, lanes ? `Rejoin lane ${lanes[0]}` : 'Rejoin').click(),
  shift: (page, { lanes, seconds }) => shift(page, lanes?.[0], seconds),
  swimmers: (page, { lanes, n }, before) =>
    inLanePanel(page, lanes?.[0], n < before.swimmers(lanes?.[0] ?? -1) ? 'One fewer' : 'One more'),
  mark: (page, { lanes, words = '' }) => mark(page, lanes?.[0], words),
  cut: (page, { line }, before) => cut(page, line, before.outlineName(line)),
  rewrite: (page, { text }) => rewrite(page, text),
};

/** Presses the buttons that give the command; throws if it knows none. */
export function giveByHand(page: Page, command: Command, before: BeforeCommand): Promise<void> {
  if ('lanes' in command && (command.lanes ?? []).length > 1) {
    throw new Error(`${command.do} for several lanes is not one press`);
  }
  return press(page, command, before);
}

function press<Name extends CommandName>(page: Page, command: CommandOf<Name>, before: BeforeCommand): Promise<void> {
  const given: Press<Name> | undefined = PRESSES[command.do];
  if (!given) throw new Error(`no buttons are known for ${command.do}`);
  return given(page, command, before);
}

/** The same on a phone's remote, for all lanes or the one that it names, which is looked after from then on. */
export async function giveByThumb(phone: Page, command: Command): Promise<void> {
  const lane = 'lanes' in command ? command.lanes?.[0] : undefined;
  const own = lane === undefined ? '' : ` lane ${lane}`;
  if (lane !== undefined) await button(phone, `Lane ${lane}`).tap();
  if (command.do === 'skip') return button(phone, 'Skip rep').tap();
  if (command.do === 'undo') return button(phone, 'Undo').tap();
  if (command.do === 'stop') return button(phone, `Stop${own}`).tap();
  if (command.do === 'resume') return button(phone, `Resume${own}`).tap();
  if (command.do !== 'move-on') throw new Error(`no buttons of the remote are known for ${command.do}`);
  await button(phone, 'More').tap();
  await button(phone, 'Move on').click({ delay: LONG_PRESS });
}

/** Looks after all lanes again. */
export async function looksAfterAll(phone: Page): Promise<void> {
  const chosen = phone.getByRole('button', { name: /^Lane \d+$/, pressed: true });
  if (await chosen.count()) await chosen.tap();
}

export function button(page: Page, name: string | RegExp): Locator {
  return page.getByRole('button', { name, exact: true });
}

async function shift(page: Page, lane: number | undefined, seconds: number): Promise<void> {
  const name = `${seconds > 0 ? '+' : '−'}${Math.abs(seconds)} s`;
  if (lane === undefined) return button(page, name).click();
  return inLanePanel(page, lane, name);
}

async function inLanePanel(page: Page, lane: number | undefined, name: string): Promise<void> {
  await button(page, `Lane ${lane}…`).click();
  await page
    .getByRole('region', { name: `Lane ${lane}`, exact: true })
    .last()
    .waitFor();
  await button(page, `${name} lane ${lane}`).last().click();
  await button(page, 'Close').click();
}

async function mark(page: Page, lane: number | undefined, words: string): Promise<void> {
  if (lane !== undefined) await button(page, `Lane ${lane}`).click();
  await button(page, 'Mark').click();
  await page.getByRole('textbox', { name: 'For the record' }).fill(words);
  await button(page, 'Mark it').click();
}

async function rewrite(page: Page, text: string): Promise<void> {
  await button(page, 'Edit').click();
  await writeOn(page, text);
  await button(page, 'Use from now on').click();
}

async function cut(page: Page, line: number, inOutline: RegExp | null): Promise<void> {
  if (inOutline === null) {
    const offers = page.getByRole('region', { name: 'If you run late' });
    return offers.getByRole('button', { name: new RegExp(`^Cut 1 of .+, line ${line}$`) }).click();
  }
  await button(page, inOutline).click();
  await button(page, /^Cut 1 (rep|round)( in every round)?$/).click();
}
