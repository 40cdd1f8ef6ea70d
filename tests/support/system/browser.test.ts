import { describe, expect, test } from 'vitest';
import { findBrowser } from './browser.ts';

describe('[set-up] the browser of the tests', () => {
  test('is the one that LANECALL_CHROMIUM names', () => {
    expect(findBrowser({ LANECALL_CHROMIUM: process.execPath })).toBe(process.execPath);
  });

  test('is not quietly another where LANECALL_CHROMIUM names no program', () => {
    expect(() => findBrowser({ LANECALL_CHROMIUM: '/no/such/browser' })).toThrow('/no/such/browser');
  });
});
