/*
 * What `npm start` adds to serving: the sample session, and the browser it opens.
 */

import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { startArguments } from '../../app/cli/start.mjs';
import { browserCommand, firstAddress } from '../../app/cli/system-browser.mjs';

describe('[start] the arguments of serve', () => {
  const sample = join('/clone', 'assets', 'harbour-thursday.txt');

  test.each<[string[], string[]]>([
    [[], ['--sample', sample]],
    [
      ['--port', '8080', '--share'],
      ['--sample', sample, '--port', '8080', '--share'],
    ],
    [
      ['tuesday.txt', '--port=8080'],
      ['--draft', 'tuesday.txt', '--port=8080'],
    ],
    [
      ['--lanes', 'lanes.txt', 'tuesday.txt'],
      ['--draft', '--lanes', 'lanes.txt', 'tuesday.txt'],
    ],
    [['-'], ['--draft', '-']],
    [['--help'], ['--help']],
  ])('%j becomes %j', (given, passed) => {
    expect(startArguments(given, '/clone')).toEqual(passed);
  });
});

describe("[start] the system's browser", () => {
  test('is opened only where there is a display and a person', () => {
    expect(browserCommand('linux', {})).toBeNull();
    expect(browserCommand('linux', { DISPLAY: ':0' })).toEqual(['xdg-open']);
    expect(browserCommand('linux', { WAYLAND_DISPLAY: 'wayland-0' })).toEqual(['xdg-open']);
    expect(browserCommand('linux', { DISPLAY: ':0', CI: 'true' })).toBeNull();
    expect(browserCommand('darwin', {})).toEqual(['open']);
    expect(browserCommand('darwin', { CI: '1' })).toBeNull();
  });

  test('gets the first address once its line is whole', () => {
    expect(firstAddress('Serving at http://127.0.0.1:80')).toBeNull();
    expect(firstAddress('Serving at http://127.0.0.1:8080/ here\nWall http://127.0.0.1:8080/display\n')).toBe(
      'http://127.0.0.1:8080/',
    );
  });
});
