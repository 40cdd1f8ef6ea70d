/* Until when the wall says the same: what is drawn only then would be late if it changed before. */

import { describe, expect, test } from 'vitest';
import type { Command } from '../../../../app/core/run/command/command.ts';
import { view } from '../../../../app/core/run/view.ts';
import { lastAbandoned } from '../../../../renderer/ui/leaving.ts';
import { nextChange } from '../../../../renderer/wall/says/next-change.ts';
import { wallFace } from '../../../support/wall/wall-face.ts';
import { Deck } from '../../../support/run/deck.ts';
import { seeded } from '../seeded.ts';

/** A quarter past a second. */
const OPENED_AT = (19 * 60 + 30) * 60_000 + 250;

const SESSIONS = {
  'tenths in intervals': `start 19:30
finish 19:50
lane 1 5 swimmers
lane 2 3 swimmers, gap 7
lane 3
6 x 50 free @ 0:40.3/0:45.7/0:50
break 0:30.5 drink
4 x 25 fast @ 0:30.1 hold 0:20
`,
  'rests, talks and untimed sets': `start 19:30
finish 20:00
lane 1 css 1:20, 4 swimmers
lane 2 css 1:31, 6 swimmers
3 x 100 free rest 0:15
talk 0:40 breathe out
200 easy choice
2 rounds
  4 x 25 kick @ 0:35
`,
};

const COMMANDS: readonly Command[] = [
  { do: 'start' },
  { do: 'start' },
  { do: 'stop' },
  { do: 'resume' },
  { do: 'stop', lanes: [2] },
  { do: 'resume', lanes: [2] },
  { do: 'skip', lanes: [1] },
  { do: 'move-on' },
  { do: 'shift', seconds: 5 },
  { do: 'undo' },
];

describe('[on time] between two changes the wall says the same', () => {
  for (const [name, text] of Object.entries(SESSIONS)) {
    for (const clock of ['stretch', 'run', 'pool'] as const) {
      test(`${name}, by the clock of the ${clock}`, () => {
        const random = seeded(clock.length);
        let looks = 0;
        let wait = 0;
        for (let run = 0; run < 4; run++) {
          const deck = new Deck(text, 37);
          const given: { at: number; command: Command }[] = [];
          for (let t = 1 + Math.floor(random() * 900); t < 600_000; t += 400 + Math.floor(random() * 3000)) {
            if (random() < 0.06) {
              const command = COMMANDS[Math.floor(random() * COMMANDS.length)]!;
              try {
                deck.at(t / 1000, command);
                given.push({ at: t, command });
              } catch {
                // Not every command can be given at any time.
              }
            }
            const until = nextChange(view(deck.state, t), OPENED_AT, clock);
            const faceAt = (at: number): unknown =>
              wallFace(view(deck.state, at), OPENED_AT, clock, lastAbandoned(given));
            expect(until).toBeGreaterThan(t);
            looks++;
            wait += until - t;
            const before = faceAt(t);
            for (const at of [t + Math.floor(random() * (until - t)), until - 1]) {
              expect(faceAt(at), `${run}: ${t} to ${at} of ${until}`).toEqual(before);
            }
          }
        }
        // At most so often something is worked out where tenths of ten lanes meet.
        expect(wait / looks).toBeGreaterThan(60);
      });
    }
  }
});
