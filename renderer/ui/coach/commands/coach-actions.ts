/*
 * What the coach does on a screen: chooses lanes, gives commands to the host, and reads a sentence about each one.
 * Buttons, keys and clickers all go through here.
 */

import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Command } from '../../../../app/core/run/command/command.ts';
import type { ClockChoice } from '../../../../app/core/run/readings.ts';
import { RULES } from '../../../../app/core/run/command/commands.ts';
import { view } from '../../../../app/core/run/view.ts';
import { feedbackAt, feedbackOnLast } from '../../../../app/core/run/view/feedback.ts';
import { SECOND } from '../../../../app/core/units.ts';
import type { Link } from '../../../link/link.ts';
import { PATIENCE, UNHEARD } from '../../../link/outbox.ts';
import type { DeckRun } from '../../../link/store.ts';
import { seenIn } from '../../../link/seen.ts';
import { ACTIONS, commandNamed, commandOf, type ActionName } from './action-list.ts';
import { createBounceGuard } from './bounce.ts';
import { chosenAt, NO_CHOICE, toggleLane, type LaneChoice } from './lane-choice.ts';
import { refusalOf } from './refusal.ts';
import { readingsOf } from '../feedback/words.ts';

export interface Feedback {
  readonly text: string;
  readonly kind: 'done' | 'refused';
  readonly n: number;
  /** By the screen's own clock, in ms. */
  readonly at: number;
}

export interface CoachActionsState {
  readonly choice: LaneChoice;
  /** The last sentence. `n` goes up with each one, so that the same sentence again counts as a new one. */
  readonly feedback: Feedback | null;
  readonly clock: ClockChoice;
  /** The command that was given last, until it is answered. */
  readonly underWay: Command | null;
}

export interface CoachActions {
  readonly store: StoreApi<CoachActionsState>;
  /** The lanes that are chosen now; empty for all lanes. */
  chosen(): readonly number[];
  toggle(lane: number): void;
  clearChoice(): void;
  /** Gives an action's command: for these lanes, or else for the chosen ones if the action goes by them (`ACTIONS`). */
  act(name: ActionName, lanes?: readonly number[]): Promise<boolean>;
  /** Gives a command for a press, and ignores a bounce of the press before. Resolves to whether it was accepted. */
  press(command: Command): Promise<boolean>;
  /**
   * Gives a command, then shows what it did or why it was refused. Resolves to whether it was accepted. `madeFrom` is
   * the text that a rewrite was made from.
   */
  give(command: Command, madeFrom?: string): Promise<boolean>;
  /** Whether the command that was accepted at this time of the run was given here, before the page was loaded again too. */
  gave(at: number): boolean;
  /** Why a command would be refused now; null if it would be accepted, as far as this screen knows. */
  refusal(command: Command): string | null;
  say(text: string, kind: 'done' | 'refused'): void;
  /** The last sentence, while it is still worth reading. */
  feedback(): Feedback | null;
  setClock(clock: ClockChoice): void;
}

/** How long a sentence is shown, in ms: longer than the command can be undone. */
const SAID_FOR = 20_000;

/**
 * In ms: how late another screen's command may be heard of and still be news. After a lost link a sentence such as "first leave
 * in 10 s" would be wrong, and the run itself shows what was done.
 */
const NEWS_FOR = 3000;

const NO_SESSION = 'There is no session to do this in.';

/** The storage key for when the last commands were accepted that were given here, after the run that they were for. */
const OWN_KEY = 'lanecall.own-commands';

/** More than can be undone one after another. */
const OWN_KEPT = 8;

/** The storage key for the clock that this screen shows. */
const CLOCK_KEY = 'lanecall.clock';

