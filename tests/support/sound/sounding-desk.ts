/*
 * The coach's window with its sound on, on a host whose clock can be moved, for each test of a file anew.
 */

import type { Browser, BrowserContext, Locator, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect } from 'vitest';
import { MovingDeck } from '../host/deck/moving-deck.ts';
import { launched } from '../system/launched.ts';

const SESSION = 'start on 1\nlane 1\nlane 2\nSet\n4 x 25 @ 0:03/0:04\n';

/** The pitch of a cue, in Hz, and the least loudness that counts as one. */
export const LEAVE = { hertz: 1600, least: 0.2 };
export const PIP = { hertz: 1000, least: 0.1 };

export class SoundingDesk {
  readonly deck: MovingDeck;
  readonly context: BrowserContext;
  private ids = 0;

  private constructor(deck: MovingDeck, context: BrowserContext) {
    this.deck = deck;
    this.context = context;
  }

  static async start(browser: Browser): Promise<SoundingDesk> {
    const deck = await MovingDeck.start();
    // What taps the sound is a script of the test's own.
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, bypassCSP: true });
    return new SoundingDesk(deck, context);
  }

  async end(): Promise<void> {
    await this.context.close();
    await this.deck.close();
    expect(this.deck.complaints).toEqual([]);
  }

  async openSession(text = SESSION): Promise<void> {
    const opened = await this.deck.server.host.open({ text, lanesText: null }, { replace: true, clockPhase: 0 });
    expect(opened).toMatchObject({ ok: true });
  }

  async give(fields: Record<string, unknown>): Promise<number> {
    const answer = await this.deck.server.host.command(`sound-test-${this.ids++}`, fields);
    expect(answer.ok).toBe(true);
    return answer.at!;
  }

  /** Opens the coach's window and its settings, and switches its sound on there. */
  async sounding(): Promise<Page> {
    const page = await this.deck.openPage(this.context, '/');
    await button(page, /^Sound/).click();
    await button(page, 'Sound on this screen: off').click();
    await button(page, 'Sound on').waitFor();
    return page;
  }
}

/** One for each test of the file that calls this; gives a function for the one of the test that runs. */
export function soundingDeskForEach(): () => SoundingDesk {
  let browser: Browser;
  let desk: SoundingDesk;
  beforeAll(async () => {
    browser = await launched();
  });
  beforeEach(async () => {
    desk = await SoundingDesk.start(browser);
  });
  afterEach(() => desk?.end());
  afterAll(() => browser?.close());
  return () => desk;
}

export function button(on: Page, name: string | RegExp): Locator {
  return on.getByRole('button', { name, exact: true });
}
