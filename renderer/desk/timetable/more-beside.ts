/*
 * On which sides of a place that scrolls sideways there is more, for its shades. A cover of the card's colour that goes along
 * with what scrolls would need no script, and would hide the shade at the card's foot too.
 */

import { useEffect, useRef, type RefObject } from 'react';

/** The place, whose first child is what scrolls in it, gets `data-more`: "left", "right", "left right" or "". */
export function useMoreBeside(): RefObject<HTMLDivElement | null> {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const wide = place.current;
    if (!wide) return undefined;
    const mark = (): void => {
      const { scrollLeft, scrollWidth, clientWidth } = wide;
      // Widths are rounded, and where it is scrolled to is not.
      const sides = [scrollLeft > 1 ? 'left' : '', scrollWidth - clientWidth - scrollLeft > 1 ? 'right' : ''];
      wide.dataset['more'] = sides.filter((side) => side !== '').join(' ');
    };
    mark();
    const sized = new ResizeObserver(mark);
    for (const each of [wide, ...Array.from(wide.children)]) sized.observe(each);
    wide.addEventListener('scroll', mark, { passive: true });
    return () => {
      sized.disconnect();
      wide.removeEventListener('scroll', mark);
    };
  }, []);
  return place;
}
