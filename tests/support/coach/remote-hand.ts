/*
 * Gives commands on a phone's remote as a thumb does: by the buttons, found by their accessible names alone.
 */

import type { Page } from 'playwright';
import type { Command } from '../../../app/core/run/command/command.ts';
import { button, LONG_PRESS } from './coach-hand.ts';

/** For all lanes, or for the one lane that the command names, which is looked after meanwhile; throws where it knows no button. */
export async function giveByThumb(phone: Page, command: Command): Promise<void> {
  const lane = 'lanes' in command ? command.lanes?.[0] : undefined;
  const own = lane === undefined ? '' : ` lane ${lane}`;
  if (lane !== undefined) await button(phone, `Lane ${lane}`).tap();
  switch (command.do) {
    case 'stop':
      await button(phone, `Stop${own}`).tap();
      break;
    case 'resume':
      await button(phone, `Resume${own}`).tap();
      break;
    case 'skip':
      await button(phone, 'Skip rep').tap();
      break;
    case 'undo':
      await button(phone, 'Undo').tap();
      break;
    case 'move-on':
      await button(phone, 'More').tap();
      await button(phone, 'Move on').click({ delay: LONG_PRESS });
      break;
    default:
      throw new Error(`no buttons of the remote are known for ${command.do}`);
  }
}

/** Looks after all lanes again. */
export async function looksAfterAll(phone: Page): Promise<void> {
  const chosen = phone.getByRole('button', { name: /^Lane \d+$/, pressed: true });
  if (await chosen.count()) await chosen.tap();
}
