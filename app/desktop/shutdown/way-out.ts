/*
 * Whether the program may end. Its window's button, the menu, a key, the Dock and the taskbar all ask here, and during
 * a run the first time is not enough. The system's own end, and a word from whoever started the program, are obeyed.
 */

import type { Timers } from '../../host/time/timers.ts';

export interface WayOutPorts {
  readonly timers: Timers;
  /** In ms of any one clock. */
  now(): number;
  /** Whether a run would miss its screens. */
  isGoing(): boolean;
  /** For the coach; null when it is over. */
  tell(sentence: string | null): void;
  /** Brings the coach's window to the front: what is told there is to be seen. */
  show(): void;
}

export interface WayOut {
  /** For somebody who wants to leave; where they may not, they are told what to do. */
  mayLeave(): boolean;
  /** Nobody is asked from now on. */
  open(): void;
}

export function wayOut(ports: WayOutPorts): WayOut {
  let isOpen = false;
  let refusedAt: number | null = null;
  return {
    mayLeave() {
      const now = ports.now();
      isOpen ||= mayLeave(ports.isGoing(), refusedAt, now);
      if (isOpen) return true;
      refusedAt = now;
      ports.show();
      ports.tell(NOT_ENDED);
      ports.timers.set(() => ports.tell(null), MEANT_WITHIN);
      return false;
    },
    open() {
      isOpen = true;
    },
  };
}

/** For so long a second time counts as meant, in ms. */
const MEANT_WITHIN = 10_000;

/** refusedAt: when somebody was last refused, by the same clock as now; null for never. */
export function mayLeave(isGoing: boolean, refusedAt: number | null, now: number): boolean {
  return !isGoing || (refusedAt !== null && now - refusedAt <= MEANT_WITHIN);
}

const NOT_ENDED =
  'A run is going. Close this window or quit again within 10 s to end Lanecall; the run comes back when it is started again.';
