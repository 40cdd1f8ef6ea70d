/*
 * Runs the lanecall command in the test's own process, with its streams in memory.
 */

import { Writable } from 'node:stream';
import { run } from '../../../app/cli/main.ts';

export interface Outcome {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** `cwd` is where relative paths begin; `stdin` is what standard input holds. */
export async function lanecall(
  argv: readonly string[],
  cwd: string,
  stdin: string | Uint8Array = '',
): Promise<Outcome> {
  const out = new Memory();
  const err = new Memory();
  async function* input(): AsyncGenerator<Uint8Array> {
    yield Buffer.from(stdin);
  }
  const status = await run(argv, { stdin: input(), stdout: out, stderr: err, cwd });
  return { status, stdout: out.text(), stderr: err.text() };
}

class Memory extends Writable {
  private readonly chunks: Buffer[] = [];

  override _write(chunk: Buffer, _encoding: string, done: () => void): void {
    this.chunks.push(chunk);
    done();
  }

  text(): string {
    return Buffer.concat(this.chunks).toString('utf8');
  }
}
