/*
 * A coach's hand on the coach's window: gives a command by the buttons it stands on, found by their
 * accessible names alone.
 */

import type { Locator, Page } from 'playwright';
import type { Command } from '../../app/core/run/command.ts';

/** Longer than the press that Move on and Finish want, in ms. */
const LONG_PRESS = 700;

export interface BeforeCommand {
  /** Swimmers of a lane as the window shows them. */
  swimmers(lane: number): number;
  /** How the outline names a line; null to take the cut that is offered beside it. */
  outlineName(line: number): RegExp | null;
}

/** Presses what gives the command; throws for one that this hand has not learnt. */
export async function giveByHand(page: Page, command: Command, before: BeforeCommand): Promise<void> {
  const lanes = 'lanes' in command ? (command.lanes ?? []) : [];
  const [lane] = lanes;
  if (lanes.length > 1) throw new Error(`${command.do} for several lanes is not one press`);
  switch (command.do) {
    case 'start':
      return button(page, /^Start( now)?$/).click();
    case 'undo':
      return button(page, 'Undo').click();
    case 'move-on':
      return button(page, 'Move on').click({ delay: LONG_PRESS });
    case 'finish':
      return button(page, 'Finish').click({ delay: LONG_PRESS });
    case 'stop':
      return button(page, lane === undefined ? 'Stop all lanes' : `Stop lane ${lane}`).click();
    case 'resume':
      return button(page, lane === undefined ? 'Resume' : `Resume lane ${lane}`).click();
    case 'rejoin':
      return button(page, lane === undefined ? 'Rejoin' : `Rejoin lane ${lane}`).click();
    case 'shift':
      return shift(page, lane, command.seconds);
    case 'swimmers':
      return inLanePanel(page, lane, command.n < before.swimmers(lane ?? -1) ? 'One fewer' : 'One more');
    case 'mark':
      return mark(page, lane, command.words ?? '');
    case 'cut':
      return cut(page, command.line, before.outlineName(command.line));
    case 'rewrite':
      return rewrite(page, command.text);
    default:
      throw new Error(`this hand has not learnt ${command.do}`);
  }
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
  await page.getByRole('textbox', { name: 'Session', exact: true }).fill(text);
  await button(page, 'Use from now on').click();
}

async function cut(page: Page, line: number, inOutline: RegExp | null): Promise<void> {
  if (inOutline === null) {
    const offers = page.getByRole('region', { name: 'If you run late' });
    return offers.getByRole('button', { name: new RegExp(`^Cut 1 of .+, line ${line}$`) }).click();
  }
  await button(page, inOutline).click();
  await button(page, /^Cut 1 (rep|round)$/).click();
}
