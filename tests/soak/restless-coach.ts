/*
 * A coach who never leaves a squad alone: the session for it, and what is commanded next, by chance with a seed.
 */

import type { Command } from '../../app/core/run/command/command.ts';
import type { RunView } from '../../app/core/run/view.ts';

const LANES = 6;

/** Long enough for so many minutes, whatever is skipped: each part takes several, and goes over to the next by itself. */
export function restlessSession(minutes: number): string {
  const squad = Array.from({ length: LANES }, (_, index) => `lane ${index + 1}, ${1 + (index % 4)} swimmers`);
  const parts = Array.from({ length: Math.ceil(minutes) + 2 }, (_, index) => [
    `Part ${index + 1}`,
    '24 x 25 free @ 0:07/0:08/0:09/0:07/0:08/0:10',
    '2 rounds',
    '  6 x 25 fast @ 0:06/0:06/0:06/0:08/0:08/0:08',
  ]);
  return ['Soak', 'start on 1', 'between auto 0:10', ...squad, ...parts.flat()].join('\n');
}

/** The next command, and for how long to wait before it, in ms. */
export function nextMove(view: RunView, random: () => number): { readonly command: Command; readonly pause: number } {
  const pause = 1500 + random() * 3500;
  if (view.phase === 'waiting') return { command: { do: 'start' }, pause };
  const stopped = view.lanes.filter(({ state }) => state === 'stopped').map(({ number }) => number);
  // What is to begin by itself waits until nothing has been commanded for a while; a mark is no command in this.
  if (view.lanes.every(({ pending }) => !pending)) return { command: { do: 'mark' }, pause };
  // Lanes that are stopped do not stay so: leaves are what is measured.
  if (stopped.length > 0 && (stopped.length > 2 || random() < 0.7)) {
    return { command: random() < 0.7 ? { do: 'resume' } : { do: 'rejoin', lanes: [stopped[0]!] }, pause };
  }
  const lanes = [...new Set([laneBy(random), laneBy(random)])].sort((a, b) => a - b);
  const one = lanes.slice(0, 1);
  const moves: readonly Command[] = [
    { do: 'skip', lanes: one },
    { do: 'sit-out', lanes: one },
    { do: 'repeat', lanes: one },
    { do: 'shift', lanes: one, seconds: 5 },
    { do: 'shift', lanes, seconds: -5 },
    // As often shorter as longer, or nobody would leave any more in the end.
    { do: 'interval', lanes: one, seconds: random() < 0.5 ? 5 : -5 },
    { do: 'swimmers', lanes: one, n: 1 + Math.floor(random() * 5) },
    { do: 'mark', words: 'watched' },
    { do: 'stop', lanes },
    { do: 'stop', lanes: one },
  ];
  const command: Command = random() < 0.03 ? { do: 'stop' } : moves[Math.floor(random() * moves.length)]!;
  return { command, pause };
}

function laneBy(random: () => number): number {
  return 1 + Math.floor(random() * LANES);
}
