/*
 * The screen's name, large over everything, while the coach wants to know which screen is which.
 */

import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import type { Link } from '../../link/link.ts';

export function ScreenNamed({ link }: { readonly link: Pick<Link, 'store'> }): ReactElement | null {
  const name = useStore(link.store, ({ naming, screen }) => (naming ? (screen?.name ?? null) : null));
  if (name === null) return null;
  return (
    <p className="screen-named" role="status">
      {name}
    </p>
  );
}
