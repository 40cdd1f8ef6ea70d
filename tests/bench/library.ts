/*
 * How long the library takes among a thousand sessions, on a real folder: the first list after a start, which reads all of
 * them, and a list or a search then. Both beside what other programs change meanwhile.
 */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { systemDisk } from '../../app/host/journal/disk.ts';
import { Library } from '../../app/host/library/library.ts';
import { row, type Row } from './table.ts';
import { FINDS, SESSIONS, thousandSessions, writeSession } from './thousand-sessions.ts';

const LOOKS = 200;

export async function benchLibrary(): Promise<readonly Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'lanecall-bench-'));
  try {
    thousandSessions(folder);
    const library = new Library({ disk: systemDisk, folder, wall: () => Date.now() });
    const first = await timeOf(() => find(library, ''));
    const lists = await times(() => find(library, ''));
    const searches = await times((n) => find(library, FINDS[n % FINDS.length]!));
    const changed = await times(
      (n) => {
        return find(library, FINDS[n % FINDS.length]!);
      },
      async (n) => {
        writeSession(folder, n, n + 1);
        // Until the system has told of it.
        await new Promise((done) => setTimeout(done, 5));
      },
    );
    return [
      row(`${SESSIONS} sessions, first list`, `${first.toFixed(0)} ms`),
      row(`${SESSIONS} sessions, list`, spread(lists)),
      row(`${SESSIONS} sessions, search`, spread(searches)),
      row(`${SESSIONS} sessions, search after a change`, spread(changed)),
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function find(library: Library, words: string): Promise<void> {
  const answer = await library.ask<'list'>({ do: 'list', find: words, most: 60 });
  if (!answer.ok) throw new Error(answer.why);
}

async function times(
  call: (n: number) => Promise<void>,
  before: (n: number) => Promise<void> = () => Promise.resolve(),
): Promise<readonly number[]> {
  const taken: number[] = [];
  for (let n = 0; n < LOOKS; n++) {
    await before(n);
    taken.push(await timeOf(() => call(n)));
  }
  return taken.sort((a, b) => a - b);
}

async function timeOf(call: () => Promise<void>): Promise<number> {
  const begun = performance.now();
  await call();
  return performance.now() - begun;
}

function spread(sorted: readonly number[]): string {
  const at = (share: number): string => sorted[Math.floor(share * (sorted.length - 1))]!.toFixed(1);
  return `${at(0.5)} ms, ${at(0.99)} ms at 99 %, ${at(1)} ms at worst`;
}
