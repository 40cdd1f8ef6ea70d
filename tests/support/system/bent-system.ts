/*
 * A system that answers otherwise than this machine's: another platform, or calls of Node's that fail. What was bent
 * is straight again after the test.
 */

import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { onTestFinished } from 'vitest';

/** A failure as the system names it. */
export function failure(code: string): Error {
  return Object.assign(new Error(code), { code });
}

export function onPlatform(platform: NodeJS.Platform): void {
  const own = Object.getOwnPropertyDescriptor(process, 'platform')!;
  Object.defineProperty(process, 'platform', { ...own, value: platform });
  onTestFinished(() => void Object.defineProperty(process, 'platform', own));
}

type Call =
  | 'fdatasyncSync'
  | 'linkSync'
  | 'openSync'
  | 'readFileSync'
  | 'readlinkSync'
  | 'renameSync'
  | 'rmSync'
  | 'statSync'
  | 'writeFileSync'
  | 'writeSync';

/** Puts another in the place of a call to the disk; it gets the real one first. */
export function bend<Name extends Call>(
  name: Name,
  bent: (real: (typeof fs)[Name], ...args: Parameters<(typeof fs)[Name]>) => unknown,
): void {
  bendIn(fs, name, bent);
}

/** The same for a call that answers with a promise. */
export function bendPromised<Name extends 'link' | 'open'>(
  name: Name,
  bent: (
    real: (typeof fs.promises)[Name],
    ...args: Parameters<(typeof fs.promises)[Name]>
  ) => ReturnType<(typeof fs.promises)[Name]>,
): void {
  bendIn(fs.promises, name, bent);
}

function bendIn<Args extends unknown[]>(
  calls: object,
  name: string,
  bent: (real: never, ...args: Args) => unknown,
): void {
  const real = Reflect.get(calls, name) as never;
  const put = (call: unknown): void => {
    Object.assign(calls, { [name]: call });
    syncBuiltinESMExports();
  };
  put((...args: Args) => bent(real, ...args));
  onTestFinished(() => put(real));
}
