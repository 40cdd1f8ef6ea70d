/*
 * What opens beside the lanes in place of the outline: a heading, its controls, and a way to close it.
 */

import { useEffect, useRef, type ReactElement, type ReactNode, type RefObject } from 'react';
import { Button } from '../ui/parts/button.tsx';
import styles from './panel.module.css';

/** What stands beside the lanes in place of the outline. */
export type Panel =
  | { readonly kind: 'lane'; readonly lane: number }
  | { readonly kind: 'mark'; readonly lanes: readonly number[] }
  | { readonly kind: 'edit' };

interface PanelProps {
  readonly title: string;
  readonly children: ReactNode;
  /** Stands beside the heading. */
  readonly beside?: ReactNode;
  /** What gets the keyboard when it opens; the heading where nothing is named. */
  readonly first?: RefObject<HTMLElement | null>;
  onClose(): void;
}

export function SidePanel({ title, children, beside, first, onClose }: PanelProps): ReactElement {
  const heading = useRef<HTMLHeadingElement>(null);
  const panel = useRef<HTMLElement>(null);
  useEffect(() => {
    // Where all stands in one column the panel opens far below: the page goes there, and back again.
    const before = window.scrollY;
    (first ?? heading).current?.focus();
    panel.current?.scrollIntoView();
    return () => window.scrollTo(0, before);
  }, [first]);
  return (
    <section className={styles.panel} aria-label={title} ref={panel}>
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
