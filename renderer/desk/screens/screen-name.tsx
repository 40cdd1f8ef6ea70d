/*
 * Another name for a wall screen. The field is there only while it is written in: keys are commands again afterwards.
 */

import { useEffect, useId, useRef, useState, type ReactElement } from 'react';
import { LONGEST_NAME, screenName } from '../../../app/core/screen/screen-name.ts';
import { Button } from '../../ui/parts/button.tsx';
import styles from './screens-panel.module.css';

interface ScreenNameProps {
  readonly name: string;
  /** Resolves with why it was not done; null where it was. */
  onRename(name: string): Promise<string | null>;
}

export function ScreenName({ name, onRename }: ScreenNameProps): ReactElement {
  const [text, setText] = useState<string | null>(null);
  // Why the name was not taken; empty once another is written.
  const [fault, setFault] = useState('');
  const faultId = useId();
  const place = useRef<HTMLDivElement>(null);
  const field = useRef<HTMLInputElement>(null);
  const isOpen = text !== null;
  useEffect(() => {
    if (isOpen) field.current?.select();
  }, [isOpen]);
  // The field with its buttons, and what is said of it.
  useEffect(() => {
    if (isOpen) place.current?.scrollIntoView({ block: 'nearest' });
  }, [isOpen, fault]);
  const write = (written: string | null): void => {
    setText(written);
    setFault('');
  };
  // Not to Rename itself: Space is Stop after Escape. Rename is the next control from here.
  const leave = (): void => {
    write(null);
    place.current?.focus();
  };
  const keep = async (wanted: string | null): Promise<void> => {
    const why = wanted === null ? 'Write a name of letters and digits, 40 at most.' : await onRename(wanted);
    if (why === null) write(null);
    else setFault(why);
  };
  return (
    <div className={styles.naming} role="group" aria-label={`Name of ${name}`} tabIndex={-1} ref={place}>
      {isOpen ? (
        <form
          className={styles.rename}
          onSubmit={(event) => {
            event.preventDefault();
            void keep(screenName(text));
          }}
          onKeyDown={(event) => {
            if (event.key !== 'Escape' || event.nativeEvent.isComposing) return;
            // It closes the field, not the panel around it.
            event.stopPropagation();
            leave();
          }}
        >
          <label className={styles.field}>
            Name
            <input
              value={text}
              maxLength={LONGEST_NAME}
              aria-invalid={fault !== ''}
              aria-describedby={faultId}
              onChange={({ target }) => write(target.value)}
              ref={field}
            />
          </label>
          <p className={styles.fault} role="alert" id={faultId}>
            {fault}
          </p>
          <Button name="Keep this name" hint="Enter" look="small" onPress={() => void keep(screenName(text))} />
          <Button name="Leave the name" hint="Esc" look="small" onPress={leave} />
        </form>
      ) : (
        <Button name={`Rename ${name}`} label="Rename" look="small" onPress={() => write(name)} />
      )}
    </div>
  );
}
