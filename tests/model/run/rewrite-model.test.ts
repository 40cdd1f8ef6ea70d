import { describe, expect, test } from 'vitest';
import type { Command } from './command.ts';
import { lane, part, pause, plainSession, rounds, set, untimed } from '../invent/plain-scenario.ts';
import { modelRehearsal } from './run-model.ts';
import { textOf, type ScenarioItem, type ScenarioPart, type WrittenScenario } from '../scenario.ts';

type Order = [seconds: number, name: string, fields?: Partial<Command>] | [seconds: number, text: WrittenScenario];

/** Runs commands given in seconds, a session in the place of a command being a rewrite to it. */
function run(first: WrittenScenario, ...orders: Order[]) {
  const texts = new Map<string, WrittenScenario>();
  const commands = orders.map(([seconds, what, fields]): Command => {
    const atMs = Math.round(seconds * 1000);
    if (typeof what === 'string') return { atMs, do: what, ...fields };
    texts.set(textOf(what), what);
    return { atMs, do: 'rewrite', text: textOf(what) };
  });
  const rehearsal = modelRehearsal(first, 0, commands, texts);
  const happened = rehearsal.leaves.map((leave) => `${leave.lane}:${leave.line}.${leave.rep}@${leave.atMs / 1000}`);
  return { ...rehearsal, happened, ok: rehearsal.answers.map((answer) => answer.ok) };
}

const oneLane = (...parts: ScenarioPart[]) => plainSession(parts);
const twoLanes = (...parts: ScenarioPart[]) => plainSession(parts, { lanes: [lane(1), lane(2)] });

/** Line 3: 2 x 50 on 1:00, line 4: 2 x 100 on 2:00; they leave at 10, 70, 130 and 250. */
const session = () => oneLane(part('Main', set(2, 50, 60), set(2, 100, 120)));

