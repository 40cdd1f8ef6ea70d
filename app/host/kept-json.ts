/*
 * A file of the data folder that keeps something as JSON, with its version: read, and set aside where it is not ours.
 */

import { codeOf, diskReason, type Disk } from './journal/disk.ts';
import type { Guard } from './journal/run-file.ts';

/** What stands in the file. */
export type KeptJson<Value> =
  | { readonly kind: 'kept'; readonly value: Value }
  | { readonly kind: 'none' }
  /** Written by a newer program: it must not be touched. */
  | { readonly kind: 'newer' }
  | { readonly kind: 'unreadable'; readonly reason: string }
  | { readonly kind: 'not ours' };

export interface KeptForm<Value> {
  readonly version: number;
  /** Whatever is larger is not ours. */
  readonly mostBytes: number;
  /** null for what is none. */
  readonly read: (json: unknown) => Value | null;
}

/** Never rejects. */
export async function readKept<Value>(disk: Disk, path: string, form: KeptForm<Value>): Promise<KeptJson<Value>> {
  let bytes: Uint8Array;
  try {
    bytes = await disk.read(path);
  } catch (error) {
    return codeOf(error) === 'ENOENT' ? { kind: 'none' } : { kind: 'unreadable', reason: diskReason(error) };
  }
  const json = bytes.length > form.mostBytes ? null : jsonIn(bytes);
  const { version } = Object(json) as { readonly version?: unknown };
  if (Number.isSafeInteger(version) && Number(version) > form.version) return { kind: 'newer' };
  const value = form.read(json);
  return value === null ? { kind: 'not ours' } : { kind: 'kept', value };
}

/** Moves a file out of the way, and says where it is then. Rejects where the disk refuses. */
export async function setAside(disk: Disk, guard: Guard, path: string): Promise<string> {
  await guard.check();
  for (let n = 1; ; n++) {
    const aside = `${path}.aside-${n}`;
    if (await disk.exists(aside)) continue;
    await disk.move([{ from: path, to: aside }]);
    return aside;
  }
}

/** As people can read it. */
export function keptBytes(value: object): Uint8Array {
  return Buffer.from(`${JSON.stringify(value, null, 2)}\n`);
}

/** The value; null if the bytes are not JSON in UTF-8. */
export function jsonIn(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return null;
  }
}
