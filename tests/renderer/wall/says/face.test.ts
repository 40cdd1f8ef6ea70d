import { describe, expect, test } from 'vitest';
import type { ClockChoice } from '../../../../app/core/run/readings.ts';
import { view } from '../../../../app/core/run/view.ts';
import { waterLeft } from '../../../../renderer/wall/strips/water.ts';
import { wallFace, type WallFace } from '../../../support/wall/wall-face.ts';
import { Deck } from '../../../support/run/deck.ts';

const HARBOUR = `Harbour squad, Thursday
start 19:30
finish 20:30
lane 1 css 1:20, base 1:30, 5 swimmers
lane 2 css 1:28, base 1:40, 6 swimmers
lane 3 css 1:41, base 1:55, 3 swimmers, gap 10

Main set
3 rounds
  150 steady @ base
  4 x 50 fast @ 0:50/0:55/1:05 hold css-2
8/7/0 x 75 free @ 1:30
talk 1:30 turns: push off under the waves
4 x 25 sprint @ 0:45

Swim-down
200 easy choice
`;

const OPENED_AT = (19 * 60 + 30) * 60_000;

function face(deck: Deck, seconds: number, choice: ClockChoice = 'stretch'): WallFace {
  return wallFace(view(deck.state, Math.round(seconds * 1000)), OPENED_AT, choice);
}

/** Started at once: T0 is 10 s. */
function started(): Deck {
  return new Deck(HARBOUR).at(0, { do: 'start' });
}

describe('the clock', () => {
  test('stands at 0:00 before the first start', () => {
    expect(face(new Deck(HARBOUR), 5)).toMatchObject({ mode: 'next', clock: '0:00', clockLabel: '' });
  });

  test('counts the last 10 s before a start down, marked "starts in"', () => {
    const deck = started();
    const shown = [0, 0.001, 1, 9.001, 9.999].map((t) => face(deck, t).clock);
    expect(shown).toEqual(['0:10', '0:10', '0:09', '0:01', '0:01']);
    expect(face(deck, 9.999).clockLabel).toBe('starts in');
    expect(face(deck, 10)).toMatchObject({ clock: '0:00', clockLabel: '' });
  });

  test('says that only it starts, where every lane leaves later: nobody pushes off at its 0:00', () => {
    const shifted = started().at(3, { do: 'shift', seconds: 5 });
    expect(face(shifted, 5)).toMatchObject({ clock: '0:05', clockLabel: 'clock starts in' });
    expect(face(shifted, 5, 'pool').clockLabel).toBe('');
    const resumed = started().at(2, { do: 'stop' }).at(6, { do: 'resume' });
    expect(face(resumed, 7).clockLabel).toBe('clock starts in');
    const one = started().at(3, { do: 'shift', lanes: [2], seconds: 5 });
    expect(face(one, 5).clockLabel).toBe('starts in');
    expect(face(one, 5, 'pool').clockLabel).toBe('starts in 5');
  });

  test('goes by the lanes that are to leave, not by one that is stopped', () => {
    const deck = started()
      .at(3, { do: 'shift', lanes: [2, 3], seconds: 5 })
      .at(4, { do: 'stop', lanes: [1] });
    expect(face(deck, 5).clockLabel).toBe('clock starts in');
  });

  test('says "starts in" before a break that begins by itself, from which nobody leaves', () => {
    const deck = new Deck('between auto 0:20\nA\n50 @ 1:00\n\nB\nbreak 1:00\n50 @ 1:00\n').at(0, { do: 'start' });
    expect(face(deck, 85)).toMatchObject({ clock: '0:05', clockLabel: 'starts in' });
  });

  test('shows whole seconds, each for its whole length', () => {
    const deck = started();
    expect([75, 75.999, 76].map((t) => face(deck, t).clock)).toEqual(['1:05', '1:05', '1:06']);
  });

  test('readings of leaves are readings of the clock that is shown', () => {
    const deck = started();
    expect(face(deck, 20).lanes[0]!.leave).toBe('2:15');
    expect(face(deck, 20, 'run').lanes[0]!.leave).toBe('2:25');
    expect(face(deck, 145, 'run').clock).toBe('2:25');
    expect(face(deck, 145, 'run').lanes[0]!).toMatchObject({ state: 'leaving', leave: '2:25' });
  });
});

