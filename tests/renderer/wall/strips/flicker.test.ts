/*
 * An hour of ten lanes with tenths in their intervals and stops at odd moments: over the whole screen the looks of the
 * strips change at most three times in any second.
 */

import { expect, test } from 'vitest';
import type { Command } from '../../../../app/core/run/command/command.ts';
import { LEAD } from '../../../../app/core/run/align.ts';
import { view, type RunView } from '../../../../app/core/run/view.ts';
import { stripFace } from '../../../../renderer/wall/says/face.ts';
import type { LaneFace } from '../../../../renderer/wall/strips/lane-face.ts';
import { createLights, type Looks } from '../../../../renderer/wall/strips/light.ts';
import { Deck } from '../../../support/run/deck.ts';
import { seeded } from '../seeded.ts';

const LANES = Array.from({ length: 10 }, (_, lane) => lane + 1);

const SESSION = `${LANES.map((lane) => `lane ${lane} ${1 + (lane % 6)} swimmers`).join('\n')}
Main set
120 x 50 free @ ${LANES.map((lane) => `0:3${lane % 10}.${(lane * 7) % 10}`).join('/')}
`;

/** In ms: the screen looks more often. */
const STEP = 100;

test('[flicker] an hour of ten lanes, tenths in their intervals, stops at odd moments: three changes a second at most', () => {
  const random = seeded(7);
  const deck = new Deck(SESSION).at(0, { do: 'start' });
  const lights = createLights<LaneFace['state']>('leaving');
  const changes: number[] = [];
  let before = '';
  let actsAt = 60_000;
  let stopped: readonly number[] = [];
  let due: Looks<LaneFace['state']> = new Map();
  let dueUntil = 0;
  for (let t = 0; t <= 3_600_000; t += STEP) {
    if (t >= actsAt) {
      const lanes = LANES.filter(() => random() < 0.3);
      const command: Command = stopped.length > 0 ? { do: 'resume', lanes: stopped } : { do: 'stop', lanes };
      if (stopped.length > 0 || lanes.length > 0) {
        try {
          deck.at(t / 1000, command);
          stopped = stopped.length > 0 ? [] : lanes;
          dueUntil = t;
        } catch {
          // A lane that cannot be stopped or resumed now is tried again.
        }
      }
      actsAt = t + 3000 + Math.floor(random() * 40_000);
    }
    if (t >= dueUntil) {
      const now = view(deck.state, t);
      due = looksOf(now);
      dueUntil = looksUntil(now);
    }
    const looks = Array.from(lights.at(t, due).values()).join(' ');
    if (looks !== before && before !== '') changes.push(t);
    before = looks;
  }
  expect(changes.length).toBeGreaterThan(1000);
  changes.forEach((at, index) => expect(changes[index + 3] ?? Infinity).toBeGreaterThanOrEqual(at + 1000));
});

test('[flicker] between the moments that are looked at here no lane changes its look', () => {
  const deck = new Deck(SESSION).at(0, { do: 'start' }).at(70, { do: 'stop', lanes: [2, 5] });
  for (let t = 60_000, until = t, due = ''; t < 120_000; t += STEP) {
    const now = view(deck.state, t);
    const looks = Array.from(looksOf(now)).join(' ');
    if (t < until) expect(looks).toBe(due);
    else [due, until] = [looks, looksUntil(now)];
  }
});

function looksOf(now: RunView): Looks<LaneFace['state']> {
  return new Map(
    now.lanes.map((lane, index) => [lane.number, stripFace(now, lane, index, 'stretch', -Infinity).state]),
  );
}

/** When the first of the lanes gets ready, leaves or is dark again, or its last swimmer is in. */
function looksUntil({ t, lanes }: RunView): number {
  const moments = lanes.flatMap(({ next, last, end }) => [
    (next?.at ?? Infinity) - LEAD,
    next?.at ?? Infinity,
    (last?.at ?? -Infinity) + LIGHT,
    end,
  ]);
  return Math.min(...moments.filter((at) => at > t));
}

/** For so long a strip is light. */
const LIGHT = 2000;