describe('the model of a rewrite, against runs worked out on paper', () => {
  test('a piece that is replaced before it has begun gives its place in time to the new one', () => {
    const other = oneLane(part('Main', set(2, 50, 60), set(1, 200, 240), set(1, 25, 30)));
    const { ok, happened, endMs } = run(session(), [0, 'start'], [20, other]);
    expect(ok).toEqual([true, true]);
    expect(happened).toEqual(['1:3.1@10', '1:3.2@70', '1:4.1@130', '1:5.1@370']);
    expect(endMs).toBe(400_000);
    // All that was pending goes: the new one leaves at the time that was shown.
    expect(run(session(), [0, 'start'], [127, other]).happened).toEqual(happened);
  });

  test('a piece of which a rep has left must stay, however it is changed', () => {
    const other = oneLane(part('Main', set(2, 50, 60), set(1, 200, 240)));
    const replaced = (seconds: number) => run(session(), [0, 'start'], [seconds, other]).ok[1];
    expect([replaced(129.749), replaced(129.75)]).toEqual([true, false]);
    // The first piece of what is going stays even in the countdown; a stretch that waits is free.
    const first = oneLane(part('Main', set(3, 50, 60)));
    expect(run(session(), [0, 'start'], [1, first]).ok[1]).toBe(false);
    expect(run(session(), [0, first], [1, 'start'])).toMatchObject({ happened: ['1:3.1@15', '1:3.2@75', '1:3.3@135'] });
    expect(run(session(), [0, 'start'], [140, 'restart'], [144, first]).ok[2]).toBe(true);
  });

  test('comments and blanks replace nothing; a line more above does', () => {
    const one = session();
    const lines = one.parts.flat();
    const commented = { ...one, parts: [[...lines.map((line) => `${line} # tell them  `), '', '# the end']] };
    expect(run(one, [0, 'start'], [200, commented])).toMatchObject({
      ok: [true, true],
      happened: run(one, [0, 'start']).happened,
    });
    const moved = oneLane(part('Main', pause('talk', 30), set(2, 50, 60), set(2, 100, 120)));
    expect(run(one, [0, 'start'], [20, moved]).ok).toEqual([true, false]);
  });

  test('a note is a piece of its own, or of the line under which it is indented', () => {
    const note = (words: string): ScenarioItem => ({ kind: 'note', line: 0, words });
    const withNote = (words: string, indent: string): WrittenScenario => {
      const one = oneLane(part('Main', set(2, 50, 60), note(words), set(2, 100, 120)));
      const lines = one.parts.flat().map((text, index) => (index === 2 ? indent + text : text));
      return { ...one, parts: [lines] };
    };
    const changed = (indent: string) =>
      run(withNote('easy', indent), [0, 'start'], [20, withNote('hard', indent)]).ok[1];
    expect([changed(''), changed('  ')]).toEqual([true, false]);
  });

  test('rounds are one piece', () => {
    const before = oneLane(part('Main', rounds(2, set(1, 50, 60), pause('talk', 30)), set(1, 25, 30)));
    const inside = oneLane(part('Main', rounds(2, set(1, 50, 60), pause('talk', 40)), set(1, 25, 30)));
    expect(run(before, [0, 'start'], [20, inside]).ok[1]).toBe(false);
    const behind = oneLane(part('Main', rounds(2, set(1, 50, 60), pause('talk', 30)), set(1, 75, 90)));
    expect(run(before, [0, 'start'], [20, behind]).ok[1]).toBe(true);
  });

  test('what nothing divides from the stretch that is going joins it, where a talk stood too', () => {
    const before = oneLane(
      part('Main', set(2, 50, 60), pause('talk', 60), set(1, 100, 120)),
      part('Last', set(1, 25, 30)),
    );
    const joined = oneLane(part('Main', set(2, 50, 60), set(1, 100, 120)), part('Last', set(1, 25, 30)));
    expect(run(before, [0, 'start'], [80, joined])).toMatchObject({
      happened: ['1:3.1@10', '1:3.2@70', '1:4.1@130'],
      stretch: 1,
      phase: 'waiting',
    });
    // Where its end is too near, it leaves on a round reading with ten seconds.
    expect(run(before, [0, 'start'], [122, joined]).happened).toEqual(['1:3.1@10', '1:3.2@70', '1:4.1@135']);
    const divided = oneLane(part('Main', set(2, 50, 60), pause('break', 30), set(1, 100, 120)));
    expect(run(before, [0, 'start'], [80, divided]).happened).toEqual(['1:3.1@10', '1:3.2@70', '1:5.1@160']);
  });

  test('what joins a stretch that is over begins by the plan, behind all that stays', () => {
    const before = oneLane(part('Main', set(1, 50, 60)), part('Last', set(1, 25, 30)));
    const more = oneLane(part('Main', set(1, 50, 60), set(1, 75, 90)), part('Last', set(1, 25, 30)));
    expect(run(before, [0, 'start'], [80, more], [85, 'start'])).toMatchObject({
      happened: ['1:3.1@10', '1:4.1@95'],
      stretch: 2,
      phase: 'waiting',
    });
  });

  test('an untimed set at the end that is replaced lets the session end by itself', () => {
    const before = oneLane(part('Main', set(2, 50, 60), untimed(200)));
    const shorter = oneLane(part('Main', set(2, 50, 60)));
    expect(run(before, [0, 'start'])).toMatchObject({ phase: 'going' });
    expect(run(before, [0, 'start'], [20, shorter])).toMatchObject({ phase: 'done', endMs: 130_000 });
    // Added behind one that is being swum, a set waits for the word.
    const longer = oneLane(part('Main', set(2, 50, 60), untimed(200), set(1, 25, 30)));
    expect(run(before, [0, 'start'], [900, longer])).toMatchObject({ phase: 'waiting', stretch: 1 });
  });

  test('[R5] an end that a rewrite puts into the past is the time of the rewrite', () => {
    const before = oneLane(part('Main', set(1, 50, 60), set(1, 50, 60)));
    const after = oneLane(part('Main', set(1, 50, 60)));
    expect(run(before, [0, 'start'], [12, 'shift', { seconds: 30 }], [89, after]).endMs).toBe(100_000);
    // Stopped, its second rep was due at 70 and still is; without it the lane was through then.
    expect(run(before, [0, 'start'], [20, 'stop'], [300, after])).toMatchObject({ phase: 'done', endMs: 300_000 });
  });

  test('a lane that is stopped stays so, and those with nothing to do join stopped', () => {
    const before = twoLanes(part('Main', set([1, 3], 50, 60)), part('Last', set(1, 25, 30)));
    const more = twoLanes(part('Main', set([1, 3], 50, 60), set(1, 100, 120)), part('Last', set(1, 25, 30)));
    const { happened } = run(before, [0, 'start'], [65, 'stop'], [75, more], [100, 'resume']);
    // The stop's lanes keep their places: lane 1 was through at 70 and follows there, lane 2 has 70 and 130 to swim.
    expect(happened).toEqual(['1:3.1@10', '2:3.1@10', '1:4.1@110', '2:3.2@110', '2:3.3@170', '2:4.1@230']);
    // A lane that is not stopped while nobody else is to leave goes on.
    const one = run(before, [0, 'start'], [65, 'stop', { lanes: [2] }], [66, 'skip'], [67, 'skip'], [68, more]);
    expect(one.happened).toEqual(['1:3.1@10', '2:3.1@10', '1:4.1@80', '2:4.1@80']);
  });

  test('after a Stop that found nobody to leave, all that join are stopped', () => {
    const before = oneLane(part('Main', set(1, 50, 60), pause('break', 30)));
    const more = oneLane(part('Main', set(1, 50, 60), set(1, 100, 120)));
    expect(run(before, [0, 'start'], [40, 'stop'], [50, more])).toMatchObject({
      phase: 'going',
      happened: ['1:3.1@10'],
    });
    expect(run(before, [0, 'start'], [40, 'stop'], [50, more], [55, 'resume']).happened).toEqual([
      '1:3.1@10',
      '1:4.1@70',
    ]);
  });

  test('a lane that got a rep by a rewrite has a tail', () => {
    const lanes = [lane(1), lane(2, { swimmers: 3 })];
    const before = plainSession([part('Main', set([1, 0], 50, 60), pause('break', 30))], { lanes });
    const more = plainSession([part('Main', set([1, 0], 50, 60), set([0, 1], 50, 60), pause('break', 30))], { lanes });
    expect(run(before, [0, 'start']).endMs).toBe(100_000);
    expect(run(before, [0, 'start'], [20, more])).toMatchObject({
      happened: ['1:3.1@10', '2:4.1@30'],
      endMs: 30_000 + 60_000 + 10_000 + 30_000,
    });
  });

  test('the place that a go to named stays where the new text has it, else it is the first that is new', () => {
    const before = oneLane(part('Main', set(2, 50, 60), set(4, 100, 60)), part('Last', set(1, 25, 30)));
    const goTo: Order = [0, 'go-to', { line: 4, rep: 3 }];
    const to = (second: Parameters<typeof set>) =>
      oneLane(part('Main', set(2, 50, 60), set(...second)), part('Last', set(1, 25, 30)));
    const swum = (other: WrittenScenario) => run(before, goTo, [1, other], [5, 'start']).happened;
    expect(swum(to([3, 200, 240]))).toEqual(['1:4.3@15']);
    expect(swum(to([2, 200, 240]))).toEqual(['1:4.1@15', '1:4.2@255']);
    expect(swum(oneLane(part('Main', set(2, 50, 60)), part('Last', set(1, 25, 30))))).toEqual(['1:5.1@15']);
    expect(run(before, goTo, [1, oneLane(part('Main', set(2, 50, 60)))])).toMatchObject({ phase: 'done', endMs: 1000 });
    // What comes before the place stays.
    const firstChanged = oneLane(part('Main', set(1, 50, 60), set(4, 100, 60)), part('Last', set(1, 25, 30)));
    expect(run(before, goTo, [1, firstChanged]).ok).toEqual([true, false]);
  });

  test('the place that a go to named stays in the countdown too: what comes before it is not swum', () => {
    const before = oneLane(part('Main', set(2, 50, 60), set(3, 100, 60)));
    const other = oneLane(part('Main', set(2, 50, 60), set(4, 25, 60)));
    const goTo: Order = [0, 'go-to', { line: 4, rep: 2 }];
    const swum = ['1:4.2@15', '1:4.3@75', '1:4.4@135'];
    expect(run(before, goTo, [1, other], [2, 'start']).happened).toEqual(swum);
    expect(run(before, goTo, [1, 'start'], [2, other]).happened).toEqual(swum);
  });

  test('what joins behind rounds joins the last of them that has not been cut', () => {
    const inRounds = () => rounds(2, set(1, 50, 60), pause('talk', 30), set(1, 25, 30));
    const before = oneLane(part('Main', inRounds(), set(1, 75, 90)));
    const other = oneLane(part('Main', inRounds(), set(1, 200, 240)));
    // Once round, the text has the 25 and then the 200, and nothing between them.
    const { happened, stretch, phase } = run(
      before,
      [0, 'cut', { line: 3, n: 1 }],
      [1, other],
      [5, 'start'],
      [200, 'start'],
    );
    expect(happened).toEqual(['1:4.1@15', '1:6.1@210', '1:7.1@240']);
    expect([phase, stretch]).toEqual(['done', 2]);
  });

  test('cuts and intervals of lines that are replaced are forgotten, others are not', () => {
    const before = oneLane(part('Main', set(4, 50, 60), set(4, 100, 120)));
    const other = oneLane(part('Main', set(4, 50, 60), set(4, 25, 120)));
    const { ok, happened } = run(
      before,
      [0, 'cut', { line: 3, n: 3 }],
      [1, 'cut', { line: 4, n: 3 }],
      [2, other],
      [3, 'cut', { line: 3, n: 1 }],
      [4, 'cut', { line: 4, n: 2 }],
      [5, 'start'],
    );
    expect(ok).toEqual([true, true, true, false, true, true]);
    expect(happened).toEqual(['1:3.1@15', '1:4.1@75', '1:4.2@195']);
  });
});