describe('a lane', () => {
  test('waiting: leave, seconds to go rounded up, rep, round, interval, words, and the leave after', () => {
    expect(face(started(), 40.5).lanes[0]).toMatchObject({
      state: 'waiting',
      leave: '2:15',
      seconds: '1:45',
      rep: '1 of 4',
      round: 'round 1 of 3',
      interval: 'on 0:50',
      words: '50 fast',
      target: 'hold 0:39',
      after: 'then 3:05',
    });
    expect(face(started(), 46).lanes[0]!.seconds).toBe('99');
  });

  test('ready from 10 s before its leave', () => {
    const states = [134.999, 135, 144.999, 145].map((t) => face(started(), t).lanes[0]!.state);
    expect(states).toEqual(['waiting', 'ready', 'ready', 'leaving']);
  });

  test('leaving for 2 s with the leave that is happening, then the next', () => {
    const [now, late, next] = [145, 146.999, 147].map((t) => face(started(), t).lanes[0]!);
    expect(now).toMatchObject({ state: 'leaving', leave: '2:15', seconds: '0', rep: '1 of 4', after: 'then 3:05' });
    expect(late).toMatchObject({ state: 'leaving', leave: '2:15' });
    expect(next).toMatchObject({ state: 'waiting', leave: '3:05' });
  });

  test('[count] while swimmers of a rep still leave the strip keeps its count, and says whose turn is next', () => {
    const [second, last, gone] = [152, 164.9, 165].map((t) => face(started(), t).lanes[0]!);
    expect(second).toMatchObject({ leave: '3:05', rep: '1 of 4', isNow: true, interval: 'on 0:50', turn: '3 at 2:25' });
    expect(last).toMatchObject({ rep: '1 of 4', turn: '5 at 2:35' });
    expect(gone).toMatchObject({ rep: '2 of 4', isNow: false, turn: '', dots: null });
  });

  test('a dot a swimmer fills as each goes, until the tail is away', () => {
    const away = [145, 149.9, 150, 164.9, 165].map((t) => face(started(), t).lanes[0]!.dots);
    expect(away).toEqual([{ away: 1, of: 5 }, { away: 1, of: 5 }, { away: 2, of: 5 }, { away: 4, of: 5 }, null]);
  });

  test('water is the share of a minute to go, full before that', () => {
    const water = [20, 85, 115, 145].map((t) => waterLeft(face(started(), t).lanes[0]!.drainedAt, t * 1000));
    expect(water).toEqual([1, 1, 0.5, 0]);
  });

  test('stopped: the word in place of a leave, and no seconds; its swimmers under way still get their dots', () => {
    const deck = started().at(148, { do: 'stop', lanes: [1] });
    expect(face(deck, 150).lanes[0]).toMatchObject({
      state: 'stopped',
      word: 'stopped',
      leave: '',
      seconds: '',
      rep: '1 of 4',
      interval: 'on 0:50',
      dots: { away: 2, of: 5 },
    });
    expect(face(deck, 149).lanes[1]!.state).toBe('waiting');
  });

  test('out: says so and nothing else', () => {
    const deck = started().at(20, { do: 'lane-out', lanes: [2] });
    expect(face(deck, 30).lanes[1]).toMatchObject({ state: 'out', word: 'out', leave: '', rep: '' });
  });

  test('finished: in by the reading at which its lead could leave again', () => {
    // Lane 3 swims no 75s: three rounds of 2:55 and 4 x 1:05.
    const shown = face(started(), 10 + 3 * (175 + 260) - 60).lanes[2]!;
    expect(shown).toMatchObject({ state: 'finished', word: 'in by 21:45', leave: '' });
  });

  test('"in by" does not stand there once that is past: finished, or till the coach says so', () => {
    const timed = new Deck('lane 1\nlane 2\n1/2 x 50 free @ 1:00\n').at(0, { do: 'start' });
    expect([69.9, 70].map((t) => face(timed, t).lanes[0]!.word)).toEqual(['in by 1:00', 'finished']);
    const untimed = new Deck('lane 1 base 2:00\n200 easy choice\n').at(0, { do: 'start' });
    expect([20, 338].map((t) => face(untimed, t).lanes[0]!.word)).toEqual(['in by ≈4:05', "till the coach's word"]);
  });

  test('a lane that is through waits while the session has more for it, and says for what', () => {
    const text =
      'lane 1\nlane 2\nWarm-up\n1/2 x 50 free @ 1:00\ntalk 1:00 turns\n4 x 25 fast @ 1:00\nMain set\n0/4 x 50 @ 1:00\n';
    const deck = new Deck(text).at(0, { do: 'start' });
    expect(face(deck, 69.9).lanes[0]).toMatchObject({ word: 'in by 1:00', then: '' });
    expect(face(deck, 70).lanes[0]).toMatchObject({ state: 'finished', word: 'waits', then: 'then 4 x 25 fast' });
    const other = new Deck(text.replace('4 x 25 fast @ 1:00\n', '').replace('0/4', '4')).at(0, { do: 'start' });
    expect(face(other, 70).lanes[0]).toMatchObject({ word: 'waits', then: 'then Main set' });
  });

  test('[sit-out] a lane that leaves for nothing here sits out: nobody in it is in by any reading', () => {
    const squad = Array.from({ length: 6 }, (_, index) => `lane ${index + 1}`).join('\n');
    const deck = new Deck(`${squad}\n4 x 50 @ 1:00\n\nSwim-down\n200 easy\n`).at(0, { do: 'start' });
    deck
      .at(20, { do: 'move-on' })
      .at(30, { do: 'start' })
      .at(31, { do: 'sit-out', lanes: [3] });
    expect([32, 39.9, 60, 600].map((t) => face(deck, t).lanes[2])).toMatchObject(
      Array(4).fill({ state: 'absent', word: 'sits out', leave: '', rep: '' }),
    );
    expect(face(deck, 60).lanes[3]!.word).toMatch(/^in by ≈/);
  });

  test('[pool clock] readings are seconds past the top of the clock on the wall', () => {
    const deck = new Deck(HARBOUR, 20).at(0, { do: 'start' });
    const shown = face(deck, 40, 'pool');
    expect(shown.clock).toBe(':00');
    expect(shown.lanes[0]).toMatchObject({ leave: ':45', after: 'then :35' });
    expect(face(deck, 14, 'pool').lanes[0]!.turn).toBe('2 at :35');
    expect(face(deck, 7.5, 'pool').clockLabel).toBe('starts in 3');
  });

  test('an untimed set under way: when the lane is in is an estimate, and says so', () => {
    const deck = new Deck('lane 1 base 2:00\nlane 2 base 2:30\n200 easy choice\n').at(0, { do: 'start' });
    // 110 s and 140 s a 100, easy 1.1: 242 s and 308 s, rounded up to 5 s.
    expect(face(deck, 20).lanes.map(({ word }) => word)).toEqual(['in by ≈4:05', 'in by ≈5:10']);
  });

  test('what is swum at one leave is named while it is swum', () => {
    const untimed = new Deck('lane 1\nlane 2\n3/4 x 50 choice\n').at(0, { do: 'start' });
    expect(face(untimed, 20).lanes.map(({ words }) => words)).toEqual(['3 x 50 choice', '4 x 50 choice']);
    const timed = new Deck('10:00 easy swim\n').at(0, { do: 'start' });
    expect(face(timed, 20).lanes[0]).toMatchObject({ state: 'finished', words: 'easy swim' });
  });

  test('a rep that is the only one is counted too', () => {
    const deck = new Deck('200 steady @ 4:00\n2 x 50 easy @ 1:00\n').at(0, { do: 'start' });
    expect(face(deck, 5).lanes[0]!.rep).toBe('1 of 1');
    expect(face(deck, 20).lanes[0]!.rep).toBe('1 of 2');
  });

  test('a leave on a tenth of a second is shown with it', () => {
    const deck = new Deck('4 x 25 sprint @ 28.5\n').at(0, { do: 'start' });
    expect(face(deck, 20).lanes[0]!.leave).toBe('0:28.5');
  });

  test('a swim by time has its words and its time', () => {
    const deck = new Deck('15:00 easy swim\n').at(0, { do: 'start' });
    expect(face(deck, 5).lanes[0]).toMatchObject({ words: 'easy swim', interval: 'for 15:00' });
  });

  test('an untimed set shows the whole of it and no interval', () => {
    const deck = new Deck('4 x 50 choice\n').at(0, { do: 'start' });
    expect(face(deck, 5).lanes[0]).toMatchObject({ words: '4 x 50 choice', interval: '' });
  });
});

