/*
 * When a page asks the host for its time: in a burst at first and whenever there is doubt, then at a steady pace. The
 * host answers each question, so this is also how a dead connection is noticed: soon after a page was woken, with
 * patience otherwise.
 */

import { SILENCE } from './carrier.ts';

export interface PulsePorts {
  /** In ms; never steps. */
  now(): number;
  /** Calls back once after so many ms; returns what cancels it. */
  after(delay: number, call: () => void): () => void;
  /** In ms: a connection on which a question goes unanswered for longer is dead. */
  patience(): number;
  /** Puts the question. */
  ask(): void;
  /** Whether this machine may have slept since it was last sure of the time. */
  inDoubt(): boolean;
  /** The connection is dead. `woken`: as was found out at once when the page was woken. */
  dead(woken: boolean): void;
}

export interface Pulse {
  /** A connection is being made; until it is open nothing can be asked. */
  connecting(): void;
  /** It is open: a burst, the first question at once. */
  opened(): void;
  /** Something came from the host. */
  heard(): void;
  /** A burst, unless one is under way. */
  measure(): void;
  /** Measures where this machine may have slept; to be called often. */
  look(): void;
  /** The page was woken: the connection answers soon, or is dead. */
  woken(): void;
  isBursting(): boolean;
  stop(): void;
}

/** So many questions, so many ms apart, for a clock that is right at once. */
const BURST = 8;
const BURST_PACE = 60;

/** In ms. */
const PACE = 2000;

/** At so many regular questions in a row the same one must stand open before the host counts as lost. */
const LOOKS = 2;

/**
 * In ms: how long a host may take to answer a page that was woken, or to take its connection. Where the page was held
 * up itself, answers stand in line behind the timer: so it looks twice.
 */
const WOKEN = { open: 350, connecting: 1000, again: 50 };

export function createPulse(ports: PulsePorts): Pulse {
  let isOpen = false;
  // When the first question was put that nothing was heard after, and at how many regular questions it stood open.
  let askedAt: number | null = null;
  let looks = 0;
  let burstLeft = 0;
  let wasInDoubt = false;
  let cancelBeat = (): void => {};
  let cancelWoken = (): void => {};

  function beat(): void {
    if (askedAt !== null && burstLeft === 0 && isDead(askedAt)) return ports.dead(false);
    if (isOpen) {
      if (isNewlyInDoubt()) burstLeft = BURST;
      if (askedAt === null) wait();
      ports.ask();
    }
    burstLeft = Math.max(0, burstLeft - 1);
    beatAfter(burstLeft > 0 && isOpen ? BURST_PACE : PACE);
  }

  function beatAfter(delay: number): void {
    cancelBeat();
    cancelBeat = ports.after(delay, beat);
  }

  function burst(): void {
    if (!isOpen) return;
    burstLeft = BURST;
    beat();
  }

  /** A burst for each doubt, not one after another while nobody answers: it takes regular questions to find a dead host. */
  function isNewlyInDoubt(): boolean {
    const before = wasInDoubt;
    wasInDoubt = ports.inDoubt();
    return wasInDoubt && !before;
  }

  /**
   * A host is lost where a question goes unanswered, not where none was asked: a hidden page's timers may come once
   * a minute. And not at the first look: where this page was held up itself, answers stand in line behind the timer.
   */
  function isDead(since: number): boolean {
    looks++;
    return looks >= LOOKS && ports.now() - since >= ports.patience();
  }

  /** A door that takes its time waits for a person. */
  function isAtDoor(): boolean {
    return !isOpen && ports.patience() > SILENCE;
  }

  function wait(): void {
    askedAt = ports.now();
    looks = 0;
  }

  function stop(): void {
    isOpen = false;
    burstLeft = 0;
    cancelBeat();
    cancelWoken();
  }

  return {
    connecting() {
      stop();
      wait();
      beatAfter(PACE);
    },
    opened() {
      isOpen = true;
      cancelWoken();
      burst();
    },
    heard() {
      askedAt = null;
      cancelWoken();
    },
    measure() {
      if (burstLeft === 0) burst();
    },
    look() {
      if (isNewlyInDoubt()) burst();
    },
    woken() {
      cancelWoken();
      const patience = isOpen ? WOKEN.open : WOKEN.connecting;
      cancelWoken = ports.after(patience, () => {
        // A page is woken as it opens, too, and by now it may be at the door.
        cancelWoken = ports.after(WOKEN.again, () => (isAtDoor() ? undefined : ports.dead(true)));
      });
      burst();
    },
    isBursting: () => burstLeft > 0,
    stop,
  };
}
