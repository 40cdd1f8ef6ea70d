/*
 * How much fitting the hour tries in a session of very many stretches.
 */

import { expect, it } from 'vitest';
import { singleCuts } from '../../../../app/core/run/hour/fit.ts';
import { Deck } from '../../../support/run/deck.ts';

it('tries fewer lines in a session of thousands of stretches', () => {
  const rounds = new Array<string>(3).fill('500 rounds\n  25 @ 0:10\n  break 0:01');
  const text = [...rounds, ...new Array<string>(9).fill('3 x 25 @ 0:10'), 'Swim-down', '25 @ 0:10'];
  expect(singleCuts(new Deck(text.join('\n')).state, -10_000)).toHaveLength(9);
});
