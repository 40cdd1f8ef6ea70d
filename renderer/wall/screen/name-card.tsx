/*
 * The screen's name, large in a band at the foot, while the coach asks which screen is which. The board stands above
 * it, smaller meanwhile: a next leave is never hidden.
 */

import { useEffect, type ReactElement } from 'react';
import { createPortal } from 'react-dom';
import { useStore } from 'zustand';
import type { Link } from '../../link/link.ts';
import './name-card.css';

export function NameCard({ link }: { readonly link: Link }): ReactElement | null {
  const name = useStore(link.store, ({ naming, screen }) => (naming ? (screen?.name ?? null) : null));
  const isShown = name !== null;
  useEffect(() => {
    document.documentElement.toggleAttribute('data-naming', isShown);
  }, [isShown]);
  if (name === null) return null;
  // A long name is as large as the width lets it be.
  const size = { '--letters': Math.max(8, name.length) } as { readonly [property: string]: number };
  return createPortal(
    <p className="name-card" role="status" style={size}>
      {name}
    </p>,
    document.body,
  );
}
