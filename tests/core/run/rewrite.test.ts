import { describe, expect, it } from 'vitest';
import { firstLineToCome, forgottenBetween } from '../../../app/core/run/rewrite.ts';
import { Deck } from '../../support/run/deck.ts';

/** Lines joined as a text. */
const text = (...lines: string[]) => lines.join('\n');
const rewrite = (...lines: string[]) => ({ do: 'rewrite', text: text(...lines) }) as const;

const MAIN = ['Main', '2 x 50 @ 1:00', '4 x 100 @ 2:00', 'Swim-down', '200 easy'];

describe('rewrite: which pieces stay', () => {
  it('[rewrite] the part that is going can be changed from the first piece on of which no rep has left', () => {
    const deck = new Deck(text(...MAIN)).at(0, { do: 'start' });
    deck.at(20, rewrite('Main', '2 x 50 @ 1:00', '2 x 75 @ 1:30', 'Swim-down', '200 easy'));
    expect(deck.reps(1)).toEqual(['2.1 at 10', '2.2 at 70', '3.1 at 130', '3.2 at 220']);
    expect(deck.refusal(80, rewrite('Main', '3 x 50 @ 1:00', '2 x 75 @ 1:30'))).toMatch(/Line 2 has begun/);
    expect(deck.refusal(140, rewrite('Main', '2 x 50 @ 1:00', '3 x 75 @ 1:30'))).toMatch(/Line 3 has begun/);
  });

  it('[rewrite] before the first leave of a stretch its first piece stays, before the start none but the settings', () => {
    const waiting = new Deck(text('Title', 'lane 1, 2 swimmers', ...MAIN));
    const other = rewrite('Title', 'lane 1, 2 swimmers', 'Other', '100 @ 2:00');
    expect(waiting.at(0, other).state.stretches[0]!.part).toBe('Other');
    for (const header of [['Title', 'lane 1, 3 swimmers'], ['Another', 'lane 1, 2 swimmers'], ['Title']]) {
      expect(waiting.refusal(1, rewrite(...header, 'Other', '100 @ 2:00'))).toMatch(/settings/);
    }
    const counting = new Deck(text(...MAIN)).at(0, { do: 'start' });
    expect(counting.refusal(5, rewrite('Main', '50 @ 1:00'))).toMatch(/Line 2 has begun/);
    expect(counting.at(5, rewrite('Main', '2 x 50 @ 1:00')).reps(1)).toEqual(['2.1 at 10', '2.2 at 70']);
  });

  it('[rewrite] what left before a restart has not begun', () => {
    const deck = new Deck(text(...MAIN)).at(0, { do: 'start' }).at(140, { do: 'restart' }).at(150, { do: 'start' });
    deck.at(170, rewrite('Main', '2 x 50 @ 1:00', '2 x 75 @ 1:30'));
    expect(deck.reps(1).slice(3)).toEqual(['2.1 at 160', '2.2 at 220', '3.1 at 280', '3.2 at 370']);
  });

  it('[rewrite] what left before T0, because leaves were moved forward in the countdown, has begun', () => {
    const lines = [
      'start on 60',
      'lane 1, 1 swimmer',
      'lane 2, 1 swimmer',
      'Main',
      '0/2 x 50 @ 1:00',
      '2/0 x 100 @ 2:00',
    ];
    const deck = new Deck(text(...lines)).at(0, { do: 'start' }).at(5, { do: 'shift', seconds: -10 });
    expect(deck.settled(55).lanes.map(({ leftHere }) => leftHere)).toEqual([true, true]);
    expect(deck.refusal(55, rewrite(...lines.slice(0, 5), '2/0 x 75 @ 1:30'))).toMatch(/Line 6 has begun/);
  });

  it('[rewrite] a rounds line is one piece with all that stands under it', () => {
    const deck = new Deck(text('Main', '3 rounds', '  50 @ 1:00', '  talk 1:00', '100 @ 2:00')).at(0, { do: 'start' });
    expect(deck.refusal(20, rewrite('Main', '3 rounds', '  50 @ 1:00', '  talk 0:30', '100 @ 2:00'))).toMatch(/Line 2/);
    expect(firstLineToCome(deck.settled(20))).toBe(5);
    deck.at(20, rewrite('Main', '3 rounds', '  50 @ 1:00', '  talk 1:00', 'Two', '100 @ 2:00'));
    expect(deck.state.stretches.map(({ kind, part }) => `${kind} ${part}`)).toEqual([
      ...new Array(3).fill(['swim Main', 'talk Main']).flat(),
      'swim Two',
    ]);
  });

  it('[rewrite] blank lines, comments and blanks at the end of a line count for nothing', () => {
    const deck = new Deck(text('Main', '50 @ 1:00', '', '100 @ 2:00')).at(0, { do: 'start' });
    deck.at(20, rewrite('Main   # noted', '50 @ 1:00  ', '# thirds', '100 @ 2:00 # hard'));
    expect(deck.state.stretches).toHaveLength(1);
    expect(deck.reps(1)).toEqual(['2.1 at 10', '4.1 at 70']);
    expect(deck.refusal(21, rewrite('Main', '', '50 @ 1:00', '', '100 @ 2:00'))).toMatch(/Line 2/);
  });

  it('[rewrite] waiting where a go-to said, what comes before that place stays', () => {
    const lines = ['Main', '2 x 50 @ 1:00', '2 x 100 @ 2:00', '2 x 75 @ 1:30'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 4, rep: 2 });
    expect(firstLineToCome(deck.state)).toBe(4);
    expect(deck.refusal(1, rewrite('Main', '2 x 50 @ 1:00', '2 x 100 @ 1:50', '2 x 75 @ 1:30'))).toMatch(/Line 3/);
    deck.at(1, rewrite('Main', '2 x 50 @ 1:00', '2 x 100 @ 2:00', '4 x 75 @ 1:40')).at(2, { do: 'start' });
    expect(deck.reps(1)).toEqual(['4.2 at 15', '4.3 at 115', '4.4 at 215']);
  });

  it('[rewrite] what a stretch before the current one holds stays, passed over or swum', () => {
    const deck = new Deck(text(...MAIN)).at(0, { do: 'move-on' });
    expect(deck.refusal(1, rewrite('Main', '2 x 50 @ 1:00', '4 x 100 @ 1:50', 'Down', '200 easy'))).toMatch(/Line 3/);
    expect(deck.at(1, rewrite(...MAIN.slice(0, 3), 'Down', '100 @ 2:00')).state.stretches[1]!.part).toBe('Down');
  });

  it('[rewrite] a lane that is out has left reps all the same', () => {
    const deck = new Deck(text('lane 1', 'lane 2', 'Main', '1/3 x 50 @ 1:00', '0/1 x 100 @ 2:00', '50 @ 5:00'));
    deck.at(0, { do: 'start' }).at(195, { do: 'lane-out', lanes: [2] });
    const other = ['lane 1', 'lane 2', 'Main', '1/3 x 50 @ 1:00', '0/1 x 100 @ 3:00', '50 @ 5:00'];
    expect(deck.refusal(200, rewrite(...other))).toMatch(/Line 5/);
  });

  it('[rewrite] a stretch that cuts have left empty does not open what came before it', () => {
    const lines = ['Main', '100 @ 2:00', '2 rounds', '  50 @ 1:00', '  talk 0:30', '25 @ 1:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 4, rounds: [2], rep: 1 }).at(1, { do: 'start' });
    deck.at(20, { do: 'cut', line: 3, n: 1 });
    expect(firstLineToCome(deck.settled(30))).toBe(6);
    deck.at(40, { do: 'move-on' });
    expect(deck.state).toMatchObject({ phase: 'waiting', index: 3 });
    expect(firstLineToCome(deck.state)).toBe(6);
    deck.at(41, rewrite(...lines.slice(0, 5), '75 @ 1:30'));
    expect(deck.state).toMatchObject({ phase: 'waiting', index: 3 });
    expect(deck.at(42, { do: 'start' }).reps(1).slice(-1)).toEqual(['6.1 at 55']);
  });

  it('[rewrite] of the stretches before, the last decides what may not be changed any more', () => {
    const lines = ['One', '50 @ 1:00', 'Two', '75 @ 1:00', 'Three', '100 @ 1:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'move-on' }).at(1, { do: 'move-on' });
    expect(firstLineToCome(deck.state)).toBe(5);
    expect(deck.refusal(2, rewrite(...lines.slice(0, 3), '25 @ 1:00', ...lines.slice(4)))).toMatch(/Line 4/);
  });

  it('[rewrite] a talk that goes on has begun, and once the run is done all has', () => {
    const deck = new Deck(text('Main', '50 @ 1:00', 'talk 1:00', '100 @ 2:00')).at(0, { do: 'start' });
    expect(deck.refusal(80, rewrite('Main', '50 @ 1:00', 'talk 0:30', '100 @ 2:00'))).toMatch(/Line 3 has begun/);
    expect(firstLineToCome(deck.at(80, { do: 'finish' }).state)).toBe(5);
  });

  it('[rewrite] during the countdown to a place, lines before it may still be changed', () => {
    const lines = ['T', 'Main', '2 x 50 @ 1:00', '2 x 75 @ 1:00', '3 x 100 @ 2:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 5, rep: 2 }).at(1, { do: 'start' });
    deck.at(2, rewrite(...lines.slice(0, 3), '25 @ 1:00', lines[4]!));
    expect(deck.reps(1)).toEqual(['5.2 at 15', '5.3 at 135']);
  });

  it('[rewrite] a text with a fault is refused with the fault', () => {
    expect(new Deck(text(...MAIN)).refusal(0, rewrite('Main', '4 x'))).toMatch(/fault in line 2/);
  });
});

describe('rewrite: what joins the stretch that is going', () => {
  it('[rewrite] what the text divides from it stands in a stretch of its own', () => {
    const deck = new Deck(text(...MAIN)).at(0, { do: 'start' });
    deck.at(20, rewrite('Main', '2 x 50 @ 1:00', 'break 0:30', '100 @ 2:00'));
    expect(deck.state.stretches.map(({ kind }) => kind)).toEqual(['swim', 'break', 'swim']);
    expect(deck.reps(1)).toEqual(['2.1 at 10', '2.2 at 70', '4.1 at 160']);
  });

  it('[rewrite] what a talk under way in a cut round divides from the rest stands behind it', () => {
    const lines = ['Main', '2 rounds', '  talk 0:30', '  50 @ 1:00', '100 @ 2:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'start' }).at(50, { do: 'start' });
    deck.at(130, { do: 'cut', line: 2, n: 1 }).at(135, rewrite(...lines.slice(0, 4), '75 @ 1:30'));
    expect(deck.state.stretches.map(({ kind }) => kind)).toEqual(['talk', 'swim', 'talk', 'swim']);
    expect(deck.at(160, { do: 'start' }).reps(1)).toEqual(['4.1 at 60', '5.1 at 170']);
  });

  it('[rewrite] lines with nothing between them that divides join a later stretch that stays', () => {
    const lines = ['Main', '50 @ 1:00', 'talk 1:00', '50 @ 1:00', '100 @ 2:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'start' });
    deck.at(20, rewrite('Main', '50 @ 1:00', 'talk 1:00', '50 @ 1:00', '2 x 75 @ 1:30', '25 @ 0:40'));
    expect(deck.state.stretches).toHaveLength(3);
    expect(deck.state.stretches[2]!.lanes[0]).toMatchObject({
      length: 280_000,
      reps: [{ offset: 0 }, { offset: 60_000 }, { offset: 150_000 }, { offset: 240_000 }],
    });
  });

  it('[rewrite] a lane that was through leaves at its end, or ten seconds on, on a round reading', () => {
    const lines = ['lane 1', 'lane 2', 'Main', '1/4 x 50 @ 1:00'];
    const early = new Deck(text(...lines)).at(0, { do: 'start' }).at(50, rewrite(...lines, '75 @ 1:30'));
    expect(early.leaves(1)).toEqual([10, 70]);
    const late = new Deck(text(...lines)).at(0, { do: 'start' }).at(101, rewrite(...lines, '75 @ 1:30'));
    expect(late.leaves(1)).toEqual([10, 115]);
    expect(late.leaves(2)).toEqual([10, 70, 130, 190, 250]);
    // Its tail counts from now on.
    expect(late.settled(300).lanes[0]!.hadRep).toBe(true);
  });

  it('[rewrite] a lane that was through leaves at its end to the second where ten are left, else on a round reading', () => {
    const lines = ['lane 1', 'lane 2', 'Main', '1/4 x 50 @ 1:02'];
    const joined = (seconds: number) =>
      new Deck(text(...lines))
        .at(0, { do: 'start' })
        .at(seconds, rewrite(...lines, '75 @ 1:30'))
        .leaves(1);
    expect([joined(62), joined(63)]).toEqual([
      [10, 72],
      [10, 75],
    ]);
  });

  it('[rewrite] a block that joins keeps the time that its reps leave over', () => {
    const deck = new Deck(text('Main', '50 @ 1:00')).at(0, { do: 'start' });
    deck.at(20, rewrite('Main', '50 @ 1:00', '2:30 of 50s @ 1:00', '25 @ 0:30'));
    expect(deck.reps(1)).toEqual(['2.1 at 10', '3.1 at 70', '3.2 at 130', '4.1 at 220']);
  });

  it('[rewrite] nothing joins a lane that is out, or that the new lines leave out', () => {
    const lines = ['lane 1', 'lane 2', 'Main', '0/2 x 50 @ 1:00'];
    const out = new Deck(text(...lines, '2/2 x 25 @ 1:00'))
      .at(0, { do: 'start' })
      .at(20, { do: 'lane-out', lanes: [1] });
    out.at(25, rewrite(...lines, '2/2 x 25 @ 1:00', '75 @ 1:30'));
    expect(out.reps(1)).toEqual(['5.1 at 10']);
    const absent = new Deck(text(...lines)).at(0, { do: 'start' }).at(25, rewrite(...lines, '0/1 x 75 @ 1:30'));
    expect(absent.settled(30).lanes.map(({ hadRep }) => hadRep)).toEqual([false, true]);
  });

  it('[rewrite] a stretch is untimed once an untimed set has joined it in any lane', () => {
    const lines = ['lane 1', 'lane 2', 'Main', '2 x 50 @ 1:00'];
    const untimed = (line: string) =>
      new Deck(text(...lines)).at(0, { do: 'start' }).at(20, rewrite(...lines, line)).state.stretches[0]!.untimed;
    expect([untimed('0/1 x 100 easy'), untimed('100 @ 2:00')]).toEqual([true, false]);
  });

  it('[rewrite] what is put behind a part that is over is a stretch of its own', () => {
    const deck = new Deck(text(...MAIN)).at(0, { do: 'move-on' });
    deck.at(1, rewrite(...MAIN.slice(0, 3), '2 x 75 @ 1:30', ...MAIN.slice(3)));
    expect(deck.state.stretches.map(({ part }) => part)).toEqual(['Main', 'Main', 'Swim-down']);
    expect(deck.state).toMatchObject({ phase: 'waiting', index: 1 });
    expect(deck.at(2, { do: 'start' }).reps(1)).toEqual(['4.1 at 15', '4.2 at 105']);
  });

  it('[rewrite] a lane whose reps all went leaves when it was shown to', () => {
    const deck = new Deck(text('Main', '2 x 50 @ 1:00', '3 x 100 @ 2:00')).at(0, { do: 'start' });
    deck.at(100, { do: 'shift', seconds: 20 }).at(125, rewrite('Main', '2 x 50 @ 1:00', '25 @ 0:30', '25 @ 0:30'));
    expect(deck.reps(1)).toEqual(['2.1 at 10', '2.2 at 70', '3.1 at 150', '4.1 at 180']);
  });

  it('[rewrite] a stopped lane stays stopped, at its own times, and those that were through join it', () => {
    const lines = ['lane 1', 'lane 2', 'Main', '1/2 x 50 @ 1:00', '50 @ 1:00'];
    const deck = new Deck(text('lane 1', 'lane 2', 'Main', '1/2 x 50 @ 1:00', '0/1 x 50 @ 1:00')).at(0, {
      do: 'start',
    });
    deck.at(20, { do: 'stop' }).at(100, rewrite(...lines));
    expect(deck.view(100).lanes.map(({ state }) => state)).toEqual(['stopped', 'stopped']);
    // Lane 1 would have left at its end, 1:10, lane 2 then too: both keep their places to each other.
    expect(deck.at(110, { do: 'resume' }).leaves(1)).toEqual([10, 120]);
    expect(deck.leaves(2)).toEqual([10, 120, 180]);
  });

  it('[rewrite] a stopped lane that is left with nothing is stopped no more', () => {
    const deck = new Deck(text('Main', '50 @ 1:00', '100 @ 2:00', 'Two', '50 @ 1:00')).at(0, { do: 'start' });
    deck.at(20, { do: 'stop' }).at(25, rewrite('Main', '50 @ 1:00', 'Two', '75 @ 1:00'));
    expect(deck.state.lanes[0]!.stoppedBy).toBeNull();
    expect(deck.settled(100)).toMatchObject({ phase: 'waiting', index: 1 });
  });

  it('[rewrite] after a Stop with nothing pending what joins is stopped', () => {
    const lines = ['between auto 0:30', 'Main', '50 @ 1:00', 'Two', '50 @ 1:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'start' }).at(20, { do: 'stop' });
    deck.at(25, rewrite('between auto 0:30', 'Main', '50 @ 1:00', '75 @ 1:30', 'Two', '50 @ 1:00'));
    expect(deck.view(30).lanes[0]!.state).toBe('stopped');
    expect(deck.at(40, { do: 'resume' }).leaves(1).slice(0, 2)).toEqual([10, 70]);
  });
});

describe('rewrite: what it leaves behind', () => {
  it('[rewrite] cuts and intervals of lines that are replaced are forgotten, those of lines that stay are kept', () => {
    const deck = new Deck(text('Main', '4 x 50 @ 1:00', '4 x 100 @ 2:00')).at(0, { do: 'start' });
    deck
      .at(20, { do: 'cut', line: 2, n: 1 })
      .at(21, { do: 'cut', line: 3, n: 2 })
      .at(22, { do: 'interval', seconds: 5 });
    const before = deck.state;
    deck.at(30, rewrite('Main', '4 x 50 @ 1:00', '4 x 100 @ 1:50'));
    expect(forgottenBetween(before, deck.state)).toEqual({ cuts: [3], intervals: [] });
    expect(deck.reps(1)).toEqual([
      ...['2.1 at 10', '2.2 at 75', '2.3 at 140'],
      ...['3.1 at 205', '3.2 at 315', '3.3 at 425', '3.4 at 535'],
    ]);
  });

  it('[rewrite] what is forgotten is told by line, whatever was commanded first', () => {
    const lines = ['Main', '4 x 50 @ 1:00', '4 x 100 @ 2:00', '4 x 75 @ 2:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'start' });
    for (const line of [4, 3, 2]) deck.at(20 + line, { do: 'cut', line, n: 1 });
    const before = { ...deck.state, retimed: new Set([4, 2, 3]) };
    deck.at(30, rewrite('Main', '4 x 50 @ 1:00', '25 @ 0:30'));
    expect(forgottenBetween(before, { ...deck.state, retimed: new Set([2]) })).toEqual({
      cuts: [3, 4],
      intervals: [3, 4],
    });
  });

  it.each([
    ['2/0 x 25 @ 0:30', '0/2 x 75 @ 1:30', ['4.1', '4.2'], ['5.1', '5.2']],
    ['0/2 x 75 @ 1:30', '2/0 x 25 @ 0:30', ['5.1', '5.2'], ['4.1', '4.2']],
  ])('[rewrite] a place that is gone is the first rep of any lane: %s, %s', (first, second, one, two) => {
    const lines = ['lane 1', 'lane 2', 'Main', '4 x 100 @ 2:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 4, rep: 3 });
    deck.at(1, rewrite(...lines.slice(0, 3), first, second)).at(2, { do: 'start' });
    expect([1, 2].map((lane) => deck.reps(lane).map((rep) => rep.slice(0, 3)))).toEqual([one, two]);
  });

  it('[rewrite] a talk that takes the place of a place has none', () => {
    const deck = new Deck(text('T', 'One', '2 x 50 @ 1:00')).at(0, { do: 'go-to', line: 3, rep: 2 });
    deck.at(1, rewrite('T', 'One', 'talk 1:00', '50 @ 1:00'));
    expect(deck.state).toMatchObject({ phase: 'waiting', index: 0, from: null });
  });

  it('[rewrite] a place that the new text has no more is the first rep after what stays', () => {
    const lines = ['Main', '2 x 50 @ 1:00', '4 x 100 @ 2:00', 'Two', '25 @ 1:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 3, rep: 4 });
    deck.at(1, rewrite('Main', '2 x 50 @ 1:00', '2 x 75 @ 1:30', 'Two', '25 @ 1:00')).at(2, { do: 'start' });
    expect(deck.reps(1)).toEqual(['3.1 at 15', '3.2 at 105']);
  });

  it('[rewrite] a place whose rep a cut has taken still begins with what comes next', () => {
    const lines = ['Main', '4 x 50 @ 1:00', '100 @ 2:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 2, rep: 3 }).at(1, { do: 'cut', line: 2, n: 2 });
    deck.at(2, rewrite(...lines, '75 @ 1:30')).at(3, { do: 'start' });
    expect(deck.reps(1)).toEqual(['3.1 at 15', '4.1 at 135']);
  });

  it('[rewrite] during the countdown to a place, what joins from before it is not swum', () => {
    const lines = ['T', 'Main', '2 x 50 @ 1:00', '3 x 50 @ 1:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 4, rep: 2 }).at(1, { do: 'start' });
    deck.at(2, rewrite(...lines.slice(0, 3), '4 x 50 easy @ 1:00'));
    expect(deck.reps(1)).toEqual(['4.2 at 15', '4.3 at 75', '4.4 at 135']);
  });

  it('[rewrite] a kit line that is all a part has left is a piece of its own, and its heading stays', () => {
    const lines = ['Main', '2 x 50 @ 1:00', 'Two', '  25 @ 1:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 4, rep: 1 });
    expect(deck.at(1, rewrite('Main', '2 x 50 @ 1:00', 'Two', '  kit: fins')).state.phase).toBe('done');
  });

  it('[rewrite] a place that is gone with nothing after it is no place in what joins later', () => {
    const lines = ['Main', '2 x 50 @ 1:00', '4 x 100 @ 2:00', 'Two', '25 @ 1:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 3, rep: 4 }).at(1, { do: 'start' });
    deck.at(2, rewrite('Main', '2 x 50 @ 1:00'));
    expect(deck.reps(1)).toEqual([]);
    deck.at(3, rewrite('Main', '2 x 50 @ 1:00', '4 x 75 @ 1:30'));
    expect(deck.reps(1).map((rep) => rep.slice(0, 3))).toEqual(['3.1', '3.2', '3.3', '3.4']);
  });

  it('[rewrite] a stretch that waits at a place with nothing left there goes', () => {
    const lines = ['Main', '2 x 50 @ 1:00', '4 x 100 @ 2:00', 'Two', '25 @ 1:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 3, rep: 4 });
    deck.at(1, rewrite('Main', '2 x 50 @ 1:00', 'Two', '25 @ 1:00'));
    expect(deck.state).toMatchObject({ phase: 'waiting', index: 0 });
    expect(deck.at(2, { do: 'start' }).reps(1)).toEqual(['4.1 at 15']);
  });

  it('[rewrite] a cut behind the place leaves no stretch that nobody swims', () => {
    const lines = ['Main', '2 x 50 @ 1:00', '4 x 100 @ 2:00'];
    const deck = new Deck(text(...lines)).at(0, { do: 'go-to', line: 3, rep: 3 }).at(1, { do: 'cut', line: 3, n: 2 });
    expect(deck.state.phase).toBe('done');
    expect(deck.view(2).phase).toBe('done');
    const rewritten = new Deck(text('T', 'Main', '2 x 50 @ 1:00', '4 x 100 @ 2:00')).at(0, {
      do: 'go-to',
      line: 4,
      rep: 1,
    });
    rewritten.at(1, rewrite('T', 'Main', '2 x 50 @ 1:00'));
    expect(rewritten.view(2).phase).toBe('done');
  });

  it('[rewrite] the same part, started while it was being typed, is there once', () => {
    const deck = new Deck(text(...MAIN)).at(0, { do: 'start' });
    deck.at(5, rewrite(...MAIN.slice(0, 4), '100 easy'));
    expect(deck.state.stretches.map(({ part }) => part)).toEqual(['Main', 'Swim-down']);
    expect(deck.reps(1).length).toBe(6);
  });

  it('[rewrite] with nothing left to wait for the session is done', () => {
    const deck = new Deck('One\n50 @ 1:00\nTwo\n50 @ 1:00').at(0, { do: 'start' });
    expect(deck.at(80, rewrite('One', '50 @ 1:00')).state).toMatchObject({ phase: 'done', doneAt: 80_000 });
  });

  it('[rewrite] that takes the last pending rep ends the stretch at the time of the command', () => {
    const deck = new Deck(text('lane 1', 'lane 2', 'Main', '50 @ 1:00', '0/3 x 50 @ 1:00', 'Two', '50 @ 1:00'));
    deck.at(0, { do: 'start' }).at(20, { do: 'stop', lanes: [2] });
    deck.at(100, rewrite('lane 1', 'lane 2', 'Main', '50 @ 1:00', 'Two', '50 @ 1:00'));
    expect(deck.settled(100)).toMatchObject({ phase: 'waiting', index: 1, endedAt: 100_000 });
  });

  it('[undo] a rewrite is not taken back once a lane has left on what it wrote', () => {
    const lines = ['T', 'Main', '2 x 50 @ 0:30'];
    const deck = new Deck(text(...lines, '4 x 50 @ 0:30')).at(0, { do: 'start' });
    deck.at(65, rewrite(...lines, '2 x 200 @ 4:00'));
    expect(deck.refusal(72, { do: 'undo' })).toMatch(/Swimmers have left/);
  });

  it('[undo] takes a rewrite back whole', () => {
    const deck = new Deck(text(...MAIN)).at(0, { do: 'start' });
    const before = deck.settled(25);
    deck.at(20, rewrite('Main', '2 x 50 @ 1:00', '2 x 75 @ 1:30')).at(25, { do: 'undo' });
    expect({ ...deck.state, undoable: [] }).toEqual({ ...before, undoable: [] });
  });
});
