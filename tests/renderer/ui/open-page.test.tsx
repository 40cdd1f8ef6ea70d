// @vitest-environment happy-dom
/* A page that cannot be opened says so; one that is open is left alone by what goes wrong beside it. */

import { act } from '@testing-library/react';
import type { ReactElement } from 'react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openPage } from '../../../renderer/ui/open-page.tsx';

beforeEach(() => {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  vi.spyOn(console, 'error').mockImplementation(() => undefined);
  document.body.innerHTML = '<div id="page"><p class="page-opening">Opening…</p></div>';
});

afterEach(() => {
  vi.restoreAllMocks();
});

const alert = (): string | null => document.querySelector('[role="alert"]')?.textContent ?? null;
const page = (): string => document.getElementById('page')!.textContent ?? '';

function Broken(): ReactElement {
  throw new Error('cannot be drawn');
}

describe('[faults] opening a page', () => {
  test('what it shows stands in place of what its file holds', () => {
    act(() => openPage('page', () => <p>Lanes</p>));
    expect([page(), alert()]).toEqual(['Lanes', null]);
  });

  test('a throw before anything is drawn is said, with what to do', () => {
    openPage('page', () => {
      throw new Error('no storage');
    });
    expect(alert()).toBe(
      'This page could not be opened. The session goes on without it: load the page again, or use another screen.',
    );
    expect(document.querySelector('.page-failed button')?.textContent).toBe('Load it again');
  });

  test('so is a throw while it is drawn that no region has caught', async () => {
    // As in a browser: within `act` React keeps such a throw for the test.
    Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: false });
    openPage('page', () => <Broken />);
    await vi.waitFor(() => expect(alert()).toMatch(/^This page could not be opened\./));
  });

  test.each([
    ['an error', () => new ErrorEvent('error', { error: new Error('a file that did not come') })],
    [
      'a promise that nobody heard',
      () => Object.assign(new Event('unhandledrejection'), { reason: new Error('a part that did not come') }),
    ],
  ])('%s outside of what is drawn is said while the page is blank, and not once it is drawn', (_, made) => {
    let whileBlank: string | null = null;
    act(() => {
      openPage('page', () => <p>Lanes</p>);
      // React draws later than here.
      window.dispatchEvent(made());
      whileBlank = alert();
    });
    expect(whileBlank).toMatch(/^This page could not be opened\./);
    expect([page(), alert()]).toEqual(['Lanes', null]);
    window.dispatchEvent(made());
    expect([page(), alert()]).toEqual(['Lanes', null]);
  });
});
