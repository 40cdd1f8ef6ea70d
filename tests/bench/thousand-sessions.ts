/*
 * A thousand sessions in a data folder, as coaches write them.
 */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const SESSIONS = 1000;

/** By name, day and words; some are in all, some in one, some in none. */
export const FINDS = [
  'session 77',
  '3 december 2026',
  'free',
  'paddles ladder',
  'thursday kick',
  'nothing of the kind',
];

/** `data`: a folder without a library. */
export function thousandSessions(data: string): void {
  mkdirSync(join(data, 'sessions'), { recursive: true });
  for (let n = 0; n < SESSIONS; n++) writeSession(data, n, n);
}

/** `like`: which session's text it has. */
export function writeSession(data: string, n: number, like: number): void {
  writeFileSync(join(data, 'sessions', `Session ${n}.txt`), textOf(like));
}

/** As long as a coach writes them. */
function textOf(n: number): string {
  const lanes = Array.from({ length: 6 }, (_, lane) => `lane ${lane + 1} css 1:${20 + lane}, 5 swimmers`).join('\n');
  const sets = Array.from(
    { length: 12 },
    (_, set) => `${2 + ((n + set) % 6)} x ${50 * (1 + (set % 3))} free @ base+${5 + set}`,
  );
  const day = `# for ${1 + (n % 28)} December 2026`;
  return `Harbour squad ${n}\n${day}\nstart 19:30\nfinish 20:30\n${lanes}\n\nWarm-up\n6:00 choice\n\nMain set ${n}\n${sets.join('\n')}\nnote: ${n % 3 === 0 ? 'kick' : 'paddles'}\n\nSwim-down\n200 easy\n`;
}
