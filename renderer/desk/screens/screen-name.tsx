/*
 * Another name for a wall screen. The field is there only while it is written in: keys are commands again afterwards.
 */

import { useEffect, useRef, useState, type FormEvent, type KeyboardEvent, type ReactElement } from 'react';
import { LONGEST_NAME, screenName } from '../../../app/core/screen/screen-name.ts';
import { Button } from '../../ui/parts/button.tsx';
import styles from './screens-panel.module.css';

interface ScreenNameProps {
  readonly name: string;
  onRename(name: string): Promise<boolean>;
  onRefused(why: string): void;
}

export function ScreenName({ name, onRename, onRefused }: ScreenNameProps): ReactElement {
  const [text, setText] = useState<string | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const isOpen = text !== null;
  useEffect(() => {
    if (isOpen) field.current?.select();
  }, [isOpen]);
  if (!isOpen) {
    return <Button name={`Rename ${name}`} label="Rename" look="small" onPress={() => setText(name)} />;
  }
  const keep = (): void => {
    const wanted = screenName(text);
    if (wanted === null) return onRefused('Write a name of letters and digits, 40 at most.');
    void onRename(wanted).then((ok) => (ok ? setText(null) : undefined));
  };
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    keep();
  };
  const leave = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.nativeEvent.isComposing) return;
    // It closes the field, not the panel around it.
    event.stopPropagation();
    setText(null);
  };
  return (
    <form className={styles.rename} onSubmit={submit} onKeyDown={leave}>
      <label className={styles.field}>
        Name
        <input value={text} maxLength={LONGEST_NAME} onChange={({ target }) => setText(target.value)} ref={field} />
      </label>
      <Button name="Keep this name" hint="Enter" look="small" onPress={keep} />
      <Button name="Leave the name" hint="Esc" look="small" onPress={() => setText(null)} />
    </form>
  );
}
