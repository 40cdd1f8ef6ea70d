/* The first line of a journal and its last bytes, whatever stands between and whatever the file is. */

import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, readlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readEnds } from '../../../app/host/records/journal-ends.ts';
import { freshDataFolder, removeDataFolders } from '../../support/host/folders/data-folder.ts';

let folder: string;
beforeAll(() => (folder = freshDataFolder()));
afterAll(removeDataFolders);

/** The first line and the last bytes of a file with this text. */
function ends(text: string | Buffer) {
  const path = join(folder, 'a.jsonl');
  writeFileSync(path, text);
  const { first, last } = readEnds(path);
  return { first: first && Buffer.from(first).toString(), last: Buffer.from(last).toString() };
}

describe('[record] the ends of a journal', () => {
  test('are the whole of a short one', () => {
    expect(ends('one\ntwo\n')).toEqual({ first: 'one', last: 'one\ntwo\n' });
    expect(ends('')).toEqual({ first: null, last: '' });
    expect(ends('\n')).toEqual({ first: '', last: '\n' });
  });

  test('of a long one are its first line and its last 1024 bytes', () => {
    const middle = 'x'.repeat(5000);
    expect(ends(`one\n${middle}\n${'y'.repeat(1023)}\n`)).toEqual({ first: 'one', last: `${'y'.repeat(1023)}\n` });
  });

  test.each([4095, 4096, 4097, 16_384, 100_000, 1024 * 1024])('have a first line of %i bytes', (length) => {
    expect(ends(`${'é'.repeat(length / 2)}\ntwo\n`).first).toHaveLength(Math.floor(length / 2));
  });

  test.each([3, 4096, 20_000])('have no first line without a newline: %i bytes', (length) => {
    expect(ends('x'.repeat(length))).toEqual({ first: null, last: 'x'.repeat(Math.min(length, 1024)) });
  });

  test.runIf(process.platform === 'linux')('leave no file open', () => {
    ends('one\n');
    expect(() => readEnds(folder)).toThrow();
    const open = readdirSync('/proc/self/fd').map((number) => {
      try {
        return readlinkSync(`/proc/self/fd/${number}`);
      } catch {
        return null;
      }
    });
    expect(open.filter((path) => path?.startsWith(folder))).toEqual([]);
  });

  test('have no first line longer than four MiB, which is more than any session', () => {
    const most = 4 * 1024 * 1024;
    expect(ends(Buffer.from(`${'x'.repeat(most - 1)}\n`)).first).toHaveLength(most - 1);
    expect(ends(Buffer.from(`${'x'.repeat(most)}\n`)).first).toBeNull();
  });
});

describe('[record] a journal that is not a file', () => {
  test('is refused with the reason: a folder, a pipe that nobody writes to, nothing at all', () => {
    const code = (path: string): unknown => {
      try {
        return readEnds(path);
      } catch (error) {
        return (error as { code: string }).code;
      }
    };
    mkdirSync(join(folder, 'folder'));
    expect(code(join(folder, 'folder'))).toBe('EISDIR');
    expect(code(join(folder, 'nothing'))).toBe('ENOENT');
    if (process.platform === 'win32') return;
    execFileSync('mkfifo', [join(folder, 'pipe')]);
    expect(code(join(folder, 'pipe'))).toBe('NOT_ORDINARY');
  });
});
