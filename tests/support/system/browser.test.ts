import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { findBrowser } from './browser.ts';

describe('[set-up] the browser of the tests', () => {
  test('is the one that LANECALL_CHROMIUM names', () => {
    expect(findBrowser({ LANECALL_CHROMIUM: process.execPath })).toBe(process.execPath);
  });

  test('is not quietly another where LANECALL_CHROMIUM names no program', () => {
    expect(() => findBrowser({ LANECALL_CHROMIUM: '/no/such/browser' })).toThrow('/no/such/browser');
  });

  test('is the first on the path by the order of the names', () => {
    const folder = mkdtempSync(join(tmpdir(), 'lanecall-browser-'));
    const named = (name: string): string => join(folder, name);
    for (const name of ['chromium', 'chromium-headless-shell']) writeFileSync(named(name), '', { mode: 0o755 });
    expect(findBrowser({ PATH: folder })).toBe(named('chromium'));
    expect(findBrowser({ PATH: folder }, ['chromium-headless-shell', 'chromium'])).toBe(
      named('chromium-headless-shell'),
    );
  });
});