export function createCoachActions(
  link: Link,
  now: () => number,
  memory: Pick<Storage, 'getItem' | 'setItem'> | null,
): CoachActions {
  const store = createStore<CoachActionsState>(() => ({
    choice: NO_CHOICE,
    feedback: null,
    clock: storedClock(memory),
    underWay: null,
  }));
  const bounces = createBounceGuard();
  /** The time of the last command this page has shown a sentence for: a later one came from another screen. */
  let spokenTo = -Infinity;
  let spokenOf = '';
  let underWay = 0;
  /** When the last commands were accepted that were given here, after their run. */
  let own = memory?.getItem(OWN_KEY)?.split(' ') ?? [];
  const isOf = (run: string): boolean => own[0] === run;

  const actions: CoachActions = {
    store,
    chosen: () => chosenAt(store.getState().choice, now()),
    toggle: (lane) => store.setState(({ choice }) => ({ choice: toggleLane(choice, lane, now()) })),
    clearChoice: () => store.setState({ choice: NO_CHOICE }),
    act: (name, lanes) => actions.press(commandOf(name, lanes ?? (ACTIONS[name].byChoice ? actions.chosen() : []))),
    press(command) {
      // A refused command did nothing, so pressing again at once is no bounce.
      const goes = actions.refusal(command) === null;
      if (goes && !bounces.accept(JSON.stringify(command), now())) return Promise.resolve(false);
      return actions.give(command);
    },
    async give(command, madeFrom) {
      const { run, status } = link.store.getState();
      const t = link.now();
      const refusal = actions.refusal(command);
      if (!run || refusal !== null) return refuse(refusal ?? NO_SESSION);
      // The choice is for one command. The next one is for all lanes, however soon it comes.
      actions.clearChoice();
      if (status === 'lost') actions.say(unreachedText(command), 'refused');
      underWay++;
      store.setState({ underWay: command });
      const seen = t === null ? undefined : seenIn(view(run.state, t), command);
      const answer = await link.command(command, seen, madeFrom);
      if (answer.ok && answer.at !== null) await followed(link, answer.at);
      underWay--;
      store.setState((before) => (before.underWay === command ? { underWay: null } : before));
      if (!answer.ok || answer.at === null) return refuse(whyNot(command, answer.why));
      spokenTo = Math.max(spokenTo, answer.at);
      own = [run.id, ...(isOf(run.id) ? own.slice(1) : []), String(answer.at)];
      own.splice(1, own.length - 1 - OWN_KEPT);
      memory?.setItem(OWN_KEY, own.join(' '));
      const before = view(run.state, answer.at);
      actions.say(feedbackAt(before, command, readingsOf(store.getState().clock)) ?? 'Done.', 'done');
      return true;
    },
    gave: (at) => isOf(link.store.getState().run?.id ?? '') && own.includes(String(at), 1),
    refusal(command) {
      const { run } = link.store.getState();
      const t = link.now();
      if (!run) return NO_SESSION;
      // After a sleep or a busy spell this screen has no clock until it is synced again: then only the host decides.
      return t === null ? null : refusalOf(view(run.state, t), command);
    },
    say: (text, kind) =>
      store.setState(({ feedback }) => ({ feedback: { text, kind, n: (feedback?.n ?? 0) + 1, at: now() } })),
    feedback() {
      const { feedback } = store.getState();
      return feedback && now() - feedback.at < SAID_FOR ? feedback : null;
    },
    setClock(clock) {
      memory?.setItem(CLOCK_KEY, clock);
      store.setState({ clock });
    },
  };

  function refuse(why: string): false {
    actions.say(why, 'refused');
    return false;
  }

  /** Once the link is back, what was refused while it was lost is over: the run itself shows what was carried out. */
  link.store.subscribe(({ status }, before) => {
    const { feedback } = store.getState();
    if (status !== 'live' || before.status !== 'lost' || feedback?.kind !== 'refused') return;
    if (feedback.at >= (before.lostSince ?? Infinity)) store.setState({ feedback: null });
  });

  /** Shows what another screen has done. */
  link.store.subscribe(({ run }) => {
    if (!run) return;
    const last = run.commands[run.commands.length - 1];
    if (run.id !== spokenOf) {
      spokenOf = run.id;
      spokenTo = last ? last.at : -Infinity;
      return;
    }
    if (!last || last.at <= spokenTo || underWay > 0) return;
    const since = Math.max(spokenTo, (link.now() ?? last.at) - NEWS_FOR);
    const text = toldSince(run, since, readingsOf(store.getState().clock));
    spokenTo = last.at;
    if (text !== '') actions.say(text, 'done');
  });

  return actions;
}

/** Who did what after that time: "Remote 1: Undid Skip rep. Marked: cramp." */
function toldSince({ given, commands }: DeckRun, since: number, timeText: ReturnType<typeof readingsOf>): string {
  let teller: string | null = null;
  const texts = commands.map(({ at, by = 'Coach’s window' }, index) => {
    const text = at > since ? feedbackOnLast(given, commands.slice(0, index + 1), timeText) : null;
    if (text === null) return '';
    const head = by === teller ? '' : `${by}: `;
    teller = by;
    return head + text;
  });
  return texts.filter((text) => text !== '').join(' ');
}

/** For a command given while the host is lost: nobody at the pool should wait for it. */
function unreachedText(command: Command): string {
  const then = RULES[command.do].steers ? 'call out to the swimmers. It' : 'it';
  const within = `${PATIENCE / SECOND} s`;
  return `${commandNamed(command)} has not reached the program: ${then} counts if the program is back within ${within}.`;
}

/** `why` is the host's reason. A command without an answer is named instead. */
function whyNot(command: Command, why: string | null): string {
  if (why !== UNHEARD) return why ?? 'The program did not take it: try again.';
  return `${commandNamed(command)} was not answered: check whether it was carried out before you give it again.`;
}

/** How long to wait for an accepted command to reach this page's own run before its sentence is shown, in ms. */
const FOLLOWS_IN = 1000;

/** Resolves once this page's run has the command given at `at`, so that the next key is judged by the run after it. */
function followed(link: Link, at: number): Promise<void> {
  const has = (): boolean => {
    const commands = link.store.getState().run?.commands ?? [];
    const last = commands[commands.length - 1];
    return last !== undefined && last.at >= at;
  };
  if (has()) return Promise.resolve();
  return new Promise((resolve) => {
    const done = (): void => {
      clearTimeout(timer);
      forget();
      resolve();
    };
    const timer = setTimeout(done, FOLLOWS_IN);
    const forget = link.store.subscribe(() => (has() ? done() : undefined));
  });
}

function storedClock(memory: Pick<Storage, 'getItem'> | null): ClockChoice {
  const kept = memory?.getItem(CLOCK_KEY);
  return kept === 'run' || kept === 'pool' ? kept : 'stretch';
}
