import { isUtf8 } from 'node:buffer';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { MOST_BYTES, readTextFile, readTextStream, textOf } from '../../app/host/text-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'lanecall-text-'));
afterAll(() => rmSync(folder, { recursive: true }));

function place(bytes: readonly number[]): string | null {
  const result = textOf(Uint8Array.from(bytes));
  return result.ok ? null : result.faults.map(({ line, column }) => `${line}:${column}`).join(' ');
}

const ascii = (text: string): readonly number[] => [...Buffer.from(text)];

describe('bytes that are not UTF-8', () => {
  test.each([
    ['a lone continuation byte', [0x80], '1:1'],
    ['an overlong slash', [...ascii('ab'), 0xc0, 0xaf], '1:3'],
    ['a surrogate', [0xed, 0xa0, 0x80], '1:1'],
    ['above U+10FFFF', [0xf4, 0x90, 0x80, 0x80], '1:1'],
    ['a character cut short', [...ascii('x\ny'), 0xe2, 0x89], '2:2'],
    ['a bad byte behind good characters, counted as characters', [...Buffer.from('é≈😀'), 0xff], '1:4'],
    ['a tab counts as 4 columns', [9, 0xff], '1:5'],
    ['CR LF ends a line', [...ascii('a\r\n'), 0xff], '2:1'],
    ['a byte-order mark takes no column', [0xef, 0xbb, 0xbf, 0xff], '1:1'],
    ['the first of several', [0xff, 0x0a, 0xff], '1:1'],
  ])('%s', (_, bytes, expected) => {
    expect(place(bytes)).toBe(expected);
  });

  test('agrees with the platform’s own check on every two bytes and on three with each lead', () => {
    for (let first = 0; first < 256; first++) {
      for (let second = 0; second < 256; second++) {
        for (const rest of [[], [0x80], [0x41], [0xbf, 0xbf]]) {
          const bytes = Uint8Array.from([first, second, ...rest]);
          if (textOf(bytes).ok !== isUtf8(bytes)) throw new Error(`differs at ${bytes.join(' ')}`);
        }
      }
    }
  });
});

test('a text of 256 KiB is read, one byte more is a fault', () => {
  expect(textOf(new Uint8Array(MOST_BYTES).fill(0x20)).ok).toBe(true);
  expect(textOf(new Uint8Array(MOST_BYTES + 1).fill(0x20))).toMatchObject({
    ok: false,
    faults: [{ line: 1, column: 1 }],
  });
});

test('a file is read as it is, byte-order mark included', async () => {
  const path = join(folder, 'session.txt');
  writeFileSync(path, '\uFEFFWarm-up\r\n');
  expect(await readTextFile(path)).toEqual({ ok: true, text: '\uFEFFWarm-up\r\n' });
});

test('a file that is not there, and a folder, cannot be read', async () => {
  expect(await readTextFile(join(folder, 'none.txt'))).toEqual({
    ok: false,
    why: 'unreadable',
    message: 'there is no such file',
  });
  expect(await readTextFile(folder)).toMatchObject({
    ok: false,
    why: 'unreadable',
    message: 'is a folder, not a file',
  });
});

test('an endless stream is read only as far as the limit', async () => {
  let handed = 0;
  async function* endless(): AsyncGenerator<Uint8Array> {
    for (;;) {
      handed += 1;
      yield new Uint8Array(64 * 1024).fill(0x20);
    }
  }
  expect(await readTextStream(endless())).toMatchObject({ ok: false, why: 'fault' });
  expect(handed).toBe(5);
});
