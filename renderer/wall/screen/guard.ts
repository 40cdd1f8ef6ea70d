/*
 * A part of the board that fails by itself: where drawing it throws, a sentence stands in its place and the
 * other parts are drawn on. It is tried again when the host says something new, and when somebody asks for it.
 */

import { reportMishap } from '../../link/mishap.ts';

export interface Guard<Painter> {
  /** Lets the painter draw; nothing while the part is down. */
  draw(step: (painter: Painter) => void): void;
  /** What the part is to show; null while it is down, or where that cannot be worked out. */
  work<Shown>(out: () => Shown): Shown | null;
  /** The next `draw` tries again. */
  again(): void;
  /** Whether a sentence stands in its place. */
  isDown(): boolean;
}

/**
 * name: as the sentence begins, "Lane 3"; advice: what to do meanwhile; make: gives a painter that draws
 * everything anew, for it is asked again after a throw.
 */
export function createGuard<Painter>(
  box: HTMLElement,
  { name, advice }: { readonly name: string; readonly advice: string },
  make: () => Painter,
): Guard<Painter> {
  let painter: Painter | null = null;
  let notice: HTMLElement | null = null;
  let isDown = false;

  function again(): void {
    isDown = false;
  }

  function fail(error: unknown): void {
    reportMishap(`drawing: ${name}`, error);
    isDown = true;
    painter = null;
    // Said once, however often it is tried in vain.
    notice = notice ?? sayIn(box, `${name} cannot be drawn here. ${advice}`, `Draw it again: ${name}`, again);
  }

  return {
    draw(step) {
      if (isDown) return;
      try {
        painter = painter ?? make();
        step(painter);
      } catch (error) {
        return fail(error);
      }
      if (!notice) return;
      notice.remove();
      notice = null;
      box.removeAttribute('data-failed');
    },
    work(out) {
      if (isDown) return null;
      try {
        return out();
      } catch (error) {
        fail(error);
        return null;
      }
    },
    again,
    isDown: () => notice !== null,
  };
}

function sayIn(box: HTMLElement, words: string, name: string, onAgain: () => void): HTMLElement {
  const { ownerDocument } = box;
  box.setAttribute('data-failed', 'yes');
  const notice = box.appendChild(ownerDocument.createElement('div'));
  notice.className = 'part-failed';
  const said = notice.appendChild(ownerDocument.createElement('p'));
  said.setAttribute('role', 'alert');
  said.textContent = words;
  const button = notice.appendChild(ownerDocument.createElement('button'));
  button.type = 'button';
  button.textContent = 'Draw it again';
  button.setAttribute('aria-label', name);
  button.onclick = onAgain;
  return notice;
}
