/*
 * An hour of ten lanes with tenths in their intervals and stops at odd moments: over the whole screen the looks of the
 * strips change at most three times in any second.
 */

import { expect, test } from 'vitest';
import type { Command } from '../../../../app/core/run/command/command.ts';
import { view } from '../../../../app/core/run/view.ts';
import { stripFace } from '../../../../renderer/wall/says/face.ts';
import type { LaneFace } from '../../../../renderer/wall/strips/lane-face.ts';
import { createLights } from '../../../../renderer/wall/strips/light.ts';
import { Deck } from '../../../support/run/deck.ts';
import { seeded } from '../seeded.ts';

const LANES = Array.from({ length: 10 }, (_, lane) => lane + 1);

const SESSION = `${LANES.map((lane) => `lane ${lane} ${1 + (lane % 6)} swimmers`).join('\n')}
Main set
120 x 50 free @ ${LANES.map((lane) => `0:3${lane % 10}.${(lane * 7) % 10}`).join('/')}
`;

/** In ms. What changes is what is due; the screen draws far more often. */
const STEP = 100;

test('[flicker] an hour of ten lanes, tenths in their intervals, stops at odd moments: three changes a second at most', () => {
  const random = seeded(7);
  const deck = new Deck(SESSION).at(0, { do: 'start' });
  const lights = createLights<LaneFace['state']>('leaving');
  const changes: number[] = [];
  let before = '';
  let actsAt = 60_000;
  let stopped: readonly number[] = [];
  for (let t = 0; t <= 3_600_000; t += STEP) {
    if (t >= actsAt) {
      const lanes = LANES.filter(() => random() < 0.3);
      const command: Command = stopped.length > 0 ? { do: 'resume', lanes: stopped } : { do: 'stop', lanes };
      if (stopped.length > 0 || lanes.length > 0) {
        try {
          deck.at(t / 1000, command);
          stopped = stopped.length > 0 ? [] : lanes;
        } catch {
          // A lane that cannot be stopped or resumed now is tried again.
        }
      }
      actsAt = t + 3000 + Math.floor(random() * 40_000);
    }
    const now = view(deck.state, t);
    const due = now.lanes.map((lane, index) => stripFace(now, lane, index, 'stretch', -Infinity));
    const shown = lights.at(t, new Map(due.map(({ number, state }) => [number, state])));
    const looks = Array.from(shown.values()).join(' ');
    if (looks !== before && before !== '') changes.push(t);
    before = looks;
  }
  expect(changes.length).toBeGreaterThan(1000);
  changes.forEach((at, index) => expect(changes[index + 3] ?? Infinity).toBeGreaterThanOrEqual(at + 1000));
});
