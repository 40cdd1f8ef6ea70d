/*
 * A built program, serving a data folder until it is stopped.
 */

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';

export interface Served {
  readonly origin: string;
  stop(): void;
}

export async function serve(dist: string, data: string): Promise<Served> {
  const args = [join(dist, 'lanecall.mjs'), 'serve', '--port', '0', '--data', data];
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] });
  const [line] = (await once(child.stdout, 'data')) as [Buffer];
  return { origin: /http:\/\/127\.0\.0\.1:\d+/.exec(line.toString())![0], stop: () => child.kill('SIGKILL') };
}
