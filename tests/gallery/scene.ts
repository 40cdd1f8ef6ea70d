/*
 * What is photographed: a session brought to a state, on some of the screens.
 */

import type { BrowserContext, Page } from 'playwright';
import type { FromHost } from '../../app/wire/messages.ts';
import type { Command } from '../../app/core/run/command/command.ts';
import type { DeckServerUnderTest } from '../support/host/deck/deck-server.ts';

export interface Scene {
  readonly name: string;
  /** null: no session is open. */
  readonly session: string | null;
  readonly commands: readonly (readonly [number, Command])[];
  readonly at: number;
  readonly screens: readonly ScreenName[];
  /** What the wall's address asks for: `?face=sweep`. */
  readonly asks?: string;
  /** Gone in seconds, or laid out by the size it is opened at: reached anew for each screen and size. */
  readonly fresh?: true;
  /** What is kept on its host before anything is opened. */
  readonly fill?: (server: DeckServerUnderTest) => Promise<void>;
  /** What its pages are told in place of what the host would say of it. */
  readonly told?: readonly FromHost[];
  /** What stands between its pages and the host. */
  readonly between?: (context: BrowserContext) => Promise<void>;
  /** What is done on the coach's window, or on the scene's only screen, before it is looked at. */
  readonly prepare?: (coach: Page) => Promise<void>;
}

/** A tablet has the coach's window. */
export type ScreenName = 'wall' | 'coach' | 'tablet' | 'remote';
