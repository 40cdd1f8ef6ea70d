/*
 * A page's link to the host: connects and connects again, keeps the clock in step, folds snapshots
 * into the store and carries commands. Every page has one, whatever carries its messages.
 */

import './old-browsers.ts';
import {
  hearHost,
  WIRE_VERSION,
  type FromHost,
  type FromScreen,
  type Heard,
  type ScreenKind,
  type Snapshot,
  type SoundReport,
} from '../../app/wire/messages.ts';
import { withCommands, type LaterCommands } from '../../app/wire/snapshot.ts';
import type { Command } from '../../app/core/run/command/command.ts';
import type { Millis } from '../../app/core/units.ts';
import type { Source } from '../../app/core/plan/plan.ts';
import { backOff } from './connection/back-off.ts';
import { SILENCE, type Carrier, type Connection } from './connection/carrier.ts';
import { browserPorts, type Ports } from './connection/ports.ts';
import { createPulse } from './connection/pulse.ts';
import { followRun, type FollowedRun, type SnapshotRun } from './follow-run.ts';
import { createHostClock } from './time/host-clock.ts';
import { reportMishap } from './mishap.ts';
import { ownCarrier } from './connection/own-window.ts';
import { sentenceFor } from './misread.ts';
import { createOutbox, type CommandAnswer } from './outbox.ts';
import type { Seen } from './seen.ts';
import { createDeckStore, type DeckStore } from './store.ts';
import type { ScreenIntroduction, ScreenRoom, ScreenWish } from '../../app/wire/screen-settings.ts';
import type { SharingWish } from '../../app/wire/sharing/sharing.ts';

export interface Link {
  readonly store: Pick<DeckStore, 'getState' | 'getInitialState' | 'subscribe'>;
  /** The run's t in whole ms, never before its last command; null without a run or a clock to trust. */
  now(): Millis | null;
  /** The same time to fractions of a ms, which may lie before the last command. */
  exactNow(): number | null;
  /** Host time in ms, with or without a run; null without a clock to trust. */
  hostNow(): number | null;
  /** For how long the host has been lost, in ms; null while it is there or has never been. */
  lostFor(): number | null;
  /** Gives a command, with what was seen here (`seenIn`) and, for a rewrite, the text that it was made from. Never rejects. */
  command(command: Command, seen?: Seen, madeFrom?: string): Promise<CommandAnswer>;
  /** Tells the host how the sound here stands; without a connection nothing is said. */
  sound(report: SoundReport): void;
  /** Tells the host how large this wall screen is now. */
  room(room: ScreenRoom): void;
  /** What the coach wants of the wall screens with this name; answered as a command is. */
  wish(name: string, wish: ScreenWish): Promise<CommandAnswer>;
  /** Sends a touch; answered as a command is. Never rejects. */
  touch(touch: SentTouch): Promise<CommandAnswer>;
  /** Has every wall screen show its name. */
  which(): void;
  /** What the coach wants of sharing with other screens; answered as a command is. */
  share(wish: SharingWish): Promise<CommandAnswer>;
  close(): void;
}

/** A touch with its id, and the run that it is of. */
export type SentTouch = Omit<Extract<FromScreen, { say: 'touch' }>, 'say'>;

/** As a wall screen introduces itself on each connection; other pages do not. */
export type Introduce = () => ScreenIntroduction | undefined;

/** The link of a page, to the host it came from. */
export function openLink(screen: ScreenKind, introduce?: Introduce, carrier: Carrier = ownCarrier()): Link {
  return createLink(screen, carrier, browserPorts(), introduce);
}

/** In ms: a host in reach has answered a command by then. Where it has not, the connection may be dead, and that is looked at. */
const ANSWERS_IN = 1000;

/** In ms: how long screens show their names. */
const NAMING = 5000;

/** In ms: the error of the clock is told in such steps, so that what shows it changes seldom. */
const BOUND_STEP = 5;

const NO_LEAVES = 'This screen shows no leaves.';

