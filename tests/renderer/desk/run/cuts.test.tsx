// @vitest-environment happy-dom
/*
 * The cuts that end a session in time, offered the same way while it is written and while it runs.
 */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, test } from 'vitest';
import { fit, fitPlan } from '../../../../app/core/run/hour/fit.ts';
import { openRun } from '../../../../app/core/run/state.ts';
import { CutOffers } from '../../../../renderer/desk/run/cut-offers.tsx';
import { adviceOf } from '../../../../renderer/desk/run/fit-advice.ts';
import { OutlineLine } from '../../../../renderer/desk/outline/outline-line.tsx';
import type { OutlineRow } from '../../../../renderer/desk/outline/outline-rows.ts';
import { RunLate } from '../../../../renderer/desk/run/run-late.tsx';
import { writtenFit } from '../../../../renderer/desk/timetable/written-cuts.ts';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { planOf } from '../../../support/run/deck.ts';

afterEach(cleanup);

/** 4:00 each of fives and sets of four, of which one rep stays in each line. */
const FIVE_SETS = [
  'start 19:30',
  'finish 19:31',
  ...Array.from({ length: 5 }, (_, index) => `4 x 50 set ${'abcde'.charAt(index)} @ 1:00`),
  'Swim-down',
  '2 x 50 @ 1:00',
].join('\n');

describe('cuts that are needed together', () => {
  test('all of them are shown, with how many it takes and what each adds to those above', () => {
    const plan = planOf(FIVE_SETS.replace('19:31', '19:39'));
    const { fit: fitted, cuts } = writtenFit(plan)!;
    expect(fitted.serves).toBe('all');
    render(
      <CutOffers
        fit={fitted}
        cuts={cuts}
        text={plan.source.text}
        where={() => ''}
        isEstimate={() => false}
        endTime={(end) => `${end / 60_000} min`}
        whyNot={() => null}
        judge={() => null}
        onCut={() => undefined}
        onRefused={() => undefined}
      />,
    );
    screen.getByText(`It takes all ${cuts.length} of these cuts:`);
    const buttons = screen.getAllByRole('button');
    expect(buttons).toHaveLength(5);
    expect(buttons[0]!.textContent).toMatch(/^1\. Cut 3 of 4 x 50 set aends 3:00 sooner, \d+ min$/);
    expect(buttons[1]!.textContent).toMatch(/^2\. Cut 3 of .*then another 3:00 sooner/);
  });

  test('written and running, the same cuts with the same ends', () => {
    const plan = planOf(FIVE_SETS.replace('19:31', '19:39'));
    const written = writtenFit(plan)!;
    const running = fit(openRun(plan, 0), -10_000, 9 * 60_000);
    const short = (cuts: typeof running.cuts | typeof written.cuts) =>
      cuts.map(({ line, n, saves, endsAt }) => [line, n, saves, endsAt]);
    expect(short(written.cuts)).toEqual(short(running.cuts));
  });

  test('where even all are not enough, that is said', () => {
    const fitted = fitPlan(planOf(FIVE_SETS))!;
    expect(adviceOf({ ...fitted, isWritten: true })).toBe('Even all 5 of these cuts are not enough:');
    expect(fitted.cuts).toHaveLength(5);
  });

  test('where there is nothing to cut, only a run can move on', () => {
    const none = { over: 60_000, serves: 'short', cuts: [] } as const;
    expect(adviceOf({ ...none, isWritten: true })).toBe('No cut brings the end forward: shorten the last part.');
    expect(adviceOf({ ...none, isWritten: false })).toBe(
      'No cut brings the end forward: shorten the last part, or move on.',
    );
  });
});

test('[fit] a cut that takes the round under way says so, where it is offered and where a line is cut by hand', () => {
  const window = new CoachWindow(
    'start 0:00\nfinish 0:06\nMain\n2 rounds\n  100 @ 2:00\n  100 kick @ 2:00\nSwim-down\n50 @ 1:00',
  );
  window.other({ do: 'start' });
  // Round 2 is from 250 s on; its kick leaves at 370 s.
  window.at(260);
  const { moment } = window;
  const row = { line: 4, cut: { kind: 'rounds', most: 1 }, target: null } as unknown as OutlineRow;
  render(<OutlineLine tools={window.tools} moment={moment} row={row} onDone={() => undefined} />);
  expect(screen.getByRole('button', { name: 'Cut 1 round' }).textContent).toMatch(/the round under way too, ends 2:00/);
  cleanup();
  render(<RunLate tools={window.tools} moment={moment} isOver={false} />);
  const offer = screen.getByRole('button', { name: 'Cut 1 of 2 rounds, line 4' });
  expect(offer.textContent).toMatch(/^Cut 1 of 2 roundsthe round under way too, ends 2:00 sooner, ≈/);
});

describe('a cut of a line inside rounds', () => {
  const TEXT = 'start 0:00\nfinish 0:20\nMain\n3 rounds\n  4 x 50 @ 1:00\n2 x 50 @ 1:00\nSwim-down\n2 x 50 @ 1:00';
  const textOf = (finish: string): string => TEXT.replace('0:20', finish);

  test('says in the outline that it takes a rep of every round, and of a line outside rounds does not', () => {
    const window = new CoachWindow(TEXT);
    const row = (line: number) => ({ line, cut: { kind: 'reps', most: 1 }, target: null }) as unknown as OutlineRow;
    const drawn = render(
      <OutlineLine tools={window.tools} moment={window.moment} row={row(5)} onDone={() => undefined} />,
    );
    screen.getByRole('button', { name: 'Cut 1 rep in every round' });
    drawn.rerender(<OutlineLine tools={window.tools} moment={window.moment} row={row(6)} onDone={() => undefined} />);
    screen.getByRole('button', { name: 'Cut 1 rep' });
  });

  test('says so where it is offered before the run', () => {
    const { cuts } = writtenFit(planOf(textOf('0:16')))!;
    expect(cuts.map(({ line, where }) => [line, where])).toContainEqual([5, ' in every round']);
    expect(cuts.filter(({ line }) => line !== 5).map(({ where }) => where)).not.toContain(' in every round');
  });
});

describe('a cut that is pressed during a run', () => {
  test('is judged by the run as it is at the press, not as it was last drawn', () => {
    const window = new CoachWindow('start 0:00\nfinish 0:02\nMain\n4 x 50 @ 1:00\nSwim-down\n50 @ 1:00');
    window.other({ do: 'start' });
    // Rep 4 leaves at 190 s: from 189.75 s on it counts as away, and nothing is left to cut.
    window.at(186);
    const { rerender } = render(<RunLate tools={window.tools} moment={window.moment} isOver={false} />);
    window.at(189.8);
    rerender(<RunLate tools={window.tools} moment={window.moment} isOver={false} />);
    const button = screen.getByRole('button', { name: /^Cut 1 of 4 x 50/ });
    expect(button.getAttribute('aria-disabled')).toBe('true');
    window.silently(186);
    fireEvent.click(button);
    expect(window.given.map(({ command }) => command)).toEqual([{ do: 'cut', line: 4, n: 1 }]);
  });
});
