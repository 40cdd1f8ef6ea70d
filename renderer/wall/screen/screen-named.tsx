/*
 * The screen's name, large, while the coach wants to know which screen is which: in the place of the head's words, so
 * that no leave, clock or seconds are hidden.
 */

import { useEffect, useRef, type CSSProperties, type ReactElement } from 'react';
import { useStore } from 'zustand';
import type { Link } from '../../link/link.ts';
import { createMeasure } from '../../ui/digits/measure.ts';
import type { Box } from '../faces/clock-face.ts';
import type { Layout } from '../layout.ts';
import { wordsWriter } from '../board/writers.ts';

interface ScreenNamedProps {
  readonly link: Pick<Link, 'store'>;
  readonly layout: Layout;
}

export function ScreenNamed({ link, layout }: ScreenNamedProps): ReactElement | null {
  const name = useStore(link.store, ({ naming, screen }) => (naming ? (screen?.name ?? null) : null));
  const hasRun = useStore(link.store, ({ run }) => run !== null);
  const band = useRef<HTMLParagraphElement>(null);
  const { x, y, width, height } = nameBox(layout, hasRun);
  useEffect(() => {
    if (name === null || !band.current) return;
    const size = Math.min(height * 0.78, width * 0.3);
    const place = { width: width * 0.94, height: height * 0.96, size, least: size * 0.2 };
    wordsWriter(band.current, place, createMeasure(600))(name);
  }, [name, width, height]);
  if (name === null) return null;
  const style: CSSProperties = { left: x, top: y, width, height };
  return (
    <div className="screen-named" role="status" style={style}>
      <p ref={band}>{name}</p>
    </div>
  );
}

/** Of the head above it stay, during a run: the time of day, and what the clock counts down to. */
const ABOVE = 0.28;

/** On the screen, in px. */
export function nameBox({ words, insetX, insetY }: Layout, hasRun: boolean): Box {
  const above = hasRun ? words.height * ABOVE : 0;
  return { x: insetX + words.x, y: insetY + words.y + above, width: words.width, height: words.height - above };
}
