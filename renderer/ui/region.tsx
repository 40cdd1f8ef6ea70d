/*
 * A region of a page that fails by itself: where something in it throws, a sentence stands in its place and
 * says what to do, and everything else on the page goes on. It is drawn anew when the host says something
 * new, and when somebody asks for it.
 */

import { Component, useEffect, useState, type ReactElement, type ReactNode } from 'react';
import type { Link } from '../link/link.ts';
import { reportMishap } from '../link/mishap.ts';
import './region.css';

interface RegionProps {
  /** As the sentence begins: "The head". */
  readonly name: string;
  /** What to do meanwhile, in a sentence. */
  readonly advice: string;
  /** The grid area that the sentence stands in. */
  readonly area?: string | undefined;
  /** Whose news are a reason to draw it again. */
  readonly link?: Pick<Link, 'store'>;
  /** Drawn again where this is another than before. */
  readonly again?: unknown;
  /** Stands below the sentence: what nobody can do without. */
  readonly instead?: ReactNode;
  readonly children: ReactNode;
}

export function Region({ name, advice, area, link, again, instead, children }: RegionProps): ReactElement {
  const [failed, setFailed] = useState(false);
  const [attempt, setAttempt] = useState({ n: 0, again });
  const redraw = (): void => setAttempt(({ n }) => ({ n: n + 1, again }));
  // While rendering, so that what is new is never kept from being drawn for a frame.
  if (failed && attempt.again !== again) redraw();
  useEffect(() => {
    if (!failed || !link) return undefined;
    return link.store.subscribe(() => setAttempt((before) => ({ ...before, n: before.n + 1 })));
  }, [failed, link]);
  return (
    <>
      {failed ? (
        // Outside of what is drawn again: a screen reader says it once, however often that fails.
        <div className="region-failed" style={{ gridArea: area }}>
          <p role="alert">
            <strong>{name} cannot be drawn.</strong> {advice}
          </p>
          <button
            type="button"
            aria-label={`Draw it again: ${name}`}
            onMouseDown={(event) => event.preventDefault()}
            onClick={redraw}
          >
            Draw it again
          </button>
          {instead}
        </div>
      ) : null}
      <Catcher key={attempt.n} where={name} onFailed={() => setFailed(true)}>
        {children}
        {failed ? <Drawn onDrawn={() => setFailed(false)} /> : null}
      </Catcher>
    </>
  );
}

/**
 * Tells that everything beside it has been drawn again. Only there after a failure: an update that follows every draw
 * is a loop to React, and at fast typing it gives up (#185) and letters are lost.
 */
function Drawn({ onDrawn }: { onDrawn(): void }): null {
  useEffect(onDrawn);
  return null;
}

interface CatcherProps {
  readonly where: string;
  onFailed(): void;
  readonly children: ReactNode;
}

class Catcher extends Component<CatcherProps, { readonly failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError(): { readonly failed: boolean } {
    return { failed: true };
  }

  override componentDidCatch(error: unknown): void {
    reportMishap(`drawing: ${this.props.where}`, error);
    this.props.onFailed();
  }

  override render(): ReactNode {
    return this.state.failed ? null : this.props.children;
  }
}
