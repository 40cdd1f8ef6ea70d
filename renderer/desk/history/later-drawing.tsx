/*
 * A drawing with its words. The charting library is loaded apart; the table stands there meanwhile.
 */

import { lazy, Suspense, type ReactElement, type ReactNode } from 'react';
import type { Drawn } from '../drawings/what-is-drawn.ts';
import styles from './over-time.module.css';

const load = () =>
  import('../drawings/drawing.tsx').then(
    (module) => ({ default: module.Drawing }),
    () => ({ default: NoDrawing }),
  );

const Drawing = lazy(load);

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
  return (
    <figure className={styles.figure} aria-label={label}>
      <Suspense fallback={<p>Drawing…</p>}>
        <Drawing drawn={drawn} label={label} />
      </Suspense>
      <figcaption>{children}</figcaption>
    </figure>
  );
}

/** In a browser of before 2019, or where its file did not come. */
function NoDrawing(): ReactElement {
  return <p>The drawing could not be loaded. The table has the same figures.</p>;
}
