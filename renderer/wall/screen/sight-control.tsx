/*
 * Opens the sight check of this screen: from how far away it can be read. It is loaded only when somebody asks.
 */

import { lazy, Suspense, useEffect, useState, type ReactElement } from 'react';
import type { Link } from '../../link/link.ts';
import { Region } from '../../ui/region.tsx';

interface SightControlProps {
  readonly link: Link;
  /** Told also when it goes while open. */
  onOpen(open: boolean): void;
}

export function SightControl({ link, onOpen }: SightControlProps): ReactElement {
  const [open, setOpen] = useState(false);
  useEffect(() => {
    onOpen(open);
    return () => onOpen(false);
  }, [open, onOpen]);
  useEffect(() => {
    if (!open) return;
    const pressed = ({ key }: KeyboardEvent): void => {
      if (key === 'Escape') setOpen(false);
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, [open]);
  return (
    <>
      {open ? (
        <Region name="The sight check" advice="The clock and the leaves go on." link={link}>
          <Check link={link} />
        </Region>
      ) : null}
      <button type="button" className="sound-control" aria-expanded={open} onClick={() => setOpen(!open)}>
        How far it can be read
      </button>
    </>
  );
}

/** A file that did not come is asked for again the next time, which one lazy component would not do. */
function Check({ link }: { readonly link: Link }): ReactElement {
  const [Loaded] = useState(() =>
    lazy(() => import('../sight/sight-check.tsx').then((module) => ({ default: module.SightCheck }))),
  );
  return (
    <Suspense fallback={null}>
      <Loaded link={link} />
    </Suspense>
  );
}
