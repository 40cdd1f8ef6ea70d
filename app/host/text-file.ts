/*
 * Bytes to text, for the command line and the host: UTF-8 only, 256 KiB at most. Something wrong with the text is a
 * fault with its place; something wrong with the file is a sentence. Neither is thrown.
 */

import { open } from 'node:fs/promises';
import type { Fault, Result } from '../core/result.ts';

/** The largest text that is read, in bytes. */
export const MOST_BYTES = 256 * 1024;

export type TextRead =
  | { readonly ok: true; readonly text: string }
  /**
   * Read, but the text has a fault. `legible`: the text with U+FFFD for what is not UTF-8, so that the parser can find
   * the faults of the other lines too.
   */
  | { readonly ok: false; readonly why: 'fault'; readonly faults: readonly Fault[]; readonly legible?: string }
  /** Not read at all. The message says why, in a few words that follow the file's name. */
  | { readonly ok: false; readonly why: 'unreadable'; readonly message: string };

/** The text of a file. Never rejects: a file that does not exist or may not be read is `unreadable`. */
export async function readTextFile(path: string): Promise<TextRead> {
  try {
    const file = await open(path, 'r');
    try {
      return readBytes(await firstBytes(file));
    } finally {
      await file.close();
    }
  } catch (error) {
    return { ok: false, why: 'unreadable', message: reasonOf(error) };
  }
}

/** The text of a stream such as standard input, like `readTextFile`. Stops reading when it gets too long. */
export async function readTextStream(stream: AsyncIterable<Uint8Array | string>): Promise<TextRead> {
  const chunks: Buffer[] = [];
  let length = 0;
  try {
    for await (const chunk of stream) {
      const bytes = Buffer.from(chunk);
      chunks.push(bytes);
      length += bytes.length;
      if (length > MOST_BYTES) break;
    }
  } catch (error) {
    return { ok: false, why: 'unreadable', message: reasonOf(error) };
  }
  return readBytes(Buffer.concat(chunks));
}

/** The text in these bytes, a byte-order mark included, or one fault: too long, or the first byte that is not UTF-8. */
export function textOf(bytes: Uint8Array): Result<string> {
  if (bytes.length > MOST_BYTES) {
    return faultAt(
      1,
      1,
      `more than ${MOST_BYTES / 1024} KiB of text: no session is that long, so check that this is the right file`,
    );
  }
  const bad = firstBadByte(bytes);
  if (bad < 0) return { ok: true, value: decode(bytes) };
  const { line, column } = placeAfter(decode(bytes.subarray(0, bad)));
  const byte = bytes[bad]!.toString(16).toUpperCase();
  return faultAt(line, column, `the byte ${byte} is not UTF-8 text: save the file as UTF-8`);
}

function readBytes(bytes: Uint8Array): TextRead {
  const result = textOf(bytes);
  if (result.ok) return { ok: true, text: result.value };
  const fault = { ok: false, why: 'fault', faults: result.faults } as const;
  return bytes.length > MOST_BYTES ? fault : { ...fault, legible: decode(bytes) };
}

/** Reads at most one byte more than the limit, so that an endless file ends too. */
async function firstBytes(file: { read(buffer: Uint8Array, offset: number): Promise<{ bytesRead: number }> }) {
  const buffer = new Uint8Array(MOST_BYTES + 1);
  let length = 0;
  while (length < buffer.length) {
    const { bytesRead } = await file.read(buffer, length);
    if (bytesRead === 0) break;
    length += bytesRead;
  }
  return buffer.subarray(0, length);
}

function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
  if (code === 'ENOENT' || code === 'ENOTDIR') return 'there is no such file';
  if (code === 'EISDIR') return 'is a folder, not a file';
  if (code === 'EACCES' || code === 'EPERM') return 'may not be read';
  return `cannot be read (${code})`;
}

function faultAt(line: number, column: number, message: string): Result<string> {
  return { ok: false, faults: [{ line, column, message }] };
}

function decode(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
}

/** The line and column of the next character: a tab counts as 4 columns, a byte-order mark as none. */
function placeAfter(text: string): { line: number; column: number } {
  const lines = text.replace(/^\uFEFF/, '').split('\n');
  let column = 1;
  for (const character of lines[lines.length - 1]!) column += character === '\t' ? 4 : 1;
  return { line: lines.length, column };
}

/** The index of the first byte that begins no well-formed sequence, or -1. Source: Unicode 15, table 3-7. */
function firstBadByte(bytes: Uint8Array): number {
  let at = 0;
  while (at < bytes.length) {
    const length = sequenceLength(bytes, at);
    if (length === 0) return at;
    at += length;
  }
  return -1;
}

/** How many bytes the character at `at` takes; 0 if there is no valid character. */
function sequenceLength(bytes: Uint8Array, at: number): number {
  const lead = bytes[at]!;
  if (lead < 0x80) return 1;
  const more = lead < 0xc2 ? 0 : lead < 0xe0 ? 1 : lead < 0xf0 ? 2 : lead < 0xf5 ? 3 : 0;
  if (more === 0) return 0;
  for (let index = 1; index <= more; index++) {
    const byte = bytes[at + index] ?? 0;
    const [low, high] = index === 1 ? secondByteRange(lead) : [0x80, 0xbf];
    if (byte < low || byte > high) return 0;
  }
  return more + 1;
}

/** The range is narrower after four lead bytes: no overlong forms, no surrogates, nothing above U+10FFFF. */
function secondByteRange(lead: number): readonly [number, number] {
  if (lead === 0xe0) return [0xa0, 0xbf];
  if (lead === 0xed) return [0x80, 0x9f];
  if (lead === 0xf0) return [0x90, 0xbf];
  if (lead === 0xf4) return [0x80, 0x8f];
  return [0x80, 0xbf];
}