describe('the head', () => {
  test('part, set as written, what comes next, the end and the time of day', () => {
    const { head } = face(started(), 20);
    expect([head.time, face(started(), 60).head.time]).toEqual(['19:30', '19:31']);
    expect(head.set).toBe('3 rounds: 150 steady, 4 x 50 fast');
    expect(head.then).toBe('then 8/7/0 x 75 free');
    expect(head.end).toMatch(/^ends ≈20:\d\d, ≈\d+ min in hand$/);
  });

  test('the round only while all lanes are in the same', () => {
    // By what is swum, until the next is at hand: lane 1's is round 2 from 335 s on, lane 3's only from 435 s on.
    const titles = [20, 340, 436].map((t) => face(started(), t).head.title);
    expect(titles).toEqual(['Main set, round 1 of 3', 'Main set', 'Main set, round 2 of 3']);
  });

  test('says by how much the finish is missed', () => {
    const deck = new Deck('start 19:30\nfinish 20:00\n40 x 100 free @ 1:00\n').at(0, { do: 'start' });
    expect(face(deck, 20).head.end).toBe('ends 20:11, 11 min over');
  });

  test('more than an hour is said in hours', () => {
    const over = (reps: number): string => {
      const deck = new Deck(`start 19:30\nfinish 20:00\n${reps} x 100 free @ 1:00\n`).at(0, { do: 'start' });
      return face(deck, 20).head.end;
    };
    expect(over(89)).toBe('ends 21:00, 1 h over');
    expect(over(232)).toBe('ends 23:23, 3 h 23 min over');
    const early = new Deck('start 19:30\nfinish 22:00\n40 x 100 free @ 1:00\n').at(0, { do: 'start' });
    expect(face(early, 20).head.end).toBe('ends 20:11, 1 h 49 min in hand');
  });

  test('names what is swum while it is, and the next set once it is at hand', () => {
    const text = 'Warm-up\n6:00 choice\n4 x 50 back @ 1:00\n\nTurns\ntalk 1:30 push off\n50 easy\n';
    const deck = new Deck(text).at(0, { do: 'start' });
    const heads = [15, 350, 360].map((t) => face(deck, t).head);
    expect(heads.map(({ set, then }) => [set, then])).toEqual([
      ['6:00 choice', 'then 4 x 50 back'],
      ['6:00 choice', 'then 4 x 50 back'],
      ['4 x 50 back', 'then Turns'],
    ]);
  });

  test('one round is counted in the lane, not in the title', () => {
    const deck = new Deck('1 round\n  4 x 50 back @ 1:00\n').at(0, { do: 'start' });
    expect(face(deck, 20).head.title).toBe('Session');
    expect(face(deck, 20).lanes[0]!.round).toBe('round 1 of 1');
  });

  test('a finish past midnight is the next one', () => {
    const text = 'start 23:30\nfinish 0:30\n20 x 100 free @ 1:00\n';
    const deck = new Deck(text).at(0, { do: 'start' });
    const shown = wallFace(view(deck.state, 20_000), (23 * 60 + 30) * 60_000, 'stretch');
    expect(shown.head.end).toBe('ends 23:51, 39 min in hand');
  });
});

