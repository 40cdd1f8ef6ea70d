/*
 * A button that opens a file of this machine: the browser's own field lies over it, unseen, and takes the press.
 */

import type { ReactElement } from 'react';
import styles from './file-button.module.css';

interface FileButtonProps {
  /** The accessible name. */
  readonly name: string;
  readonly label: string;
  /** As the field has it: the endings and types that are offered. */
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
          // Else the same file, changed on the disk, could not be opened a second time.
          target.value = '';
        }}
      />
    </label>
  );
}
