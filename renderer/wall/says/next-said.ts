/*
 * Tells a screen reader who leaves next: each leave once, when it becomes the next one on the screen. "Lanes 1 and 4
 * leave at 1:45". When no leave is due any more it says why: the lanes are stopped, the coach is waited for, or the
 * session is done. What is drawn changes every second and is not read out.
 */

import type { ClockChoice } from '../../../app/core/run/readings.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import type { Millis } from '../../../app/core/units.ts';
import { capital } from '../../../app/core/words/phrase.ts';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { readingOn } from './clock-text.ts';
import { modeOf, type WallMode } from './face.ts';

/** Said where no leave is due. */
const WITHOUT_LEAVE: { readonly [mode in WallMode]: string } = {
  swim: '',
  pause: '',
  stopped: 'Stopped',
  next: 'Waiting for the coach',
  done: 'Session done',
};

/** shown: the lanes of this screen. What it returns is called on every frame, and writes only what is new. */
export function createNextSaid(
  element: HTMLElement,
  shown: readonly number[],
  choice: ClockChoice,
): (view: RunView) => void {
  let said = '';
  return (view) => {
    const at = nextLeave(view, shown);
    if (at === null) {
      const why = WITHOUT_LEAVE[modeOf(view)];
      // Also where there is nothing to say: what will not happen must not stand, since it can still be read there.
      if (why !== said) element.textContent = said = why;
      return;
    }
    const lanes = view.lanes.filter(({ number, next }) => shown.includes(number) && next?.at === at);
    const key = `${at} ${lanes.map(({ number }) => number).join(' ')}`;
    if (key === said) return;
    said = key;
    const leave = lanes.length === 1 ? 'leaves' : 'leave';
    const named = capital(lanesNamed(lanes.map(({ number }) => number)));
    element.textContent = `${named} ${leave} at ${readingOn(choice, view, at)}`;
  };
}

function nextLeave({ lanes, t }: RunView, shown: readonly number[]): Millis | null {
  let first: Millis | null = null;
  for (const { number, state, next } of lanes) {
    const at = state === 'pending' ? (next?.at ?? null) : null;
    if (at !== null && at > t && shown.includes(number) && (first === null || at < first)) first = at;
  }
  return first;
}
