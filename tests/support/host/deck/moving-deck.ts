/*
 * The real host with a clock that can be moved ahead, and its pages in a real browser that follow: what
 * the walk through an evening and the gallery of screens need.
 */

import { fileURLToPath } from 'node:url';
import type { BrowserContext, Page } from 'playwright';
import type { OpenRun } from '../../../../app/host/deck/open-run.ts';
import { readPages } from '../../../../app/host/web/pages.ts';
import { systemTimers } from '../../../../app/host/time/timers.ts';
import { DeckServerUnderTest } from './deck-server.ts';
import { MovingClock } from '../../clock/moving-clock.ts';

/** The pages as `npm run build` makes them. */
const BUILT_PAGES = fileURLToPath(new URL('../../../../dist/pages', import.meta.url));

export class MovingDeck {
  readonly server: DeckServerUnderTest;
  /** What the browser complained of on any page, in its words. */
  readonly complaints: string[] = [];
  /** How often each page was loaded. */
  readonly loads = new Map<Page, number>();
  private readonly clock: MovingClock;

  private constructor(server: DeckServerUnderTest, clock: MovingClock) {
    this.server = server;
    this.clock = clock;
  }

  static async start(): Promise<MovingDeck> {
    const clock = new MovingClock();
    return new MovingDeck(
      await DeckServerUnderTest.start(readPages(BUILT_PAGES), { clock, timers: systemTimers }),
      clock,
    );
  }

  close(): Promise<void> {
    return this.server.close();
  }

  /** The run that is open; throws without one. */
  run(): OpenRun {
    const run = this.server.host.current();
    if (!run) throw new Error('no session is open');
    return run;
  }

  /** Since the clock began, in ms. */
  now(): number {
    return this.clock.now();
  }

  async openPage(context: BrowserContext, path: string): Promise<Page> {
    const page = await context.newPage();
    this.loads.set(page, 0);
    page.on('framenavigated', (frame) => {
      if (frame === page.mainFrame()) this.loads.set(page, (this.loads.get(page) ?? 0) + 1);
    });
    page.on('console', (message) => {
      if (message.type() === 'error') this.complaints.push(`${path}: ${message.text()}`);
    });
    page.on('pageerror', (error) => this.complaints.push(`${path}: ${error.message}`));
    await page.goto(this.server.origin + path);
    return page;
  }

  /** Moves the evening on; the pages hear of it from the host alone. */
  moveTo(time: number): void {
    this.clock.moveTo(time);
  }
}
