/*
 * Whether the program may end. The window's button, the menu, a key, the Dock and the taskbar all ask here, and
 * during a run they have to ask twice. Signals and the system's shutdown are obeyed at once.
 */

import type { Timers } from '../../host/time/timers.ts';

export interface WayOutPorts {
  readonly timers: Timers;
  /** In ms of any one clock. */
  now(): number;
  /** Whether a run is going. */
  isGoing(): boolean;
  /** Tells the coach; null takes it back. */
  tell(sentence: string | null): void;
  /** Brings the coach's window to the front, so that the sentence is seen. */
  show(): void;
}

export interface WayOut {
  /** Somebody wants to end the program. If they may not yet, they are told what to do. */
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

/** How long after a refusal a second try is taken as meant, in ms. */
const MEANT_WITHIN = 10_000;

/** refusedAt: when somebody was last refused, by the same clock as now; null for never. */
export function mayLeave(isGoing: boolean, refusedAt: number | null, now: number): boolean {
  return !isGoing || (refusedAt !== null && now - refusedAt <= MEANT_WITHIN);
}

const NOT_ENDED =
  'A run is going. Close this window or quit again within 10 s to end Lanecall; the run comes back when it is started again.';
