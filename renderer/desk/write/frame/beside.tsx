/*
 * What may be open beside the text in place of what it comes to: one thing at a time.
 */

import { useState, type ReactElement, type ReactNode } from 'react';
import type { DeskTools } from '../../desk-tools.ts';
import { Part } from '../../panel/part.tsx';
import { useNotationKey } from '../../reference/use-notation-key.ts';
import { useScreensToggle } from '../../screens/screens-button.tsx';
import { useEscape } from '../../squads/use-escape.ts';
import pageStyles from '../../panel/page.module.css';
import styles from '../write-screen.module.css';

export type BesideName = 'screens' | 'lanes' | 'notation';

export interface BesideToggle {
  readonly open: BesideName | null;
  toggle(name: BesideName): void;
  close(): void;
}

/** The screens have a key of their own here, as they have while a run goes on; F1 is the notation's. */
export function useBeside(): BesideToggle {
  const [screensOpen, toggleScreens] = useScreensToggle();
  const [other, setOther] = useState<'lanes' | 'notation' | null>(null);
  const open = screensOpen ? 'screens' : other;
  const close = (): void => {
    if (screensOpen) toggleScreens();
    setOther(null);
  };
  const toggle = (name: BesideName): void => {
    if (name === 'screens') return toggleScreens();
    if (screensOpen) toggleScreens();
    setOther(open === name ? null : name);
  };
  // One Escape is one step: the screens stand over what else is open.
  useEscape(() => (screensOpen ? undefined : setOther(null)));
  useNotationKey(() => toggle('notation'));
  return { open, toggle, close };
}

interface BesideProps {
  readonly tools: DeskTools;
  readonly name: string;
  readonly children: ReactNode;
  readonly onClose?: () => void;
}

export function Beside({ tools, name, children, ...close }: BesideProps): ReactElement {
  return (
    <div className={`${styles.plan} ${pageStyles.card} ${pageStyles.scrolls}`}>
      <Part tools={tools} name={name} {...close}>
        {children}
      </Part>
    </div>
  );
}
