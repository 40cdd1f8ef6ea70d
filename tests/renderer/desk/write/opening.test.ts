/*
 * What comes back from opening a session, and what of a file can be read.
 */

import { expect, test } from 'vitest';
import { readAnswer } from '../../../../renderer/desk/write/file/open-session.ts';
import { readSessionFile } from '../../../../renderer/desk/write/file/session-file.ts';

test('the host’s answers to a session: opened, faults with their place, a run that is going, anything else', () => {
  expect(readAnswer(200, '{"ok":true,"run":"r"}')).toEqual({ kind: 'opened', run: 'r' });
  const fault = { line: 3, column: 5, message: 'what?' };
  expect(readAnswer(400, JSON.stringify({ errors: [fault], in: 'lanes' }))).toEqual({
    kind: 'faults',
    in: 'lanes',
    faults: [fault],
  });
  expect(readAnswer(409, '{"ok":false,"why":"A run is going."}')).toEqual({ kind: 'going', why: 'A run is going.' });
  expect(readAnswer(413, '{"ok":false,"why":"Too long."}')).toEqual({ kind: 'failed', why: 'Too long.' });
  expect(readAnswer(502, '<html>')).toEqual({ kind: 'failed', why: 'The program refused it (502).' });
});

test('a file is read as UTF-8 or refused with a reason', async () => {
  const file = (bytes: Uint8Array, size = bytes.length) => ({
    name: 'thursday.txt',
    size,
    arrayBuffer: () => Promise.resolve(new Uint8Array(bytes).buffer),
  });
  expect(await readSessionFile(file(new TextEncoder().encode('4 × 50')))).toEqual({ ok: true, text: '4 × 50' });
  expect(await readSessionFile(file(new TextEncoder().encode(' \n')))).toMatchObject({
    ok: false,
    why: expect.stringMatching(/is empty/) as string,
  });
  expect(await readSessionFile(file(new Uint8Array([0xff, 0xfe, 0x41])))).toMatchObject({
    ok: false,
    why: expect.stringMatching(/UTF-8/) as string,
  });
  expect(await readSessionFile(file(new Uint8Array([65]), 256 * 1024 + 1))).toMatchObject({
    ok: false,
    why: expect.stringMatching(/256 KiB/) as string,
  });
});
