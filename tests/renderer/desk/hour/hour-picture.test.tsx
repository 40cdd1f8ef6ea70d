// @vitest-environment happy-dom
/* The hour as a picture: what is drawn, and the same in words. */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, test, vi } from 'vitest';
import { HourPicture } from '../../../../renderer/desk/hour/hour-picture.tsx';
import { planOf } from '../../../support/deck.ts';

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

test('[hour] a tap on a bar goes to its line, and so does the button of its part', () => {
  const onLine = vi.fn<(line: number) => void>();
  const { container } = render(<HourPicture plan={planOf(HOUR)} onLine={onLine} />);
  const bars = [...container.querySelectorAll('rect[data-kind]')];
  fireEvent.click(bars[bars.length - 1]!);
  fireEvent.click(screen.getByRole('button', { name: /^Warm-up/ }));
  expect(onLine.mock.calls).toEqual([[11], [7]]);
});

test('[hour] the picture itself is said in words: each part with its times, estimates marked', () => {
  render(<HourPicture plan={planOf(HOUR)} onLine={() => undefined} />);
  expect(screen.getByRole('figure', { name: 'The hour' })).toBeTruthy();
  expect(screen.getAllByRole('button').map(({ textContent }) => textContent)).toEqual([
    expect.stringMatching(/^Warm-up 19:30 to ≈19:3\d/),
    expect.stringMatching(/^Swim-down ≈19:3\d(:\d\d)? to ≈19:4\d/),
  ]);
});

test('[hour] what runs over is drawn in its own shape, and a key says what marks and shapes mean', () => {
  const { container, rerender } = render(<HourPicture plan={planOf(HOUR)} onLine={() => undefined} />);
  const hatched = (): number => container.querySelectorAll('rect[fill^="url"]').length;
  expect(hatched()).toBeGreaterThan(0);
  expect(screen.getByText('past the finish')).toBeTruthy();
  rerender(<HourPicture plan={planOf(HOUR.replace('19:35', '20:30'))} onLine={() => undefined} />);
  expect(hatched()).toBe(0);
  expect(screen.queryByText('past the finish')).toBeNull();
  expect(screen.getByText('swim-down must start')).toBeTruthy();
  rerender(<HourPicture plan={planOf(HOUR.replace('finish 19:35', ''))} onLine={() => undefined} />);
  expect(screen.queryByText('booked to')).toBeNull();
});
