/*
 * What the parts of the coach's window work with in a rehearsal: the same as in a run, on a link that reaches nobody
 * and with nothing remembered.
 */

import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Link } from '../../link/link.ts';
import { createRehearsalLink, type RehearsalLink, type RehearsalStart } from '../../link/rehearsal-link.ts';
import { openSound, type Sound } from '../../sound/sound.ts';
import { createCoachActions } from '../../ui/coach/commands/coach-actions.ts';
import { createOffers } from '../../ui/coach/commands/offers.ts';
import { startFrames } from '../../ui/coach/frames.ts';
import type { DeskTools } from '../desk-tools.ts';

/** At any other speed tones would be noise. */
export const SOUNDING_SPEED = 1;

/** How many times as fast as the pool's clock. */
export const SPEEDS = [1, 5, 20, 60] as const;

export interface Pace {
  readonly speed: (typeof SPEEDS)[number];
  readonly paused: boolean;
}

export interface RehearsalTools {
  readonly tools: DeskTools;
  readonly pace: Pick<StoreApi<Pace>, 'getState' | 'getInitialState' | 'subscribe'>;
  /** Anew, waiting for Start. */
  begin(from: RehearsalStart['from']): void;
  go(pace: Partial<Pace>): void;
  /** Its frames end, and its sound falls silent. */
  stop(): void;
}

/** One for the page: its sound listens on for as long as the page lives. */
let page: { readonly rehearsal: RehearsalLink; readonly sound: Sound; sounds: boolean } | null = null;

function ofPage(): NonNullable<typeof page> {
  if (page) return page;
  const rehearsal = createRehearsalLink(() => performance.now());
  const heard = {
    ...rehearsal.link,
    exactNow: () => (page?.sounds === true ? rehearsal.link.exactNow() : null),
  };
  page = { rehearsal, sounds: true, sound: openSound(heard, null) };
  return page;
}

/** A session, and what the pool's clock shows past the full minute; null where it was not matched. */
export type Rehearsed = Pick<RehearsalStart, 'source' | 'clockPhase'>;

/** They rehearse until they are stopped, from the beginning of the session first. */
export function createRehearsalTools(session: Rehearsed, desk: DeskTools): RehearsalTools {
  const own = ofPage();
  const { rehearsal, sound } = own;
  const pace = createStore<Pace>(() => ({ speed: SOUNDING_SPEED, paused: false }));
  const link: Link = {
    ...rehearsal.link,
    async command(command) {
      const answer = await rehearsal.link.command(command);
      // What a command has done is looked at, and undone, at the session's own speed.
      if (answer.ok && command.do !== 'start' && command.do !== 'mark') go({ speed: SOUNDING_SPEED });
      return answer;
    },
  };
  go({});
  begin(null);
  const frames = startFrames(link);
  const actions = createCoachActions(link, () => performance.now(), null);

  function go(next: Partial<Pace>): void {
    pace.setState(next);
    const { speed, paused } = pace.getState();
    own.sounds = !paused && speed === SOUNDING_SPEED;
    rehearsal.setSpeed(paused ? 0 : speed);
  }

  function begin(from: RehearsalStart['from']): void {
    rehearsal.begin({ ...session, from, timeOfDay: timeOfDay() });
  }

  return {
    pace,
    go,
    begin,
    tools: { ...desk, link, frames, actions, offers: createOffers(frames, actions), sound },
    stop() {
      sound.turnOff();
      frames.stop();
      rehearsal.end();
    },
  };
}

/** Of this machine, in ms after midnight. */
function timeOfDay(): number {
  const now = new Date();
  return ((now.getHours() * 60 + now.getMinutes()) * 60 + now.getSeconds()) * 1000;
}
