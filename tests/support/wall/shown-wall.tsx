/*
 * The wall screen in a document without a browser: the test says what the host tells, and draws frame after frame.
 */

import { act, render } from '@testing-library/react';
import { vi } from 'vitest';
import { givenIn } from '../../../app/core/run/view/given.ts';
import type { Command } from '../../../app/core/run/command/command.ts';
import type { Link } from '../../../renderer/link/link.ts';
import { createDeckStore, type DeckRun } from '../../../renderer/link/store.ts';
import { WallScreen } from '../../../renderer/wall/wall-screen.tsx';
import { leftToBrowser } from './left-to-browser.ts';
import { HARBOUR, runOf } from '../coach/coach-run.ts';

const GOING: readonly (readonly [number, Command])[] = [
  [0, { do: 'move-on' }],
  [5000, { do: 'start' }],
];

export class ShownWall {
  t = 40_000;
  readonly deck = createDeckStore();
  private frames: FrameRequestCallback[] = [];

  /** more: commands after the start of the main set. */
  constructor(...more: readonly (readonly [number, Command])[]) {
    const going = runOf(HARBOUR, ...GOING, ...more);
    const run = {
      id: 'run',
      state: going,
      given: givenIn(going),
      commands: [],
      openedAtTimeOfDay: 70_200_000,
      away: [],
    };
    this.deck.setState({ status: 'live', run: run as unknown as DeckRun });
    leftToBrowser();
    // The page's time goes on as the run's.
    vi.spyOn(performance, 'now').mockImplementation(() => this.t + 5000);
    vi.spyOn(globalThis, 'requestAnimationFrame').mockImplementation((call) => this.frames.push(call));
    const link: Link = {
      store: this.deck,
      now: () => this.t,
      exactNow: () => this.t,
      hostNow: () => this.t,
      lostFor: () => null,
      command: () => Promise.resolve({ ok: false, at: null, why: null }),
      sound: () => undefined,
      room: () => undefined,
      wish: () => Promise.resolve({ ok: false, at: null, why: null }),
      which: () => undefined,
      touch: () => Promise.resolve({ ok: false, at: null, why: null }),
      share: () => Promise.resolve({ ok: false, at: null, why: null }),
      close: () => undefined,
    };
    Object.defineProperty(document, 'fonts', { configurable: true, value: { load: () => new Promise(() => {}) } });
    render(<WallScreen link={link} search="" address={null} />);
  }

  /** So many frames, the run's time going on by a sixtieth of a second each. */
  frame(count = 1): void {
    act(() => {
      for (let n = 0; n < count; n++) {
        this.t += 1000 / 60;
        const due = this.frames;
        this.frames = [];
        due.forEach((call) => call(this.t));
      }
    });
  }

  snapshot(): void {
    act(() => this.deck.setState(({ run }) => ({ run: run && { ...run } })));
  }
}
