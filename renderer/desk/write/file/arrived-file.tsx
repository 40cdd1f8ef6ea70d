/*
 * A session file that comes in from outside the editor: dropped on the window while there is a run, or
 * given to the program. Its text goes into the editor; a run that is going stays on the screen.
 */

import { useEffect, useState, type DragEvent, type ReactElement } from 'react';
import { onSessionFile, type SessionFile } from '../../../link/connection/own-window.ts';
import { Button } from '../../../ui/parts/button.tsx';
import { readSessionFile } from './session-file.ts';
import type { Writing } from '../writing.ts';
import styles from '../../notices.module.css';

export interface ArrivedFile {
  /** What is to be said of the last one; null once it has been read. */
  readonly said: string | null;
  read(): void;
  /** The text in the editor had faults, and the last of them is mended. */
  mended(): void;
  /** For the element that files are dropped on. */
  drop(event: DragEvent): void;
}

interface Arriving {
  readonly writing: Writing;
  /** Of the run that is open. */
  readonly runId: () => string | null;
  readonly isGoing: () => boolean;
  /** There is a new text in the editor that may be shown at once. */
  onText(): void;
}

export function useArrivedFile({ writing, runId, isGoing, onText }: Arriving): ArrivedFile {
  const [said, setSaid] = useState<string | null>(null);
  // Whether that is about a text in the editor, and not about a file that could not be read.
  const [isOfText, setIsOfText] = useState(false);
  const take = ({ name, text, lanesText, why }: SessionFile): void => {
    if (text !== null) {
      writing.put({ text, lanesText: lanesText ?? '', from: name, during: runId() });
      if (!isGoing()) onText();
    }
    setIsOfText(text !== null);
    setSaid(why === '' ? null : why);
  };
  const dropped = async (file: File): Promise<void> => {
    const read = await readSessionFile(file);
    const { name } = file;
    if (read.ok) take({ name, text: read.text, lanesText: null, why: isGoing() ? inEditor(name) : '' });
    else take({ name, text: null, lanesText: null, why: read.why });
  };
  useEffect(() => onSessionFile(take));
  return {
    said,
    read: () => setSaid(null),
    mended: () => (isOfText ? setSaid(null) : undefined),
    drop(event) {
      // The editor takes what is dropped on it itself.
      if (event.defaultPrevented) return;
      event.preventDefault();
      const [file] = event.dataTransfer.files;
      if (file) void dropped(file);
    },
  };
}

export function ArrivedFileNotice({ file }: { readonly file: ArrivedFile }): ReactElement | null {
  if (file.said === null) return null;
  return (
    <div className={styles.notices} role="status">
      <p>{file.said}</p>
      <div className={styles.answer}>
        <Button name="Close this" look="small" onPress={file.read} />
      </div>
    </div>
  );
}

function inEditor(name: string): string {
  return `${name} is in the editor. You can run it when this run is over.`;
}
