/*
 * The coach's window in a real browser, on a host of its own, with the few things that tests of fingers and room
 * do to it. Its host is in the test's process and its clock can be moved.
 */

import type { Browser, BrowserContext, BrowserContextOptions, Locator, Page } from 'playwright';
import { BOUNCE_TIME } from '../../../renderer/ui/coach/commands/bounce.ts';
import { button } from './coach-hand.ts';
import { MovingDeck } from '../host/deck/moving-deck.ts';
import { writeOn } from './write-window/written-page.ts';

/** A session of two lanes, to try fingers and keys on. */
export const TWO_LANES = `Harbour squad
start on 1
lane 1 base 1:30, 3 swimmers
lane 2 base 1:40

Main set
3 rounds
  4 x 50 fast @ 0:50/1:00
10 x 75 free @ 1:20
`;

export class DeskPage {
  readonly deck: MovingDeck;
  readonly page: Page;
  private readonly context: BrowserContext;

  private constructor(deck: MovingDeck, context: BrowserContext, page: Page) {
    this.deck = deck;
    this.context = context;
    this.page = page;
  }

  static async open(browser: Browser, options: BrowserContextOptions = {}): Promise<DeskPage> {
    const deck = await MovingDeck.start();
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
    return new DeskPage(deck, context, await deck.openPage(context, '/'));
  }

  async close(): Promise<void> {
    await this.context.close();
    await this.deck.close();
  }

  /** Another screen of the same host. */
  openPage(path: string): Promise<Page> {
    return this.deck.openPage(this.context, path);
  }

  button(name: string | RegExp): Locator {
    return button(this.page, name);
  }

  async start(text: string): Promise<void> {
    await writeOn(this.page, text);
    await this.button('Run this session').click();
    await this.button('Start').click();
    await this.said('Started');
    await this.page.waitForTimeout(BOUNCE_TIME);
  }

  /** Waits until what is said begins so. */
  async said(begins: string): Promise<void> {
    await this.page.getByRole('status').last().getByText(begins).waitFor({ timeout: 5_000 });
  }
}
