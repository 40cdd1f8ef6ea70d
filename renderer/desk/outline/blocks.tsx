/*
 * A long list, drawn in blocks: of those that are not near what is in sight only the room is there. A session may
 * have thousands of parts, and none of them more than a screenful to be seen at once.
 */

import { useLayoutEffect, useRef, useState, type ReactElement, type ReactNode } from 'react';

/** Rows to a block; lists with fewer than two blocks' rows are drawn as they are. */
const ROWS = 60;

/** Blocks are drawn this far before they come into sight, in px: about a screen. */
const AHEAD = 900;

/** Rows in groups of about `ROWS`; `size`: how many rows an entry takes. */
export function inBlocks<Entry>(
  entries: readonly Entry[],
  size: (entry: Entry) => number = () => 1,
): readonly (readonly Entry[])[] {
  const blocks: Entry[][] = [[]];
  let rows = 0;
  for (const entry of entries) {
    if (rows >= ROWS) {
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
  /** How many rows are in it, and how high one is by the style sheet, in px: its height until it has been drawn. */
  readonly rows: number;
  readonly rowHeight: number;
  /** Drawn whether in sight or not. */
  readonly always: boolean;
  /** Its rows; asked for only while they are drawn. */
  children(): ReactNode;
}

export function Block({ as, className, rows, rowHeight, always, children }: BlockProps): ReactElement {
  const list = useRef<HTMLOListElement>(null);
  const body = useRef<HTMLTableSectionElement>(null);
  // Where nobody can say what is in sight, all is drawn.
  const [near, setNear] = useState(typeof IntersectionObserver === 'undefined');
  const [height, setHeight] = useState(rows * rowHeight);
  useLayoutEffect(() => {
    const own = list.current ?? body.current;
    if (!own || always || typeof IntersectionObserver === 'undefined') return undefined;
    const watch = new IntersectionObserver(
      (entries) => {
        const last = entries[entries.length - 1];
        if (!last) return;
        // What has been drawn knows its height.
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
