/*
 * A long list, drawn in blocks. A block far out of sight is only an empty space of its height: a session may have
 * thousands of parts, of which a screen shows a few.
 */

import { useLayoutEffect, useRef, useState, type ReactElement, type ReactNode } from 'react';

/** A session as coaches write them is one block, drawn whole. */
const WHOLE = 60;

/** Rows to a block of a longer one: about a screen. */
const ROWS = 20;

/** Blocks are drawn this far before they come into sight, in px: most of a screen. */
const AHEAD = 600;

/** Rows in groups of about `ROWS`, or all in one; `size`: how many rows an entry takes. */
export function inBlocks<Entry>(
  entries: readonly Entry[],
  size: (entry: Entry) => number = () => 1,
): readonly (readonly Entry[])[] {
  const all = entries.reduce((sum, entry) => sum + size(entry), 0);
  const most = all <= WHOLE ? WHOLE : ROWS;
  const blocks: Entry[][] = [[]];
  let rows = 0;
  for (const entry of entries) {
    if (rows >= most) {
      blocks.push([]);
      rows = 0;
    }
    blocks[blocks.length - 1]!.push(entry);
    rows += size(entry);
  }
  return blocks;
}

interface BlockProps {
  readonly as: 'ol' | 'tbody';
  readonly className?: string | undefined;
  /** How many rows it has, and the height of one in the style sheet, in px: together its height until it is drawn. */
  readonly rows: number;
  readonly rowHeight: number;
  /** Drawn whether in sight or not. */
  readonly always: boolean;
  /** Makes its rows, only while they are drawn. */
  children(): ReactNode;
}

export function Block({ as, className, rows, rowHeight, always, children }: BlockProps): ReactElement {
  const list = useRef<HTMLOListElement>(null);
  const body = useRef<HTMLTableSectionElement>(null);
  // A browser without it cannot tell what is in sight: then all is drawn.
  const [near, setNear] = useState(typeof IntersectionObserver === 'undefined');
  const [height, setHeight] = useState(rows * rowHeight);
  useLayoutEffect(() => {
    const own = list.current ?? body.current;
    if (!own || always || typeof IntersectionObserver === 'undefined') return undefined;
    const watch = new IntersectionObserver(
      (entries) => {
        const last = entries[entries.length - 1];
        if (!last) return;
        // Once drawn, it keeps its real height.
        if (!last.isIntersecting && own.childElementCount > 1) setHeight(own.offsetHeight);
        setNear(last.isIntersecting);
      },
      { root: scrollerOf(own), rootMargin: `${AHEAD}px 0px` },
    );
    watch.observe(own);
    return () => watch.disconnect();
  }, [always]);
  const drawn = always || near;
  const style = { height: `${height}px` };
  return as === 'ol' ? (
    <ol ref={list} className={className} role="list">
      {drawn ? children() : <li aria-hidden="true" style={style} />}
    </ol>
  ) : (
    <tbody ref={body} className={className}>
      {drawn ? children() : <tr aria-hidden="true" style={style} />}
    </tbody>
  );
}

/** The nearest element round it that scrolls; null for the page. */
function scrollerOf(element: HTMLElement): HTMLElement | null {
  for (let each = element.parentElement; each; each = each.parentElement) {
    if (/auto|scroll/.test(getComputedStyle(each).overflowY)) return each;
  }
  return null;
}
