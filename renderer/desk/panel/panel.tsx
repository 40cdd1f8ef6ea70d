/*
 * A panel beside the lanes, in place of the outline: a heading, controls, and a button that closes it. It is no dialog of
 * React Aria's: that would hold the focus and hide the rest of the page, and Stop must stay in reach. Escape closes it
 * wherever the focus is (`actions/use-run-keys.ts`).
 */

import { useEffect, useRef, type ReactElement, type ReactNode, type RefObject } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import styles from './panel.module.css';

/** Which panel is open. */
export type Panel =
  | { readonly kind: 'lane'; readonly lane: number }
  | { readonly kind: 'mark'; readonly lanes: readonly number[] }
  | { readonly kind: 'edit'; readonly byTouch?: boolean }
  | { readonly kind: 'screens' }
  | { readonly kind: 'times' };

interface PanelProps {
  readonly title: string;
  readonly children: ReactNode;
  readonly className?: string | undefined;
  /** Stands beside the heading. */
  readonly beside?: ReactNode;
  /** Gets the focus when the panel opens; without one, the heading does. */
  readonly first?: RefObject<HTMLElement | null>;
  onClose(): void;
}

export function SidePanel({ title, children, className = '', beside, first, onClose }: PanelProps): ReactElement {
  const heading = useRef<HTMLHeadingElement>(null);
  const panel = useRef<HTMLElement>(null);
  useEffect(() => {
    // On a phone the panel opens far down the page, so scroll there, and back afterwards.
    const before = window.scrollY;
    (first ?? heading).current?.focus();
    panel.current?.scrollIntoView();
    return () => window.scrollTo(0, before);
  }, [first]);
  return (
    <section className={`${styles.panel} ${className}`} aria-label={title} ref={panel}>
      <div className={styles.head}>
        <h2 tabIndex={-1} ref={heading}>
          {title}
        </h2>
        {beside}
        <Button name="Close" hint="Esc" keys="Escape" look="small" onPress={onClose} />
      </div>
      {children}
    </section>
  );
}
