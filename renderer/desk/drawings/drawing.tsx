/*
 * A drawing of the charting library, as wide as its place. The library puts a style sheet into its drawing, which the
 * policy of the page refuses: it is taken out before the drawing is put in, and what it says stands in ours.
 */

import { useEffect, useRef, type ReactElement } from 'react';
import { plot } from '@observablehq/plot';
import { plotOf } from './plots.ts';
import type { Drawn } from './what-is-drawn.ts';
import styles from './drawing.module.css';

interface DrawingProps {
  readonly drawn: Drawn;
  /** What it is called for assistive technology; the table below says the same in figures. */
  readonly label: string;
}

/** In px, where its place has no width yet, and at least. */
const USUAL = 640;
const LEAST = 300;

export function Drawing({ drawn, label }: DrawingProps): ReactElement {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const draw = (): void => {
      const width = Math.max(LEAST, place.current?.clientWidth || USUAL);
      const svg = plot({ ...plotOf(drawn), width, figure: false });
      svg.querySelectorAll('style').forEach((sheet) => sheet.remove());
      // Within an image nothing has a name of its own.
      svg.querySelectorAll('[aria-label]').forEach((part) => part.removeAttribute('aria-label'));
      svg.setAttribute('role', 'img');
      svg.setAttribute('aria-label', label);
      place.current?.replaceChildren(svg);
    };
    draw();
    window.addEventListener('resize', draw);
    return () => window.removeEventListener('resize', draw);
  }, [drawn, label]);
  return <div className={styles.drawing} ref={place} />;
}
