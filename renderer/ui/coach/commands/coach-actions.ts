/*
 * The coach's hand on a page: what is chosen, what is given to the host, and what is said about it
 * afterwards. Buttons, keys and clickers all come through here.
 */

import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Command } from '../../../../app/core/run/command/command.ts';
import type { ClockChoice } from '../../../../app/core/run/readings.ts';
import { RULES } from '../../../../app/core/run/command/commands.ts';
import { touchesReps } from '../../../../app/core/run/command/expected-reps.ts';
import { view } from '../../../../app/core/run/view.ts';
import { feedbackAt, feedbackOnLast } from '../../../../app/core/run/view/feedback.ts';
import { SECOND } from '../../../../app/core/units.ts';
import type { Link } from '../../../link/link.ts';
import { PATIENCE, UNHEARD } from '../../../link/outbox.ts';
import { expectedRepsIn } from '../../../link/expected-reps.ts';
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
  /** The last thing said; `n` rises, so that the same sentence said again is seen to be new. */
  readonly feedback: Feedback | null;
  readonly clock: ClockChoice;
}

export interface CoachActions {
  readonly store: StoreApi<CoachActionsState>;
  /** The lanes chosen just now; none: all. */
  chosen(): readonly number[];
  toggle(lane: number): void;
  clearChoice(): void;
  /** An action for the lanes named; else for those chosen, where it goes by the choice (`ACTIONS`). */
  act(name: ActionName, lanes?: readonly number[]): Promise<boolean>;
  /** A command by a press: a bounce of the last one is not taken. Whether it was accepted. */
  press(command: Command): Promise<boolean>;
  /** Any command; what it did, or why not, is said. Whether it was accepted. `madeFrom`: the text a rewrite was made from. */
  give(command: Command, madeFrom?: string): Promise<boolean>;
  /** Why a command would be refused at this moment; null where it would be accepted, as far as is known here. */
  refusal(command: Command): string | null;
  say(text: string, kind: 'done' | 'refused'): void;
  /** What was said last, as long as it is worth reading. */
  feedback(): Feedback | null;
  setClock(clock: ClockChoice): void;
}

/** For how long a sentence stands, in ms: as long as it can be undone, and then some. */
const SAID_FOR = 20_000;

const NO_SESSION = 'There is no session to do this in.';

/** Where a screen keeps which clock it shows. */
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
  }));
  const bounces = createBounceGuard();
  /** Times of the commands that this page has spoken of, so that it speaks of others' too but not twice. */
  let spokenTo = -Infinity;
  let spokenOf = '';
  let underWay = 0;

  const actions: CoachActions = {
    store,
    chosen: () => chosenAt(store.getState().choice, now()),
    toggle: (lane) => store.setState(({ choice }) => ({ choice: toggleLane(choice, lane, now()) })),
    clearChoice: () => store.setState({ choice: NO_CHOICE }),
    act: (name, lanes) => actions.press(commandOf(name, lanes ?? (ACTIONS[name].byChoice ? actions.chosen() : []))),
    press(command) {
      // What is refused has done nothing that a bounce could do a second time.
      const goes = actions.refusal(command) === null;
      if (goes && !bounces.accept(JSON.stringify(command), now())) return Promise.resolve(false);
      return actions.give(command);
    },
    async give(command, madeFrom) {
      const { run, status } = link.store.getState();
      const t = link.now();
      const refusal = actions.refusal(command);
      if (!run || refusal !== null) return refuse(refusal ?? NO_SESSION);
      // The choice is for one command: the next is for all lanes, however soon it comes.
      actions.clearChoice();
      if (status === 'lost') actions.say(unreachedText(command), 'refused');
      underWay++;
      const seen = t !== null && touchesReps(command) ? seenFor(command, t) : undefined;
      const answer = await link.command(command, seen, madeFrom);
      if (answer.ok && answer.at !== null) await followed(link, answer.at);
      underWay--;
      if (!answer.ok || answer.at === null) return refuse(whyNot(command, answer.why));
      spokenTo = Math.max(spokenTo, answer.at);
      const before = view(run.state, answer.at);
      actions.say(feedbackAt(before, command, readingsOf(store.getState().clock)) ?? 'Done.', 'done');
      return true;
    },
    refusal(command) {
      const { run } = link.store.getState();
      const t = link.now();
      if (!run) return NO_SESSION;
      // While this screen sets its clock anew (it has slept, or was very busy) the host alone judges.
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

  function seenFor(command: Command, t: number): ReturnType<typeof expectedRepsIn> {
    const all = expectedRepsIn(view(link.store.getState().run!.state, t));
    const lanes = 'lanes' in command && command.lanes ? command.lanes : null;
    return lanes ? Object.fromEntries(lanes.map((lane) => [lane, all[lane] ?? null])) : all;
  }

  /** Says what another screen has done. */
  link.store.subscribe(({ run }) => {
    if (!run) return;
    const last = run.commands[run.commands.length - 1];
    if (run.id !== spokenOf) {
      spokenOf = run.id;
      spokenTo = last ? last.at : -Infinity;
      return;
    }
    if (!last || last.at <= spokenTo || underWay > 0) return;
    spokenTo = last.at;
    const text = feedbackOnLast(run.given, last, readingsOf(store.getState().clock));
    if (text !== null) actions.say(`From another screen: ${text}`, 'done');
  });

  return actions;
}

/** Of a command given while the program is lost: the swimmers are not to wait for it. */
function unreachedText(command: Command): string {
  const then = RULES[command.do].steers ? 'call out to the swimmers. It' : 'it';
  const within = `${PATIENCE / SECOND} s`;
  return `${commandNamed(command)} has not reached the program: ${then} counts if the program is back within ${within}.`;
}

/** why: the program's; of a command that was not answered at all, which one it was. */
function whyNot(command: Command, why: string | null): string {
  if (why !== UNHEARD) return why ?? 'The host did not take it: try again.';
  return `${commandNamed(command)} was not answered: look whether it was done before you give it again.`;
}

/** For how long an accepted command may take to reach the page's own run before it is spoken of, in ms. */
const FOLLOWS_IN = 1000;

/** Resolves when the page's run has the command of a time: the next key must not be judged by the run before it. */
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
