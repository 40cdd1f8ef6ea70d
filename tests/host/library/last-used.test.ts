/* When each session was last opened: kept as JSON, and no trouble where it cannot be. */

import { beforeEach, expect, test } from 'vitest';
import { LastUsed } from '../../../app/host/library/last-used.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';

const PATH = '/data/library.json';
const THURSDAY = Date.UTC(2026, 10, 26, 19, 30);

let disk: FakeDisk;
let used: LastUsed;

beforeEach(() => {
  disk = new FakeDisk();
  used = new LastUsed(disk, PATH);
});

const kept = (): unknown => JSON.parse(disk.text(PATH));
const times = async (): Promise<unknown> => Object.fromEntries(await used.all());

test('[library] when a session was last used stands in a file that a person can read', async () => {
  await used.used('Tuesday', THURSDAY, ['Tuesday']);
  expect(disk.text(PATH)).toBe('{\n  "lastUsed": {\n    "Tuesday": "2026-11-26T19:30:00.000Z"\n  }\n}\n');
  expect(await times()).toEqual({ Tuesday: THURSDAY });
  used = new LastUsed(disk, PATH);
  expect(await times()).toEqual({ Tuesday: THURSDAY });
});

test('[library] times of sessions that are gone are not kept', async () => {
  await used.used('Tuesday', THURSDAY, ['Tuesday']);
  await used.used('Friday', THURSDAY + 1, ['Tuesday', 'Friday']);
  await used.used('New', THURSDAY + 2, ['Friday']);
  expect(await times()).toEqual({ Friday: THURSDAY + 1, New: THURSDAY + 2 });
});

test('[library] a renamed session keeps its time; a session that was never opened has none', async () => {
  await used.used('Tuesday', THURSDAY, []);
  await used.renamed('Tuesday', 'Friday');
  expect(await times()).toEqual({ Friday: THURSDAY });
  expect(kept()).toEqual({ lastUsed: { Friday: '2026-11-26T19:30:00.000Z' } });
  disk.beforeChange = () => expect.fail('nothing is written');
  await used.renamed('Sunday', 'Monday');
  expect(await times()).toEqual({ Friday: THURSDAY });
});

test('[library] the times are read again after the order to forget them', async () => {
  await used.used('Tuesday', THURSDAY, ['Tuesday']);
  disk.put(PATH, Buffer.from('{}'));
  expect(await times()).toEqual({ Tuesday: THURSDAY });
  used.forget();
  expect(await times()).toEqual({});
});

test('[library] a disk that refuses costs the times only at the next start', async () => {
  disk.refuses = 'EROFS';
  await used.used('Tuesday', THURSDAY, []);
  expect(await times()).toEqual({ Tuesday: THURSDAY });
  expect(disk.files.has(PATH)).toBe(false);
});

test.each([
  ['', {}],
  ['7', {}],
  ['null', {}],
  ['{}', {}],
  ['{"lastUsed":7}', {}],
  ['{"lastUsed":null}', {}],
  ['{"lastUsed":"2026"}', {}],
  ['{"lastUsed":{"a":7,"b":"soon","c":"2026-11-26T19:30:00.000Z","d":null}}', { c: THURSDAY }],
])('[library] the usable times of a file %j are used', async (text, expected) => {
  disk.put(PATH, Buffer.from(text));
  expect(await times()).toEqual(expected);
});
