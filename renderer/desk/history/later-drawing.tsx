/*
 * A drawing with its words. The charting library is loaded apart; the table stands there meanwhile. Not by React's
 * Suspense, which shows for 300 ms at least that it waits, also for what has been loaded before.
 */

import { useEffect, useState, type ReactElement, type ReactNode } from 'react';
import type { Drawn } from '../drawings/what-is-drawn.ts';
import styles from './over-time.module.css';

type Draws = (props: Pick<LaterDrawingProps, 'drawn' | 'label'>) => ReactElement;

let loaded: Draws | null = null;

const load = (): Promise<Draws> =>
  import('../drawings/drawing.tsx').then(
    ({ Drawing }) => (loaded = Drawing),
    () => NoDrawing,
  );

/** To be called when what comes first stands there: the first drawing is then there at once. */
export function loadDrawings(): void {
  void load();
}

interface LaterDrawingProps {
  readonly drawn: Drawn;
  readonly label: string;
  /** How what is drawn is told apart. */
  readonly children: ReactNode;
}

export function LaterDrawing({ drawn, label, children }: LaterDrawingProps): ReactElement {
  const [Drawing, setDrawing] = useState(() => loaded);
  useEffect(() => {
    let wanted = true;
    if (Drawing === null) void load().then((draws) => wanted && setDrawing(() => draws));
    return () => void (wanted = false);
  }, [Drawing]);
  return (
    <figure className={styles.figure} aria-label={label}>
      {Drawing === null ? <p>Drawing…</p> : <Drawing drawn={drawn} label={label} />}
      <figcaption>{children}</figcaption>
    </figure>
  );
}

/** In a browser of before 2019, or where its file did not come. */
function NoDrawing(): ReactElement {
  return <p>The drawing could not be loaded. The table has the same figures.</p>;
}
