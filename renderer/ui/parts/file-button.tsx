/*
 * A button that opens a file of this computer. The browser's own file field lies over it, invisible, and takes the press.
 */

import type { ReactElement } from 'react';
import styles from './file-button.module.css';

interface FileButtonProps {
  /** The accessible name. */
  readonly name: string;
  readonly label: string;
  /** Which files are offered, as the `accept` attribute of the field. */
  readonly accept: string;
  onFile(file: File | undefined): void;
}

export function FileButton({ name, label, accept, onFile }: FileButtonProps): ReactElement {
  return (
    <label className={styles.file}>
      {label}
      <input
        type="file"
        accept={accept}
        aria-label={name}
        onChange={({ target }) => {
          onFile(target.files?.[0]);
          // Without this, the same file could not be opened again after it was changed on the disk.
          target.value = '';
        }}
      />
    </label>
  );
}
