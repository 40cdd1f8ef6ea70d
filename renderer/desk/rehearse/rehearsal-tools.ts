/*
 * What the parts of the coach's window work with in a rehearsal: the same as in a run, on a link that reaches nobody
 * and with nothing remembered.
 */

import { createRehearsalLink, type RehearsalLink, type RehearsalStart } from '../../link/rehearsal-link.ts';
import { openSound, type Sound } from '../../sound/sound.ts';
import { createCoachActions } from '../../ui/coach/commands/coach-actions.ts';
import { createOffers } from '../../ui/coach/commands/offers.ts';
import { startFrames } from '../../ui/coach/frames.ts';
import type { DeskTools } from '../desk-tools.ts';
import type { Rehearsed } from './use-rehearsal.ts';

/** In ms: React draws no more often, however fast the session goes. */
const DRAWN_EVERY = 250;

/** At any other speed tones would be noise. */
export const SOUNDING_SPEED = 1;

/** How many times as fast as the pool's clock. */
export const SPEEDS = [1, 5, 20, 60] as const;

export interface RehearsalTools {
  readonly tools: DeskTools;
  begin(session: Rehearsed, from: RehearsalStart['from']): void;
  setSpeed(speed: number): void;
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

export function createRehearsalTools(light: DeskTools['light']): RehearsalTools {
  const own = ofPage();
  const { rehearsal, sound } = own;
  const { link } = rehearsal;
  setSpeed(SOUNDING_SPEED);
  const frames = startFrames(link, DRAWN_EVERY);
  const actions = createCoachActions(link, () => performance.now(), null);

  function setSpeed(speed: number): void {
    own.sounds = speed === SOUNDING_SPEED;
    rehearsal.setSpeed(speed);
  }

  return {
    tools: { link, frames, actions, offers: createOffers(frames, actions), sound, light },
    begin: ({ source, clockPhase }, from) => rehearsal.begin({ source, from, timeOfDay: timeOfDay(), clockPhase }),
    setSpeed,
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
