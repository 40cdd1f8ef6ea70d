// @vitest-environment happy-dom
/*
 * The shades beside a timetable that is wider than its place: only where there is more, so that nothing covers the foot's.
 */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import type { ReactElement } from 'react';
import { afterEach, expect, test, vi } from 'vitest';
import { useMoreBeside } from '../../../../renderer/desk/timetable/more-beside.ts';

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

function Wide(): ReactElement {
  return (
    <div ref={useMoreBeside()} role="group">
      <p>lanes</p>
    </div>
  );
}

test('[timetable] there is more at the right, then on both sides, then at the left; none where all is in sight', () => {
  vi.spyOn(HTMLElement.prototype, 'clientWidth', 'get').mockReturnValue(300);
  const wide = vi.spyOn(HTMLElement.prototype, 'scrollWidth', 'get').mockReturnValue(300);
  const { unmount } = render(<Wide />);
  expect(screen.getByRole('group').dataset['more']).toBe('');
  unmount();
  wide.mockReturnValue(500);
  render(<Wide />);
  const place = screen.getByRole('group');
  const seen = [place.dataset['more']];
  for (const to of [100, 199.5]) {
    place.scrollLeft = to;
    fireEvent.scroll(place);
    seen.push(place.dataset['more']);
  }
  expect(seen).toEqual(['right', 'left right', 'left']);
});
