/*
 * A display that is not there, for a browser that draws as on a desk: headless ones draw no faster than they are asked.
 */

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';

/** The server picks a number that is free, and says it. */
export async function virtualScreen(): Promise<{ readonly child: ChildProcess; readonly display: string }> {
  const child = spawn('Xvfb', ['-displayfd', '3', '-screen', '0', '1920x1080x24', '-nolisten', 'tcp'], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  });
  const [number] = (await once(child.stdio[3]!, 'data')) as [Buffer];
  return { child, display: `:${number.toString().trim()}` };
}
