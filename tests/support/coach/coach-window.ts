/*
 * The tools that parts of the coach's window need in a test without a browser: a host that answers as the run would, and
 * a run whose time the test sets.
 */

import { act } from '@testing-library/react';
import type { HandTimes } from '../../../app/core/record/afterwards.ts';
import type { Command } from '../../../app/core/run/command/command.ts';
import { apply } from '../../../app/core/run/fold.ts';
import { openRun } from '../../../app/core/run/state.ts';
import { view } from '../../../app/core/run/view.ts';
import { givenIn } from '../../../app/core/run/view/given.ts';
import type { ScreenTold, ScreenWish } from '../../../app/wire/screen-settings.ts';
import type { SharingTold, SharingWish } from '../../../app/wire/sharing/sharing.ts';
import type { Millis } from '../../../app/core/units.ts';
import type { DeskTools } from '../../../renderer/desk/desk-tools.ts';
import type { AskLibrary } from '../../../renderer/link/requests/library.ts';
import type { AskRecords } from '../../../renderer/link/requests/records.ts';
import type { Link } from '../../../renderer/link/link.ts';
import { createDeckStore, type DeckRun } from '../../../renderer/link/store.ts';
import { openSound } from '../../../renderer/sound/sound.ts';
import type { RunMoment } from '../../../renderer/ui/coach/frames.ts';
import { createCoachActions } from '../../../renderer/ui/coach/commands/coach-actions.ts';
import { createOffers } from '../../../renderer/ui/coach/commands/offers.ts';
import { planOf } from '../run/deck.ts';
import { pageTouches, type PageTouches } from './page-touches.ts';
import { ownWriting, silentLibrary, silentRecords } from './write-window/own-writing.ts';

export interface Given {
  readonly command: Command;
  readonly madeFrom: string | undefined;
}

export class CoachWindow {
  readonly tools: DeskTools;
  readonly given: Given[] = [];
  /** What was wanted of wall screens, and how often which is which was asked. */
  readonly wishes: { readonly name: string; readonly wish: ScreenWish }[] = [];
  whichAsked = 0;
  /** What was wanted of sharing. */
  readonly shared: SharingWish[] = [];
  /** What the host answers in place of carrying a command out; null where it does that. */
  refusal: string | null = null;
  /** Whether it answers commands at all. */
  answers = true;
  /** What the host does with a touch. */
  take: Link['touch'] = () => Promise.resolve({ ok: true, at: null, why: null });
  private readonly store = createDeckStore();
  private t: Millis = 0;
  private readonly watchers = new Set<() => void>();
  private known: RunMoment | null = null;

  /** Without a library, or runs, one that never answers. */
  constructor(
    text: string,
    askLibrary: AskLibrary = silentLibrary,
    askRecords: AskRecords = silentRecords,
    touching: PageTouches = {},
  ) {
    const plan = planOf(text);
    const state = openRun(plan, 0);
    this.store.setState({
      status: 'live',
      run: {
        id: 'run-1',
        plan,
        state,
        given: givenIn(state),
        commands: [],
        lanesText: null,
        openedAt: 0,
        clockPhase: 0,
        openedAtTimeOfDay: 0,
        away: [],
      },
    });
    const link: Link = {
      store: this.store,
      now: () => this.t,
      exactNow: () => this.t,
      hostNow: () => this.t,
      lostFor: () => null,
      sound: () => undefined,
      room: () => undefined,
      wish: (name, wish) => {
        this.wishes.push({ name, wish });
        return Promise.resolve({ ok: this.refusal === null, at: null, why: this.refusal });
      },
      which: () => void this.whichAsked++,
      touch: (touch) => this.take(touch),
      share: (wish) => {
        this.shared.push(wish);
        return Promise.resolve({ ok: this.refusal === null, at: null, why: this.refusal });
      },
      close: () => undefined,
      command: (command, _seen, madeFrom) => {
        this.given.push({ command, madeFrom });
        if (!this.answers) return new Promise(() => undefined);
        if (this.refusal !== null) return Promise.resolve({ ok: false, at: null, why: this.refusal });
        act(() => {
          this.carryOut(command);
          this.watchers.forEach((call) => call());
        });
        return Promise.resolve({ ok: true, at: this.t, why: null });
      },
    };
    const frames = {
      draw: (each: (moment: RunMoment | null) => void) => {
        each(this.moment);
        return () => undefined;
      },
      changed: (call: () => void) => {
        this.watchers.add(call);
        return () => this.watchers.delete(call);
      },
      latest: () => this.moment,
      shown: () => this.moment,
      stop: () => undefined,
    };
    const actions = createCoachActions(link, () => this.t, null);
    const writing = ownWriting(askLibrary);
    const offers = createOffers(frames, actions);
    const touches = pageTouches(link, touching);
    this.tools = { link, frames, actions, offers, touches, writing, askLibrary, askRecords } as unknown as DeskTools;
  }

  get run(): DeckRun {
    return this.store.getState().run!;
  }

  /** The same until something changes. */
  get moment(): RunMoment {
    const { run } = this;
    if (this.known?.run !== run || this.known.view.t !== this.t) this.known = { run, view: view(run.state, this.t) };
    return this.known;
  }

  /** Time goes on; what watches the run is told. */
  at(seconds: number): void {
    act(() => {
      this.t = seconds * 1000;
      this.watchers.forEach((call) => call());
    });
  }

  /** Time goes on, and nothing is drawn anew: as between two seconds. */
  silently(seconds: number): void {
    this.t = seconds * 1000;
  }

  /** A lane's number tapped. */
  choose(lane: number): void {
    act(() => this.tools.actions.toggle(lane));
  }

  /** The host tells of the times of this run. */
  toldTimes(times: readonly HandTimes[]): void {
    act(() => this.store.setState({ times: { run: this.run.id, times: [...times] } }));
  }

  /** The host tells of wall screens. */
  told(wallScreens: readonly ScreenTold[]): void {
    act(() => this.store.setState({ wallScreens }));
  }

  /** The link is lost from now on, or is there again. */
  linked(isLinked: boolean): void {
    act(() =>
      this.store.setState(isLinked ? { status: 'live', lostSince: null } : { status: 'lost', lostSince: this.t }),
    );
  }

  /** The host tells how sharing stands, or of another window that may be opened. */
  sharing(sharing: SharingTold | null, claim: string | null = null): void {
    act(() => this.store.setState({ sharing, claim }));
  }

  /** A command of another screen; throws where the run refuses it. */
  other(command: Command): void {
    act(() => {
      this.carryOut(command);
      this.watchers.forEach((call) => call());
    });
  }

  private carryOut(command: Command): void {
    const { run } = this;
    const answer = apply(run.state, command, this.t);
    if (!answer.ok) throw new Error(`${command.do}: ${answer.why}`);
    this.store.setState({
      run: {
        ...run,
        state: answer.state,
        given: givenIn(answer.state),
        commands: [...run.commands, { at: this.t, command }],
      },
    });
  }
}

/** With the switches of the bar above the actions. */
export function withSwitches({ tools }: CoachWindow): DeskTools {
  const light = { choice: () => 'system', choose: () => undefined, subscribe: () => () => undefined };
  const sound = openSound(tools.link, null, {
    now: () => 20_000,
    every: () => undefined,
    isHidden: () => false,
    onHidden: () => undefined,
    openOutput: () => {
      throw new Error('no sound is wanted');
    },
  });
  return { ...tools, light, sound } as unknown as DeskTools;
}
