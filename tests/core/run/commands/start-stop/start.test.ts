// The coach's word: what waits begins, a countdown is cut short, or the next stretch is begun by hand.

import { describe, expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

const PARTS = 'Test\nOne\n2 x 50 @ 1:00\nTwo\n2 x 50 @ 1:00\nbreak 0:30\n2 x 50 @ 1:00\nThree\n50 @ 1:00';
/** One ends at 1:10, its break begins by itself at 2:10. */
const BREAK_AHEAD = 'between auto 1:00\nOne\n50 @ 1:00\nTwo\nbreak 1:00\n50 @ 1:00';
const ALL_STOPPED = 'All lanes are stopped: use Resume or Move on.';

describe('[start a] what waits begins', () => {
  it('a talk or break at once, a swim on a round reading the lead away', () => {
    const deck = new Deck('break 1:00\n50 @ 1:00').at(3, { do: 'start' });
    expect(deck.state).toMatchObject({ phase: 'going', t0: 3000, pauseEnd: 63_000 });
    expect(deck.leaves(1)).toEqual([65]);
    expect(new Deck('50 @ 1:00').at(3, { do: 'start' }).leaves(1)).toEqual([15]);
  });

  it('a second one within three seconds is a bounce', () => {
    const deck = new Deck(PARTS).at(0, { do: 'start' });
    expect(deck.refusal(2.999, { do: 'start' })).toBe('Start was given less than 3 s ago: press it again in a moment.');
    expect(deck.refusal(3, { do: 'start' })).not.toMatch(/less than 3 s ago/);
  });
});

describe('[start b] during a countdown', () => {
  it('with all lanes stopped nothing counts down, and it says so', () => {
    const deck = new Deck('4 x 50 @ 1:00').at(0, { do: 'start' });
    expect(deck.view(4).clock.startsIn).toBe(6000);
    deck.at(4, { do: 'stop' });
    expect(deck.view(4).clock.startsIn).toBeNull();
    expect(deck.refusal(7, { do: 'start' })).toBe(ALL_STOPPED);
    deck.at(8, { do: 'resume' });
    expect(deck.leaves(1, 25)).toEqual([20]);
  });

  it('with some lanes stopped, or none to stop, it says what is so', () => {
    const sentence = (stopped: readonly number[]) =>
      new Deck('lane 1\nlane 2\nlane 3\n2/2/0 x 50 @ 1:00')
        .at(0, { do: 'start' })
        .at(2, { do: 'stop', lanes: stopped })
        .refusal(5, { do: 'start' });
    expect(sentence([1])).toBe('The start cannot come any sooner: every lane gets 10 s of warning.');
    expect(sentence([1, 2])).toBe(ALL_STOPPED);
  });

  it('it brings the start forward, and every leave and end with it', () => {
    const deck = new Deck('start on 60\n50 @ 1:00').at(1, { do: 'start' });
    expect(deck.leaves(1)).toEqual([60]);
    expect(deck.refusal(30, { do: 'start' })).toBe(
      'The start cannot come any sooner: every lane gets 10 s of warning.',
    );
    const auto = new Deck('between auto 2:00\nOne\n50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'start' });
    expect(auto.at(81, { do: 'start' }).leaves(1)).toEqual([10, 95]);
    expect(auto.settled(Infinity).doneAt).toBe(155_000);
  });

  it('a talk or break comes forward to the time of the word, with its end', () => {
    const deck = new Deck(BREAK_AHEAD).at(0, { do: 'start' }).at(81, { do: 'start' });
    expect(deck.state).toMatchObject({ t0: 81_000, pauseEnd: 141_000 });
    expect(deck.leaves(1)).toEqual([10, 145]);
  });
});

describe('[start c] the next stretch begins by hand', () => {
  it('where nobody is still to leave, or only stopped lanes are', () => {
    const deck = new Deck('lane 1\nlane 2\nOne\n1/3 x 50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'start' });
    expect(deck.refusal(30, { do: 'start' })).toBe('Lanes are still going: use Stop or Move on first.');
    deck.at(30, { do: 'stop' }).at(41, { do: 'start' });
    expect(deck.leaves(1)).toEqual([10, 55]);
    expect(deck.leaves(2)).toEqual([10, 55]);
    const allStopped = new Deck(PARTS).at(0, { do: 'start' }).at(15, { do: 'stop' });
    expect(allStopped.refusal(20, { do: 'start' })).toBe(ALL_STOPPED);
  });

  it('not where all that is pending is stopped and the others have not swum here', () => {
    const deck = new Deck('lane 1\nlane 2\nOne\n2/0 x 50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'start' });
    expect(deck.at(20, { do: 'stop' }).refusal(30, { do: 'start' })).toBe(ALL_STOPPED);
  });

  it('where nothing is pending, be it that nobody has left here', () => {
    const deck = new Deck('One\n50 @ 1:00\nTwo\n100 @ 2:00').at(0, { do: 'start' }).at(5, { do: 'sit-out' });
    expect(deck.at(15, { do: 'start' }).leaves(1)).toEqual([25]);
  });

  it('at the very T0 of a break, which has begun then', () => {
    const deck = new Deck('One\n50 @ 1:00\nbreak 1:00\n50 @ 1:00').at(0, { do: 'start' });
    expect(deck.at(70, { do: 'start' }).leaves(1)).toEqual([10, 80]);
  });

  it('with nothing to follow it says what to use', () => {
    const last = new Deck('50 @ 1:00').at(0, { do: 'start' });
    expect(last.refusal(30, { do: 'start' })).toBe('This is the last stretch: use Finish to end the session.');
    const second = new Deck('between auto 0:00\nOne\n50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'start' });
    expect(second.refusal(80, { do: 'start' })).toBe('This is the last stretch: use Finish to end the session.');
  });
});
