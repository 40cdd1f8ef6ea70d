/*
 * Where a command reads and writes. It is passed in, so that tests can run commands in their own process.
 */

import { resolve } from 'node:path';

export interface Io {
  readonly stdin: AsyncIterable<Uint8Array | string>;
  readonly stdout: NodeJS.WritableStream;
  readonly stderr: NodeJS.WritableStream;
  /** The folder that relative paths start from. */
  readonly cwd: string;
}

/** Exit statuses that scripts rely on. */
export const EXIT = { done: 0, failed: 1, faults: 2, usage: 64, noInput: 66 } as const;

export function pathFrom(io: Io, path: string): string {
  return resolve(io.cwd, path);
}

/** Resolves when the text is written. A reader that has gone (a closed pipe) is not a failure; any other error rejects. */
export function write(stream: NodeJS.WritableStream, text: string): Promise<void> {
  return new Promise((fulfil, reject) => {
    const done = (error?: Error | null): void => {
      // After a failure the listener stays: the stream reports the same error again as an event.
      if (!error) stream.removeListener('error', done);
      if (error && !isClosedPipe(error)) reject(error);
      else fulfil();
    };
    stream.on('error', done);
    stream.write(text, done);
  });
}

/** Writes one line to standard error. */
export function complain(io: Io, line: string): Promise<void> {
  return write(io.stderr, `${line}\n`);
}

function isClosedPipe(error: Error): boolean {
  return (
    'code' in error && ['EPIPE', 'ERR_STREAM_DESTROYED', 'ERR_STREAM_WRITE_AFTER_END'].includes(String(error.code))
  );
}