export function createLink(
  screen: ScreenKind,
  carrier: Carrier,
  ports: Ports,
  introduce: Introduce = () => undefined,
): Link {
  const store = createDeckStore();
  const clock = createHostClock(ports);
  let connection: Connection | null = null;
  let open = false;
  let isClosed = false;
  let failures = 0;
  let cancelRetry = (): void => {};
  let cancelNaming = (): void => {};
  let followed: FollowedRun | null = null;
  // The epoch of the clock on this screen, and a snapshot of one in which nothing has been measured yet.
  let epoch: string | null = null;
  let held: Snapshot | null = null;
  // The last snapshot of this connection, which commands follow.
  let told: Snapshot | null = null;
  // What to say of messages of this connection that were not understood.
  let unread: string | null = null;
  const texts = new Map<string, Source>();
  const outbox = createOutbox({ ...ports, send: (message) => (open ? connection?.send(message) : undefined) });
  const pulse = createPulse({
    ...ports,
    patience: () => carrier.patience,
    ask() {
      send({ say: 'ping', ...clock.ping() });
      judgeClock();
    },
    inDoubt: () => clock.inDoubt(),
    dead(woken) {
      lose();
      if (woken) connect();
    },
  });

  function connect(): void {
    cancelRetry();
    judgeClock();
    pulse.connecting();
    connection = carrier.connect({
      opened,
      message: (text) => {
        const read = hearHost(text);
        if (read.kind === 'message') heard(read.message);
        else misread(read);
      },
      closed: lose,
    });
  }

  function opened(): void {
    open = true;
    unread = told = null;
    texts.clear();
    const wall = introduce();
    send({ say: 'hello', version: WIRE_VERSION, screen, ...(wall ? { wall } : {}) });
    outbox.resend();
    sayClock();
    pulse.opened();
  }

  function lose(): void {
    connection?.close();
    connection = null;
    open = false;
    held = null;
    pulse.stop();
    const { status } = store.getState();
    if (status === 'live') store.setState({ status: 'lost', lostSince: ports.now() });
    cancelRetry();
    cancelRetry = ports.after(backOff(failures++, carrier.longestPause, ports.random()), connect);
  }

  /** Looks how good the clock is. While it is being found there is nothing to say yet. */
  function judgeClock(): void {
    const before = store.getState().clockQuality;
    if (before === null && pulse.isBursting()) return;
    const now = clock.quality();
    const bound = now && Math.ceil(now.bound / BOUND_STEP) * BOUND_STEP;
    if (now?.quality === before?.quality && bound === (before?.bound ?? null)) return;
    store.setState({ clockQuality: now && { quality: now.quality, bound: bound! } });
    if (now?.quality !== before?.quality) sayClock();
  }

  /** The coach's list of screens has how good their clocks are. */
  function sayClock(): void {
    const { clockQuality } = store.getState();
    if (open && clockQuality) send({ say: 'clock', ...clockQuality });
  }

  function send(message: FromScreen): void {
    connection?.send(JSON.stringify(message));
  }

  function heard(message: FromHost): void {
    pulse.heard();
    switch (message.say) {
      case 'pong':
        clock.heard(message);
        if (held) take(held);
        return judgeClock();
      case 'text':
        texts.set(message.hash, { text: message.text, lanesText: message.lanesText });
        return;
      case 'snapshot':
        return take(message);
      case 'commands':
        return takeLater(message);
      case 'screen':
        return store.setState({ screen: { name: message.name, settings: message.settings } });
      case 'screens':
        return store.setState({ wallScreens: message.screens });
      case 'presence':
        return store.setState({ screens: message.screens });
      case 'sound':
        return store.setState({ sound: { more: message.more, screens: message.screens } });
      case 'times':
        return store.setState({ times: message });
      case 'which':
        return showName();
      case 'answer':
        return outbox.answered(message);
      case 'sharing':
        return store.setState({ sharing: message.sharing });
      case 'claim':
        return store.setState({ claim: message.address });
      case 'own-key':
      case 'reply':
        return void carrier.told?.(message);
      case 'bye': {
        const first = carrier.told?.(message);
        // A wall that was thrown out shows digits; should the host then be lost, it has no leaves to show in their place.
        if (message.ended || (message.again && screen === 'wall')) return showNoLeaves(message.why);
        store.setState({ faults: [first === undefined ? message.why : `${first} ${message.why}`] });
      }
    }
  }

  /** The coach may do anything from now on that this screen does not hear of. */
  function showNoLeaves(why: string): void {
    followed = held = null;
    store.setState({ run: null, faults: [why, NO_LEAVES] });
  }

  function showName(): void {
    store.setState({ naming: true });
    cancelNaming();
    cancelNaming = ports.after(NAMING, () => store.setState({ naming: false }));
  }

  /** What is not understood may matter: it is said, and a page on which nobody types loads itself anew. */
  function misread(read: Exclude<Heard<FromHost>, { kind: 'message' }>): void {
    pulse.heard();
    unread = sentenceFor(read);
    store.setState({ faults: [unread] });
    if (read.kind === 'other version') {
      followed = null;
      store.setState({ run: null });
    }
    if (read.kind !== 'no message' && screen !== 'desk') ports.reloadOnce();
  }

  /** What does not follow what is known here says that something was missed. */
  function takeLater(later: LaterCommands): void {
    const snapshot = withCommands(told, later);
    if (snapshot) take(snapshot);
    else send({ say: 'whole' });
  }

  function take(snapshot: Snapshot): void {
    told = snapshot;
    // The host's clock has jumped, and what is shown is the old time: no waiting for the next regular ping.
    if (snapshot.epoch !== epoch) pulse.measure();
    held = clock.knows(snapshot.epoch) ? null : snapshot;
    if (held) return;
    epoch = snapshot.epoch;
    clock.turnTo(epoch);
    failures = 0;
    const run = snapshot.run ? follow(snapshot.run) : null;
    followed = run?.ok ? run.value : null;
    const { notices, startUp } = snapshot;
    const faults = [...(run && !run.ok ? [run.faults] : []), ...(unread === null ? [] : [unread])];
    store.setState({
      status: 'live',
      lostSince: null,
      run: followed?.run ?? null,
      poolClock: snapshot.poolClock ?? null,
      notices,
      startUp,
      faults,
    });
  }

  function follow(run: SnapshotRun): ReturnType<typeof followRun> {
    try {
      return followRun(followed, run, texts);
    } catch (error) {
      reportMishap('folding the run', error);
      return { ok: false, faults: 'This screen cannot follow the run: reload it.' };
    }
  }

  function wake(): void {
    failures = 0;
    if (connection === null) connect();
    else pulse.woken();
  }

  function exactNow(): number | null {
    const run = store.getState().run;
    const host = clock.now();
    pulse.look();
    return run && host !== null ? host - run.openedAt : null;
  }

  const stopWaking = ports.onWake(wake);
  connect();

  return {
    store,
    now() {
      const t = exactNow();
      const commands = store.getState().run?.commands ?? [];
      return t === null ? null : Math.max(0, commands[commands.length - 1]?.at ?? 0, Math.floor(t));
    },
    exactNow,
    hostNow: () => clock.now(),
    lostFor() {
      const { lostSince } = store.getState();
      return lostSince === null ? null : ports.now() - lostSince;
    },
    sound: (report) => {
      if (open) send({ say: 'sound', ...report });
    },
    room: (room) => {
      if (open) send({ say: 'room', room });
    },
    wish: (name, wish) => outbox.ask({ say: 'screen', name, wish }),
    touch: ({ id, ...touch }) => outbox.ask({ say: 'touch', ...touch }, id),
    share: (wish) => outbox.ask({ say: 'sharing', wish }),
    which: () => {
      if (open) send({ say: 'which' });
    },
    command(command, seen, madeFrom) {
      const run = store.getState().run;
      const { lanesText } = run?.given.plan.source ?? { lanesText: null };
      const named = [...texts].find(([, each]) => each.text === madeFrom && each.lanesText === lanesText);
      const answer = outbox.give(command, run?.id ?? null, seen, named?.[0]);
      const rest = ports.after(ANSWERS_IN, () => {
        if (!isClosed && carrier.patience <= SILENCE) wake();
      });
      void answer.then(rest);
      return answer;
    },
    close() {
      isClosed = true;
      stopWaking();
      pulse.stop();
      cancelRetry();
      cancelNaming();
      connection?.close();
      connection = null;
    },
  };
}
