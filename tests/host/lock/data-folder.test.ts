/* Where the program keeps what must outlive it, on each system. */

import { expect, test } from 'vitest';
import { dataFolder, runsFolder } from '../../../app/host/lock/data-folder.ts';

const HOME = '/home/kim';

test.each([
  ['linux', {}, '/home/kim/.local/share/lanecall'],
  ['freebsd', {}, '/home/kim/.local/share/lanecall'],
  ['darwin', {}, '/home/kim/Library/Application Support/lanecall'],
  ['win32', { LOCALAPPDATA: '/profile/local' }, '/profile/local/lanecall'],
  ['win32', {}, '/home/kim/AppData/Local/lanecall'],
  ['linux', { XDG_DATA_HOME: '/data' }, '/data/lanecall'],
  ['darwin', { XDG_DATA_HOME: '/data' }, '/data/lanecall'],
  ['linux', { XDG_DATA_HOME: 'data' }, '/home/kim/.local/share/lanecall'],
  ['linux', { XDG_DATA_HOME: '' }, '/home/kim/.local/share/lanecall'],
] as const)('[data folder] on %s with %j it is %s', (platform, env, expected) => {
  expect(dataFolder({ platform, env, home: HOME })).toBe(expected);
});

test('[data folder] the journals have a folder in it', () => {
  expect(runsFolder('/data')).toBe('/data/runs');
});
