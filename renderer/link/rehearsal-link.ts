/*
 * A link whose host is in the page: it carries commands out by the same core, on a clock that runs at the coach's speed.
 * Faster than the pool's clock it goes on in steps, so that nothing that is drawn by it flickers. Nothing is sent or
 * kept: no connection, no journal, no other screen.
 */

import type { Command } from '../../app/core/run/command/command.ts';
import type { Source } from '../../app/core/plan/plan.ts';
import { tried } from '../../app/core/run/view/trial.ts';
import { view, type RunView } from '../../app/core/run/view.ts';
import { MINUTE, type Millis } from '../../app/core/units.ts';
import { followRun, type FollowedRun, type SnapshotRun } from './follow-run.ts';
import type { Link } from './link.ts';
import type { CommandAnswer } from './outbox.ts';
import { createDeckStore, type DeckStore } from './store.ts';

export interface RehearsalStart {
  readonly source: Source;
  /** A rep to begin from, as `go-to` names it; null for the beginning. */
  readonly from: Extract<Command, { do: 'go-to' }> | null;
  /** Local time of day, in ms after midnight, for a session that does not say when it starts. */
  readonly timeOfDay: Millis;
  /** What the pool's clock shows past the full minute at the start; null for the time of day's. */
  readonly clockPhase: Millis | null;
}

export interface RehearsalLink {
  readonly link: Link;
  /** Begins anew, waiting for Start. Throws for a session with faults. */
  begin(start: RehearsalStart): void;
  /** How many times as fast as the pool's clock; 0 stands still. The time goes on from where it is. */
  setSpeed(speed: number): void;
  /** From then on there is no run, and no command is taken. */
  end(): void;
}

/**
 * In ms of the page's clock. Whatever is drawn stands still from step to step, all digits and strips of the screen at
 * once: in no second it changes more than twice, and three times would still be safe to look at.
 */
export const STEP = 600;

const DAY: Millis = 24 * 60 * MINUTE;

const OVER = 'The rehearsal is over.';

/** now: the page's clock, in ms. */
export function createRehearsalLink(now: () => number): RehearsalLink {
  const store = createDeckStore();
  const texts = new Map<string, Source>();
  let followed: FollowedRun | null = null;
  let told: SnapshotRun | null = null;
  let speed = 1;
  let since = { own: now(), t: 0 };
  let begun = 0;

  const exactNow = (): number => {
    const passed = now() - since.own;
    return since.t + (speed > 1 ? Math.floor(passed / STEP) * STEP : passed) * speed;
  };
  const lastAt = (): Millis => told?.commands[told.commands.length - 1]?.at ?? 0;
  const tNow = (): Millis | null => (told ? Math.max(lastAt(), Math.floor(exactNow())) : null);

  function follow(run: SnapshotRun): FollowedRun {
    const next = followRun(followed, run, texts);
    if (!next.ok) throw new Error(next.faults);
    return next.value;
  }

  function show(run: SnapshotRun): void {
    followed = follow(run);
    told = run;
    store.setState({ status: 'live', run: followed.run });
  }

  function keepText(source: Source): string {
    const name = `text-${texts.size}`;
    texts.set(name, source);
    return name;
  }

  function carryOut(command: Command): CommandAnswer {
    const at = tNow();
    if (!told || !followed || at === null) return { ok: false, at: null, why: OVER };
    const trial = tried(view(followed.run.state, at), command);
    if (!trial.ok) return { ok: false, at: null, why: trial.why };
    const { lanesText } = followed.run;
    const fields =
      command.do === 'rewrite' ? { do: 'rewrite', textHash: keepText({ text: command.text, lanesText }) } : command;
    show({ ...told, commands: [...told.commands, { at, command: { ...fields } }] });
    return { ok: true, at, why: null };
  }

  return {
    link: linkOf(store, { tNow, exactNow: () => (told ? exactNow() : null), carryOut }),
    begin({ source, from, timeOfDay, clockPhase }) {
      texts.clear();
      followed = null;
      const commands = from ? [{ at: 0, command: { ...from } }] : [];
      const run = { id: `rehearsal-${++begun}`, text: keepText(source), openedAt: 0, clockPhase: 0, commands };
      const times = timesOf(
        follow({ ...run, openedAtTimeOfDay: 0, commands: [] }),
        follow({ ...run, openedAtTimeOfDay: 0 }),
      );
      const openedAtTimeOfDay = (times.startsAt === null ? timeOfDay : times.startsAt + times.before) % DAY;
      since = { own: now(), t: 0 };
      show({ ...run, openedAtTimeOfDay, clockPhase: clockPhase ?? openedAtTimeOfDay % MINUTE });
    },
    setSpeed(next) {
      since = { own: now(), t: exactNow() };
      speed = next;
      // Whoever follows the run looks anew: tones that are scheduled are for another speed.
      store.setState({});
    },
    end() {
      told = followed = null;
      texts.clear();
      store.setState({ run: null });
    },
  };
}

/** When the session starts by its own words, and how long what is passed over takes. */
function timesOf(whole: FollowedRun, from: FollowedRun): { readonly startsAt: Millis | null; readonly before: Millis } {
  const { startsAt } = whole.run.plan.session;
  const first: RunView = whole.run.given;
  const startOf = (stretch: number): Millis => first.projectedTimes[stretch - first.index]?.start ?? 0;
  const before = startOf(from.run.given.index) - startOf(first.index);
  return { startsAt: startsAt === null ? null : startsAt * MINUTE, before };
}

interface PageHost {
  readonly tNow: () => Millis | null;
  readonly exactNow: () => number | null;
  readonly carryOut: (command: Command) => CommandAnswer;
}

function linkOf(store: DeckStore, { tNow, exactNow, carryOut }: PageHost): Link {
  return {
    store,
    now: tNow,
    exactNow,
    hostNow: exactNow,
    lostFor: () => null,
    command: (command) => Promise.resolve(carryOut(command)),
    sound(report) {
      const { id, n, status } = report;
      // Nobody else sounds in it.
      store.setState({ sound: { more: null, screens: [{ id, screen: 'desk', n, status, on: status !== 'off' }] } });
    },
    room: () => undefined,
    wish: () => Promise.resolve({ ok: false, at: null, why: 'In a rehearsal no screen is changed.' }),
    touch: () => Promise.resolve({ ok: false, at: null, why: 'In a rehearsal no times are kept.' }),
    which: () => undefined,
    share: () => Promise.resolve({ ok: false, at: null, why: 'In a rehearsal nothing is shared.' }),
    close: () => undefined,
  };
}
