/*
 * Opens a page in its place in the document, and says so where that fails: a page must never be blank. What
 * fails later is caught region by region (`region.tsx`).
 */

import { useEffect, useRef, type ReactNode } from 'react';
import { createRoot } from 'react-dom/client';
import { reportMishap } from '../link/mishap.ts';
import './region.css';

/** `id`: of the element to draw in; `content`: makes what the page shows, and whatever that needs. */
export function openPage(id: string, content: () => ReactNode): void {
  const place = document.getElementById(id);
  if (!place) throw new Error('The page has no place to draw in.');
  const fail = (what: string, error: unknown): void => {
    reportMishap(what, error);
    stopWatching();
    sayFailed(place);
  };
  const stopWatching = watchLoading((error) => fail('loading the page', error));
  const opened = (): void => {
    stopWatching();
    // What went wrong meanwhile was nothing that the page needs.
    place.ownerDocument.querySelector('.page-failed')?.remove();
  };
  try {
    createRoot(place, {
      // The region that caught it has reported it.
      onCaughtError: () => undefined,
      onUncaughtError: (error) => fail('drawing the page', error),
    }).render(
      <>
        {content()}
        <Opened onOpened={opened} />
      </>,
    );
  } catch (error) {
    fail('opening the page', error);
  }
}

/** Tells that the page has been drawn for the first time. */
function Opened({ onOpened }: { onOpened(): void }): null {
  const told = useRef(onOpened);
  useEffect(() => told.current(), []);
  return null;
}

/** Calls with a fault in a file of the page, or one that did not come: nobody else hears of it. Returns what ends that. */
function watchLoading(failed: (error: unknown) => void): () => void {
  const heard = (event: ErrorEvent | PromiseRejectionEvent): void =>
    failed('reason' in event ? event.reason : event.error);
  window.addEventListener('error', heard);
  window.addEventListener('unhandledrejection', heard);
  return () => {
    window.removeEventListener('error', heard);
    window.removeEventListener('unhandledrejection', heard);
  };
}

function sayFailed(place: HTMLElement): void {
  const { ownerDocument } = place;
  if (ownerDocument.querySelector('.page-failed')) return;
  const box = ownerDocument.createElement('div');
  box.className = 'region-failed page-failed';
  const words = box.appendChild(ownerDocument.createElement('p'));
  words.setAttribute('role', 'alert');
  words.textContent =
    'This page could not be opened. The session goes on without it: load the page again, or use another screen.';
  const again = box.appendChild(ownerDocument.createElement('button'));
  again.type = 'button';
  again.textContent = 'Load it again';
  again.onclick = () => location.reload();
  ownerDocument.body.appendChild(box);
}
