// The rep that left last, swum again.

import { expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

/** Lines 3 and 4 are the sets; started at 0, so T0 is 0:10. */
const SETS = 'lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00';

const started = (text = SETS): Deck => new Deck(text).at(0, { do: 'start' });

it('[repeat] the last rep is swum again in the place of the next, which moves on by its interval', () => {
  const deck = started().at(20, { do: 'repeat', lanes: [1] });
  expect(deck.reps(1, 260)).toEqual(['3.1 at 10', '3.1 at 70', '3.2 at 130', '3.3 at 190', '3.4 at 250']);
  expect(deck.state.lanes[0]!.end).toBe((10 + 5 * 60 + 240) * 1000);
});

it('[repeat] with nothing pending it goes at the later of the end and the lead, on a round reading', () => {
  const text = 'lane 1\nlane 2\n2/4 x 50 @ 1:02';
  expect(
    started(text)
      .at(80, { do: 'repeat', lanes: [1] })
      .leaves(1),
  ).toEqual([10, 72, 134]);
  const late = started(text).at(130, { do: 'repeat', lanes: [1] });
  expect(late.leaves(1)).toEqual([10, 72, 140]);
  expect(late.state.lanes[0]!.end).toBe(202_000);
});

it('[repeat] of a timed block is swum again without what the block has left over', () => {
  const deck = started('4:30 of 50s @ 2:00\n50 @ 1:00').at(131, { do: 'repeat' });
  expect(deck.reps(1)).toEqual(['1.1 at 10', '1.2 at 130', '1.2 at 280', '2.1 at 400']);
  const last = started('One\n4:30 of 50s @ 2:00').at(131, { do: 'repeat' });
  expect(last.reps(1)).toEqual(['2.1 at 10', '2.2 at 130', '2.2 at 280']);
  expect(last.at(282, { do: 'repeat' }).state.lanes[0]!.end).toBe(520_000);
});

it('[repeat] only lanes that have left a rep since they began to take part, and in a stretch that is going', () => {
  expect(started().refusal(5, { do: 'repeat' })).toBe(
    'No lane has left yet in this stretch: there is no rep to repeat.',
  );
  const talk = started('50 @ 1:00\ntalk 1:00\n50 @ 1:00');
  expect(talk.refusal(80, { do: 'repeat' })).toBe('No lane has left yet in this stretch: there is no rep to repeat.');
});
