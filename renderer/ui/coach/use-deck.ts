/*
 * Hooks of the coach's screens: the run as it last changed, what the host says, the coach's actions, and what is
 * allowed now. Counting digits are written straight into their elements, past React (`useDrawn`, `useDigits`).
 */

import { useEffect, useRef, useSyncExternalStore, type RefObject } from 'react';
import { useStore } from 'zustand';
import type { Link } from '../../link/link.ts';
import type { DeckState } from '../../link/store.ts';
import { createDigits } from '../digits/digits.ts';
import type { Frames, RunMoment } from './frames.ts';
import type { CoachActions, CoachActionsState } from './commands/coach-actions.ts';
import type { Offers } from './commands/offers.ts';
import type { Touches } from './times/touches.ts';

/** What every part of a coach's page works with. */
export interface Tools {
  readonly link: Link;
  readonly frames: Frames;
  readonly actions: CoachActions;
  readonly offers: Offers;
  readonly touches: Touches;
}

export function useMoment(frames: Frames): RunMoment | null {
  return useSyncExternalStore(frames.changed, frames.shown);
}

export function useDeck<Part>(link: Link, pick: (state: DeckState) => Part): Part {
  return useStore(link.store, pick);
}

export function useActions<Part>(actions: CoachActions, pick: (state: CoachActionsState) => Part): Part {
  return useStore(actions.store, pick);
}

/** One answer of the offers. It must be a string or a kept object, or React would draw again each time. */
export function useOffer<Answer>(offers: Offers, ask: (offers: Offers) => Answer): Answer {
  return useSyncExternalStore(offers.changed, () => ask(offers));
}

type TextOf = (moment: RunMoment | null) => string;

/** A ref for an element whose text is looked at on each frame, and written only when it has changed. */
export function useDrawn(frames: Frames, text: TextOf): RefObject<HTMLSpanElement | null> {
  return useWritten(frames, text, writesText);
}

/** The same with times in cells of fixed width (`ui/digits.ts`); words are written as they are. */
export function useDigits(frames: Frames, text: TextOf): RefObject<HTMLSpanElement | null> {
  return useWritten(frames, text, writesDigits);
}

function useWritten(
  frames: Frames,
  text: TextOf,
  writer: (element: HTMLElement) => (text: string) => void,
): RefObject<HTMLSpanElement | null> {
  const element = useRef<HTMLSpanElement>(null);
  const latest = useRef(text);
  useEffect(() => {
    latest.current = text;
  });
  useEffect(() => {
    if (!element.current) return undefined;
    const write = writer(element.current);
    let shown: string | null = null;
    const draw = (moment: RunMoment | null): void => {
      const now = latest.current(moment);
      if (now === shown) return;
      shown = now;
      write(now);
    };
    draw(frames.latest());
    return frames.draw(draw);
  }, [frames, writer]);
  return element;
}

function writesText(element: HTMLElement): (text: string) => void {
  return (text) => {
    element.textContent = text;
  };
}

function writesDigits(element: HTMLElement): (text: string) => void {
  let digits: ReturnType<typeof createDigits> | null = null;
  return (text) => {
    const isTime = /^\d/.test(text);
    element.classList.toggle('digits', isTime);
    // Past the hour: `1:02:20`.
    element.classList.toggle('is-long', isTime && text.length > 5);
    if (isTime) {
      digits = digits ?? createDigits(element);
      digits.show(text);
    } else {
      digits = null;
      element.textContent = text;
    }
  };
}
