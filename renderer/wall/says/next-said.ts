/*
 * Tells a screen reader who leaves next: each leave once, when it becomes the next one on the screen. "Lanes 1 and 4
 * leave at 1:45". What is drawn changes every second and is not read out.
 */

import type { ClockChoice } from '../../../app/core/run/readings.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import type { Millis } from '../../../app/core/units.ts';
import { capital } from '../../../app/core/words/phrase.ts';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { readingOn } from './clock-text.ts';

/** shown: the lanes of this screen. What it returns is called on every frame, and writes only what is new. */
export function createNextSaid(
  element: HTMLElement,
  shown: readonly number[],
  choice: ClockChoice,
): (view: RunView) => void {
  let saidAt: Millis | null = null;
  let saidLanes = '';
  return (view) => {
    const at = nextLeave(view, shown);
    const lanes = at === null ? [] : view.lanes.filter(({ number, next }) => shown.includes(number) && next?.at === at);
    const key = lanes.map(({ number }) => number).join(' ');
    if (at === saidAt && key === saidLanes) return;
    saidAt = at;
    saidLanes = key;
    if (at === null) {
      // It can still be read there: what will not happen must not stand.
      element.textContent = '';
      return;
    }
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