describe('while nobody swims', () => {
  test("waiting for the coach's word: what comes next stands large, and every lane's share of it small", () => {
    const shown = face(new Deck(HARBOUR), 5);
    expect(shown.callout).toMatchObject({
      title: 'Next: Main set',
      lanes: 'Each lane starts with',
      lines: [
        '3 rounds: 150 steady, 4 x 50 fast',
        '8/7/0 x 75 free',
        'talk 1:30 turns: push off under the waves',
        '4 x 25 sprint',
      ],
    });
    expect(shown.lanes[0]).toMatchObject({ state: 'first', words: '150 steady', interval: 'on 2:15', leave: '' });
  });

  test('a talk: its words, its time left, and what comes then', () => {
    const deck = started().at(60, { do: 'move-on' });
    const shown = face(deck, 75.5);
    expect(shown.mode).toBe('pause');
    expect(shown.callout).toEqual({
      title: 'Talk: turns: push off under the waves',
      lines: ['then 4 x 25 sprint'],
      first: '4 x 25 sprint',
      lanes: 'Then each lane starts with',
      left: '1:15',
      plate: false,
    });
    expect(shown.lanes[1]).toMatchObject({ state: 'first', words: '4 x 25 sprint', interval: 'on 0:45' });
  });

  test('what follows a break in which Stop was pressed is said to wait for the coach', () => {
    const text = 'A\n2 x 50 @ 1:00\nbreak 1:00\n4 x 25 fast @ 0:30\n';
    const deck = new Deck(text).at(0, { do: 'start' });
    expect(face(deck, 140).callout!.lines).toEqual(['then 4 x 25 fast']);
    deck.at(135, { do: 'stop' });
    expect(face(deck, 140).callout!.lines).toEqual(["on the coach's word: 4 x 25 fast"]);
    deck.at(141, { do: 'resume' });
    expect(face(deck, 142).callout!.lines).toEqual(['then 4 x 25 fast']);
    const last = new Deck(`between auto 0:20\n${text.replace('4 x', '\nB\n4 x')}`).at(0, { do: 'start' });
    expect(face(last, 140).callout!.lines).toEqual(['then B: 4 x 25 fast']);
    last.at(135, { do: 'stop' });
    expect(face(last, 140).callout!.lines).toEqual(["on the coach's word, B: 4 x 25 fast"]);
  });

  test.each([
    ['a ladder', '25-50-75 pull @ base', '', '25 on 0:25'],
    ['drop', '4 x 50 fast @ 1:00 drop 5', '4 x 50 fast', 'first on 1:00'],
    ['add', '3 x 50 fast @ 1:00 add 5', '3 x 50 fast', 'first on 1:00'],
  ])('of %s, whose reps have no interval in common, a lane is told its first', (_, line, words, interval) => {
    const before = new Deck(`lane 1 base 1:40\n${line}\n2 x 25 easy @ 0:40\n`);
    expect(face(before, 1).lanes[0]).toMatchObject({ state: 'first', words, interval });
    const pause = new Deck(`lane 1 base 1:40\n25 @ 0:30\nbreak 1:00\n${line}\n`).at(0, { do: 'start' });
    expect(face(pause, 50)).toMatchObject({ mode: 'pause' });
    expect(face(pause, 50).lanes[0]).toMatchObject({ state: 'first', words, interval });
  });

  test('the hold of a ladder, which is another for every distance, is that of its first', () => {
    const ladder = new Deck('lane 1 css 1:20\n25-50-75 pull @ 1:30 hold css\n');
    expect(face(ladder, 1).lanes[0]).toMatchObject({ interval: '25 on 1:30', target: 'hold 0:20' });
    const even = new Deck('lane 1 css 1:20\n3 x 50 pull @ 1:30 hold css\n');
    expect(face(even, 1).lanes[0]).toMatchObject({ interval: 'on 1:30', target: 'hold 0:40' });
  });

  test('the lane that swims but one rep of such a set is told its interval', () => {
    const deck = new Deck('lane 1\nlane 2\n4/1 x 50 fast @ 1:00 drop 5\n');
    expect(face(deck, 1).lanes.map(({ interval }) => interval)).toEqual(['first on 1:00', 'on 1:00']);
  });

  test('of rounds that are gone on with, what is left is said', () => {
    const text = 'Main set\n2 rounds\n  4 x 25 fast @ 0:30\n  break 1:00\n  50 easy @ 1:00\n  break 0:30\n100 easy\n';
    const deck = new Deck(text).at(0, { do: 'start' });
    expect(face(deck, 140).callout!.lines).toEqual(['then rest of round 1 of 2: 50 easy, break 0:30', '100 easy']);
    expect(face(deck, 260).callout!.lines).toEqual([
      'then round 2 of 2: 4 x 25 fast, break 1:00, 50 easy, break 0:30',
      '100 easy',
    ]);
    deck.at(261, { do: 'move-on' });
    expect(face(deck, 262).callout!.lines[0]).toBe('round 2 of 2: 4 x 25 fast, break 1:00, 50 easy, break 0:30');
    deck.at(263, { do: 'go-to', line: 3, rounds: [1], rep: 1 });
    expect(face(deck, 264).callout!.lines[0]).toBe('2 rounds: 4 x 25 fast, break 1:00, 50 easy, break 0:30');
  });

  test('a lane that goes on inside a set is told with which rep, one that begins it how many there are', () => {
    const deck = new Deck('lane 1\nlane 2\n4 x 50 back @ 1:00\n');
    expect(face(deck, 1).lanes[0]).toMatchObject({ words: '4 x 50 back', interval: 'on 1:00', rep: '' });
    deck.at(2000, { do: 'go-to', line: 3, rounds: [], rep: 3 });
    expect(face(deck, 3).lanes[0]).toMatchObject({ words: '50 back', interval: 'on 1:00', rep: '3 of 4' });
  });

  test('a lane that sits the next set out is told so', () => {
    const deck = new Deck('lane 1\nlane 2\n4/0 x 50 free @ 1:00\n');
    expect(face(deck, 1).lanes[1]).toMatchObject({ state: 'absent', word: 'no swim' });
  });

  test('done: when it was, and what each lane did', () => {
    const deck = started().at(200, { do: 'finish' });
    const shown = face(deck, 300);
    expect(shown).toMatchObject({ mode: 'done', callout: { title: 'Session done', lines: ['at 19:33'] } });
    expect(shown.lanes.map(({ words, interval }) => [words, interval])).toEqual([
      ['3 reps', '250 m'],
      ['2 reps', '200 m'],
      ['2 reps', '200 m'],
    ]);
  });

  test('all lanes stopped: one word for all, and the set that is talked about', () => {
    const deck = started().at(148, { do: 'stop' });
    const shown = face(deck, 155);
    const callout = { title: 'stopped', lines: ['3 rounds: 150 steady, 4 x 50 fast'] };
    expect(shown).toMatchObject({ mode: 'stopped', callout, lanes: { 0: { state: 'stopped', turn: '4 at 2:30' } } });
  });
});
