// @vitest-environment happy-dom
/*
 * The lanes over time as a picture.
 */

import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import { recordOf } from '../../../../../app/core/record/record.ts';
import { reviewJson, type ReviewJson } from '../../../../../app/core/record/tables/review-json.ts';
import type { Command } from '../../../../../app/core/run/command/command.ts';
import { EveningPicture } from '../../../../../renderer/desk/afterwards/picture/evening-picture.tsx';
import { eveningScale } from '../../../../../renderer/desk/afterwards/picture/evening-scale.ts';
import { keptRun } from '../../../../support/run/kept-run.ts';

afterEach(cleanup);

const TEXT = 'Squad\nlane 1\nlane 2\nMain set\n4 x 50 fast @ 1:00\n';

const review = (...more: readonly (readonly [number, Command])[]): ReviewJson =>
  reviewJson(recordOf(keptRun(TEXT, [[0, { do: 'start' }], ...more])), []);

test('[evening] a bar for what was swum and one for what was planned, hatched where a lane stood, and a dot a mark', () => {
  const { container } = render(
    <EveningPicture
      review={review(
        [20, { do: 'stop', lanes: [2] }],
        [65, { do: 'resume', lanes: [2] }],
        [100, { do: 'mark', lanes: [1], words: 'cramp' }],
        [101, { do: 'mark', words: 'bell' }],
      )}
    />,
  );
  screen.getByRole('figure', { name: 'Lanes over time, 19:30 to 19:34: what was swum above what was planned' });
  const count = (what: string): number => container.querySelectorAll(what).length;
  expect([count('rect[data-look="swum-0"]'), count('rect[data-look="planned"]')]).toEqual([3, 2]);
  expect([count('rect[fill^="url"]'), count('circle')]).toEqual([1, 3]);
  expect(container.querySelector('figcaption')?.textContent).toBe('Main setplannedstoppeda mark');
});

test('[evening] the clock of the place stands below it, on full minutes and few', () => {
  const scale = eveningScale(review())!;
  expect(scale.ticks.map(({ words }) => words)).toEqual(['19:31', '19:32', '19:33', '19:34']);
  expect([scale.at(scale.from), scale.at(scale.to)]).toEqual([0, 100]);
});

test('[evening] what was planned for quite another hour is shown from the first leave on, and that is said', () => {
  const whole = review();
  const moved = (by: number): ReviewJson => {
    const lanes = whole.evening.lanes.map((lane) => ({
      ...lane,
      planned: lane.planned.map((bar) => ({ ...bar, fromMs: bar.fromMs + by, toMs: bar.toMs + by })),
    }));
    return { ...whole, evening: { ...whole.evening, lanes } };
  };
  const { from, to } = eveningScale(whole)!;
  for (const by of [-12, 1, 12].map((hours) => hours * 3_600_000)) {
    expect(eveningScale(moved(by))).toMatchObject({ from, to, plannedMoved: -by });
  }
  expect(eveningScale(moved(60_000))).toMatchObject({ from, to: to + 60_000, plannedMoved: 0 });
  const { container } = render(<EveningPicture review={moved(12 * 3_600_000)} />);
  expect(container.querySelector('figcaption')?.textContent).toBe('Main setplanned, from the first leave');
  const [planned] = container.querySelectorAll('rect[data-look="planned"]');
  expect(planned?.getAttribute('x')).toBe('0%');
});

test('[evening] without anything swum or planned there is no picture', () => {
  const { evening, ...whole } = review();
  const lanes = evening.lanes.map((lane) => ({ ...lane, swum: [], planned: [], stopped: [] }));
  const { container } = render(<EveningPicture review={{ ...whole, evening: { ...evening, lanes } }} />);
  expect(container.textContent).toBe('');
});
