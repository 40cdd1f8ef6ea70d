import { isUtf8 } from 'node:buffer';
import { mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
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
    ['further on it takes one', [0x61, 0xef, 0xbb, 0xbf, 0xff], '1:3'],
    ['the first of several', [0xff, 0x0a, 0xff], '1:1'],
  ])('%s', (_, bytes, expected) => {
    expect(place(bytes)).toBe(expected);
  });

  test('are named by their two digits, with what to do', () => {
    expect(textOf(Uint8Array.from([0x61, 0x80]))).toEqual({
      ok: false,
      faults: [{ line: 1, column: 2, message: 'the byte 80 is not UTF-8 text: save the file as UTF-8' }],
    });
    expect(textOf(Uint8Array.from([0xfe]))).toMatchObject({
      faults: [{ message: expect.stringContaining('the byte FE ') as string }],
    });
  });

  test('leave the rest readable, so that the faults of other lines are found too', async () => {
    const path = join(folder, 'odd.txt');
    writeFileSync(path, Buffer.from([0x61, 0xff, 0x62]));
    expect(await readTextFile(path)).toMatchObject({ ok: false, why: 'fault', legible: 'a\uFFFDb' });
  });

  test('are those that the platform’s own check refuses: every two bytes, and three with each lead', () => {
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
  expect(textOf(new Uint8Array(MOST_BYTES + 1).fill(0x20))).toEqual({
    ok: false,
    faults: [
      {
        line: 1,
        column: 1,
        message: 'more than 256 KiB of text: no session is that long, so check that this is the right file',
      },
    ],
  });
});

test('a file is closed after reading', async () => {
  const path = join(folder, 'open.txt');
  writeFileSync(path, 'x');
  const before = readdirSync('/proc/self/fd').length;
  for (let time = 0; time < 5; time++) await readTextFile(path);
  expect(readdirSync('/proc/self/fd')).toHaveLength(before);
});

test('a file of 256 KiB is read to its end; a longer one gives no text', async () => {
  const path = join(folder, 'long.txt');
  writeFileSync(path, 'x'.repeat(MOST_BYTES));
  expect(await readTextFile(path)).toEqual({ ok: true, text: 'x'.repeat(MOST_BYTES) });
  writeFileSync(path, Buffer.alloc(MOST_BYTES, 0xff));
  expect(await readTextFile(path)).toHaveProperty('legible');
  writeFileSync(path, 'x'.repeat(MOST_BYTES + 1));
  const read = await readTextFile(path);
  expect(read).toMatchObject({ ok: false, why: 'fault', faults: [{ line: 1 }] });
  expect(read).not.toHaveProperty('legible');
});

test('a file is read as it is, byte-order mark included', async () => {
  const path = join(folder, 'session.txt');
  writeFileSync(path, '\uFEFFWarm-up\r\n');
  expect(await readTextFile(path)).toEqual({ ok: true, text: '\uFEFFWarm-up\r\n' });
});

test('a missing file, and a folder, cannot be read', async () => {
  expect(await readTextFile(join(folder, 'none.txt'))).toEqual({
    ok: false,
    why: 'unreadable',
    message: 'there is no such file',
  });
  const file = join(folder, 'file.txt');
  writeFileSync(file, '');
  expect(await readTextFile(join(file, 'below'))).toMatchObject({ message: 'there is no such file' });
  const circle = join(folder, 'circle.txt');
  symlinkSync(circle, circle);
  expect(await readTextFile(circle)).toEqual({ ok: false, why: 'unreadable', message: 'cannot be read (ELOOP)' });
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

describe('a stream', () => {
  test('is read to its end, bytes or text, if it is no longer than a file may be', async () => {
    async function* pieces(): AsyncGenerator<Uint8Array | string> {
      yield Buffer.from('4 x 50 ');
      yield await Promise.resolve('@ 1:00');
    }
    expect(await readTextStream(pieces())).toEqual({ ok: true, text: '4 x 50 @ 1:00' });
    async function* long(): AsyncGenerator<Uint8Array> {
      yield await Promise.resolve(new Uint8Array(MOST_BYTES).fill(0x20));
      yield new Uint8Array();
    }
    expect(await readTextStream(long())).toMatchObject({ ok: true });
  });

  test.each([
    [Object.assign(new Error('no'), { code: 'EACCES' }), 'may not be read'],
    [Object.assign(new Error('no'), { code: 'EPERM' }), 'may not be read'],
    [Object.assign(new Error('no'), { code: 'EIO' }), 'cannot be read (EIO)'],
    [new Error('tired'), 'cannot be read (Error: tired)'],
    ['tired', 'cannot be read (tired)'],
  ])('that breaks off cannot be read: %s', async (error, message) => {
    const next = () => Promise.reject(error as Error);
    const broken: AsyncIterable<Uint8Array> = { [Symbol.asyncIterator]: () => ({ next }) };
    expect(await readTextStream(broken)).toEqual({ ok: false, why: 'unreadable', message });
  });
});
