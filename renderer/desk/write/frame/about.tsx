/*
 * The program's version and the licences of what it carries, for whoever wants to know: read only then.
 */

import { useState, type ReactElement } from 'react';
import { readLicences } from '../../../link/requests/licences.ts';
import styles from './about.module.css';

export function About(): ReactElement {
  const [text, setText] = useState<string | null>(null);
  const read = (): void => {
    readLicences().then(setText, () => setText('They cannot be read: start Lanecall again and try once more.'));
  };
  return (
    <details className={styles.about} onToggle={({ currentTarget }) => currentTarget.open && read()}>
      <summary>Version and licences</summary>
      {/* Focusable, so that keys scroll it. */}
      <pre tabIndex={0} aria-label="Version and licences">
        {text ?? 'One moment…'}
      </pre>
    </details>
  );
}
