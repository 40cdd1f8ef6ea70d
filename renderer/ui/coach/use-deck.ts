/*
 * What React shows on the coach's screens, and when: the moment of the last change, what the host
 * says, and what the hand holds. Digits that count are written by `DrawnText`, outside React.
 */

import { useEffect, useRef, useSyncExternalStore, type RefObject } from 'react';
import { useStore } from 'zustand';
import type { Link } from '../../link/link.ts';
import type { DeckState } from '../../link/store.ts';
import { createDigits } from '../digits.ts';
import type { Frames, RunMoment } from './frames.ts';
import type { CoachActions, CoachActionsState } from './commands/coach-actions.ts';
import type { Offers } from './commands/offers.ts';

/** What every part of a coach's page works with. */
export interface Tools {
  readonly link: Link;
  readonly frames: Frames;
  readonly actions: CoachActions;
  readonly offers: Offers;
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

/** One answer of the offers, a string or one that stays the same object: drawn again only where it is another. */
export function useOffer<Answer>(offers: Offers, ask: (offers: Offers) => Answer): Answer {
  return useSyncExternalStore(offers.changed, () => ask(offers));
}

type TextOf = (moment: RunMoment | null) => string;

/** An element whose text is written on each frame, and only where it has changed. */
export function useDrawn(frames: Frames, text: TextOf): RefObject<HTMLSpanElement | null> {
  return useWritten(frames, text, writesText);
}

/** The same in fixed cells: times that count, and readings (of which words are written as they are). */
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
