// @vitest-environment happy-dom
/* The hour as a picture: what is drawn, and the same in words. */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import type { ReactElement } from 'react';
import { afterEach, expect, test, vi } from 'vitest';
import { HourPicture } from '../../../../renderer/desk/hour/hour-picture.tsx';
import { hourPicture } from '../../../../renderer/desk/hour/hour-bars.ts';
import { writtenFit } from '../../../../renderer/desk/timetable/written-cuts.ts';
import { planOf } from '../../../support/run/deck.ts';

afterEach(cleanup);

const HOUR = `Harbour squad
start 19:30
finish 19:35
lane 1
lane 2

Warm-up
200 easy

Swim-down
4 x 50 easy @ 1:30`;

function shown(text: string, onLine: (line: number) => void = () => undefined): ReactElement {
  const plan = planOf(text);
  return <HourPicture picture={hourPicture(plan)} swimDown={writtenFit(plan)?.startBy?.at ?? null} onLine={onLine} />;
}

test('[hour] a tap on a bar goes to its line, and so does the button of its part', () => {
  const onLine = vi.fn<(line: number) => void>();
  const { container } = render(shown(HOUR, onLine));
  const bars = [...container.querySelectorAll('rect[data-kind]')];
  fireEvent.click(bars[bars.length - 1]!);
  fireEvent.click(screen.getByRole('button', { name: /^Warm-up/ }));
  expect(onLine.mock.calls).toEqual([[11], [7]]);
});

test('[hour] the picture itself is said in words: each part with its times, estimates marked', () => {
  render(shown(HOUR));
  expect(screen.getByRole('figure', { name: 'The hour' })).toBeTruthy();
  expect(screen.getAllByRole('button').map(({ textContent }) => textContent)).toEqual([
    expect.stringMatching(/^Warm-up 19:30 to ≈19:3\d/),
    expect.stringMatching(/^Swim-down ≈19:3\d(:\d\d)? to ≈19:4\d/),
  ]);
});

test('[hour] what runs over is drawn in its own shape, and a key says what marks and shapes mean', () => {
  const { container, rerender } = render(shown(HOUR));
  const hatched = (): number => container.querySelectorAll('rect[fill^="url"]').length;
  expect(hatched()).toBeGreaterThan(0);
  expect(screen.getByText('past the finish')).toBeTruthy();
  rerender(shown(HOUR.replace('19:35', '20:30')));
  expect(hatched()).toBe(0);
  expect(screen.queryByText('past the finish')).toBeNull();
  expect(screen.getByText('swim-down must start')).toBeTruthy();
  rerender(shown(HOUR.replace('finish 19:35', '')));
  expect(screen.queryByText('booked finish')).toBeNull();
});
