/*
 * From the page's clock to the audio device's. The two run at slightly different rates, the browser's
 * word on how they stand trembles and is now and then a whole buffer wrong, and a device that was held
 * up goes on with a step. So the looks of the last second and a half are taken together and their middle
 * is believed, and a step is followed as soon as three looks in a row agree on it, or so many say that
 * nothing is as it was. What is scheduled is put right by it until shortly before it sounds, so that a
 * rate has no time to add up.
 */

import type { Stamp } from './audio-clock.ts';

export interface AudioMapping {
  /** Takes a stamp in. */
  take(stamp: Stamp): void;
  /**
   * The context's time (s) at which a sound must start to be heard when the page's clock shows `heardAt`
   * (ms); null before enough looks.
   */
  contextTimeFor(heardAt: number): number | null;
}

/** One look: how far the context's time is ahead of the page's, in ms, by the page's clock. */
interface Look {
  readonly at: number;
  readonly ahead: number;
}

/** Looks are used for so long, in ms: longer, and small steps come in late; shorter, and it trembles. */
const WINDOW = 1500;

/** So many are kept whatever their age: a covered page looks once a second. */
const KEPT = 5;

/** A single look may be a whole buffer wrong; the middle of three is not. */
const LEAST = 3;

/** A look further off than this, in ms, is wrong, or the first after a step. */
const STRAYS = 1;

/** So many strays in a row are right, even where they do not agree: the device goes from step to step. */
const MOST_STRAYS = 6;

export function createAudioMapping(): AudioMapping {
  let looks: readonly Look[] = [];
  let strays: readonly Look[] = [];
  /** The middle of the looks, in ms; null before there are enough. */
  let ahead: number | null = null;

  function believe(next: readonly Look[]): void {
    looks = next;
    strays = [];
    ahead = looks.length < LEAST ? null : middleOf(looks);
  }

  return {
    take({ contextTime, pageTime }) {
      const look = { at: pageTime, ahead: contextTime * 1000 - pageTime };
      const last = strays[strays.length - 1] ?? looks[looks.length - 1];
      if (last && look.at <= last.at) return;
      if (ahead === null || Math.abs(look.ahead - ahead) <= STRAYS) {
        const all = [...looks, look];
        return believe(all.filter(({ at }, index) => look.at - at <= WINDOW || index >= all.length - KEPT));
      }
      strays = [...strays, look];
      const latest = strays.slice(-LEAST);
      const agree = latest.length === LEAST && spreadOf(latest) <= STRAYS;
      if (agree || strays.length >= MOST_STRAYS) believe(latest);
    },
    contextTimeFor: (heardAt) => (ahead === null ? null : (heardAt + ahead) / 1000),
  };
}

function spreadOf(looks: readonly Look[]): number {
  const all = looks.map(({ ahead }) => ahead);
  return Math.max(...all) - Math.min(...all);
}

function middleOf(looks: readonly Look[]): number {
  const sorted = looks.map(({ ahead }) => ahead).sort((a, b) => a - b);
  const middle = sorted.length >>> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
