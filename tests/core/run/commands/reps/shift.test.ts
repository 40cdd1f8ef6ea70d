// Leaves, or the end of a talk or break, later or sooner.

import { describe, expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

/** Lines 3 and 4 are the sets; started at 0, so T0 is 0:10. */
const SETS = 'lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00';

const started = (text = SETS): Deck => new Deck(text).at(0, { do: 'start' });

describe('in a swim', () => {
  it('[shift] pending leaves and the end move; too soon is refused whole', () => {
    const deck = started().at(20, { do: 'shift', seconds: 5 });
    expect(deck.leaves(1, 140)).toEqual([10, 75, 135]);
    expect(deck.refusal(61, { do: 'shift', seconds: -5 })).toMatch(/Too soon: lane 1/);
    expect(deck.at(60, { do: 'shift', seconds: -5, lanes: [1] }).leaves(1, 140)).toEqual([10, 70, 130]);
  });

  it('[shift] a stopped lane moves without a warning to give', () => {
    const deck = started().at(20, { do: 'stop' }).at(65, { do: 'shift', seconds: -5 });
    expect(deck.at(66, { do: 'resume' }).leaves(1, 90)).toEqual([10, 80]);
  });
});

describe('in a talk or break', () => {
  /** The first part ends at 1:10, the break is 2:10 to 3:10. */
  const ahead = () => started('between auto 1:00\nOne\n50 @ 1:00\nTwo\nbreak 1:00\n50 @ 1:00');

  it('[shift] its end moves for everyone, before its T0 the beginning too', () => {
    const deck = ahead();
    expect(deck.at(80, { do: 'shift', seconds: 10 }).view(90).clock.t0).toBe(140_000);
    expect(deck.refusal(150, { do: 'shift', seconds: -50 })).toBe(
      'The break would already be over: use Start or Move on.',
    );
    expect(deck.at(150, { do: 'shift', seconds: -20 }).leaves(1)).toEqual([10, 180]);
  });

  it('[shift] once it has begun, its beginning stays', () => {
    const deck = ahead().at(131, { do: 'shift', seconds: 10 });
    expect(deck.state).toMatchObject({ t0: 130_000, pauseEnd: 200_000 });
    expect(ahead().at(130, { do: 'shift', seconds: 10 }).state).toMatchObject({ t0: 130_000, pauseEnd: 200_000 });
  });

  it('[shift] refused where it would have begun already, or would be over', () => {
    expect(ahead().refusal(121, { do: 'shift', seconds: -10 })).toBe('The break would already have begun: use Start.');
    expect(ahead().at(120, { do: 'shift', seconds: -10 }).state).toMatchObject({ t0: 120_000, pauseEnd: 180_000 });
    expect(ahead().refusal(140, { do: 'shift', seconds: -50 })).toMatch(/would already be over/);
    expect(ahead().at(139.999, { do: 'shift', seconds: -50 }).state.pauseEnd).toBe(140_000);
  });

  it('[shift] lanes that are named must exist and be in', () => {
    expect(ahead().refusal(80, { do: 'shift', seconds: 5, lanes: [9] })).toBe('There is no lane 9.');
  });
});
