/* What a screen that anybody may open is given of the run. */

import { expect, test } from 'vitest';
import { publicSnapshot, publicText } from '../../../../app/host/deck/telling/public-copy.ts';
import { textHash } from '../../../../app/host/deck/text-hash.ts';
import type { Snapshot } from '../../../../app/wire/messages.ts';

const SNAPSHOT: Snapshot = {
  say: 'snapshot',
  version: 1,
  n: 3,
  epoch: 'epoch',
  poolClock: 5,
  run: {
    id: 'run-1',
    text: 'aaaa',
    openedAt: 1000,
    clockPhase: 0,
    openedAtTimeOfDay: 0,
    commands: [
      { at: 0, command: { do: 'start' }, by: 'Ana’s phone' },
      { at: 10, command: { do: 'mark', words: 'Ana hurt' } },
      { at: 20, command: { do: 'rewrite', textHash: 'bbbb' } },
    ],
  },
  notices: ['The disk is full.'],
  startUp: { run: null, unattended: ['Harbour squad'] },
};

const hashOf = (hash: string): string => `public ${hash}`;

test('[public copy] the session has no names, as many lines as before, and a hash of its own', () => {
  const whole = { text: 'lane 1 Ana, Ben\n4 x 50 @ 1:00 Ben leads', lanesText: 'lane 2 Zora' };
  const bare = { text: 'lane 1 2 swimmers\n4 x 50 @ 1:00 somebody leads', lanesText: 'lane 2 1 swimmer' };
  expect(publicText({ say: 'text', hash: 'aaaa', ...whole })).toEqual({ say: 'text', hash: textHash(bare), ...bare });
});

test('[public copy] the run has no marks and names the public texts; the coach’s notices are left out', () => {
  expect(publicSnapshot(SNAPSHOT, hashOf)).toEqual({
    ...SNAPSHOT,
    run: {
      ...SNAPSHOT.run,
      text: 'public aaaa',
      commands: [
        { at: 0, command: { do: 'start' } },
        { at: 20, command: { do: 'rewrite', textHash: 'public bbbb' } },
      ],
    },
    notices: [],
    startUp: null,
  });
});

test('[public copy] without a run the notices are left out too, and the pool’s clock stays', () => {
  const idle = { ...SNAPSHOT, run: null };
  expect(publicSnapshot(idle, hashOf)).toEqual({ ...idle, notices: [], startUp: null });
});
