/*
 * Opens a page in its place in the document, and says so where that fails: a page must never be blank. What
 * fails later is caught region by region (`region.tsx`).
 */

import type { ReactNode } from 'react';
import { createRoot } from 'react-dom/client';
import { reportMishap } from '../link/mishap.ts';
import './region.css';

/** `id`: of the element to draw in; `content`: makes what the page shows, and whatever that needs. */
export function openPage(id: string, content: () => ReactNode): void {
  const place = document.getElementById(id);
  if (!place) throw new Error('The page has no place to draw in.');
  // A fault in a file of the page, or one that did not come, is told of nowhere else.
  const failed = (event: ErrorEvent | PromiseRejectionEvent): void => {
    reportMishap('loading the page', 'reason' in event ? event.reason : event.error);
    if (isBlank(place)) sayFailed(place);
  };
  window.addEventListener('error', failed);
  window.addEventListener('unhandledrejection', failed);
  try {
    createRoot(place, {
      // The region that caught it has reported it.
      onCaughtError: () => undefined,
      onUncaughtError(error) {
        reportMishap('drawing the page', error);
        sayFailed(place);
      },
    }).render(content());
  } catch (error) {
    reportMishap('opening the page', error);
    sayFailed(place);
  }
}

/** Nothing drawn yet, or nothing but what the page's file holds. */
function isBlank(place: HTMLElement): boolean {
  return place.childElementCount === 0 || place.querySelector('.page-opening') !== null;
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
