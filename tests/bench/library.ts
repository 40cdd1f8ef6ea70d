/*
 * How long the library takes among a thousand sessions, on a real folder: the first list after a start, which reads all of
 * them, and a list or a search then. Both beside what other programs change meanwhile.
 */

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { systemDisk } from '../../app/host/journal/disk.ts';
import { Library } from '../../app/host/library/library.ts';
import { row, type Row } from './table.ts';

const SESSIONS = 1000;
const LOOKS = 200;

export async function benchLibrary(): Promise<readonly Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'lanecall-bench-'));
  try {
    fill(join(folder, 'sessions'));
    const library = new Library({ disk: systemDisk, folder, wall: () => Date.now() });
    const first = await timeOf(() => find(library, ''));
    const lists = await times(() => find(library, ''));
    const searches = await times((n) => find(library, FINDS[n % FINDS.length]!));
    const changed = await times(
      (n) => {
        return find(library, FINDS[n % FINDS.length]!);
      },
      async (n) => {
        writeFileSync(join(folder, 'sessions', `Session ${n}.txt`), textOf(n + 1));
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

/** By name, day and words; some are in all, some in one, some in none. */
const FINDS = ['session 77', '3 december 2026', 'free', 'paddles ladder', 'thursday kick', 'nothing of the kind'];

function fill(folder: string): void {
  mkdirSync(folder);
  for (let n = 0; n < SESSIONS; n++) writeFileSync(join(folder, `Session ${n}.txt`), textOf(n));
}

/** As long as a coach writes them. */
function textOf(n: number): string {
  const lanes = Array.from({ length: 6 }, (_, lane) => `lane ${lane + 1} css 1:${20 + lane}, 5 swimmers`).join('\n');
  const sets = Array.from(
    { length: 12 },
    (_, set) => `${2 + ((n + set) % 6)} x ${50 * (1 + (set % 3))} free @ base+${5 + set}`,
  );
  const day = `# for ${1 + (n % 28)} December 2026`;
  return `Harbour squad ${n}\n${day}\nstart 19:30\nfinish 20:30\n${lanes}\n\nWarm-up\n6:00 choice\n\nMain set ${n}\n${sets.join('\n')}\nnote: paddles\n\nSwim-down\n200 easy\n`;
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
