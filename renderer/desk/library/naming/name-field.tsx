/*
 * Another name for a session or a piece. The field is there only while it is written in.
 */

import { useEffect, useRef, useState, type FormEvent, type KeyboardEvent, type ReactElement } from 'react';
import { Button } from '../../../ui/parts/button.tsx';
import fieldStyles from '../../panel/field.module.css';
import styles from '../sessions-panel.module.css';

interface NameFieldProps {
  readonly name: string;
  /** Resolves to whether it has that name now. */
  onRename(to: string): Promise<boolean>;
}

export function NameField({ name, onRename }: NameFieldProps): ReactElement {
  const [text, setText] = useState<string | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const isOpen = text !== null;
  useEffect(() => {
    if (isOpen) field.current?.select();
  }, [isOpen]);
  if (!isOpen) return <Button name={`Rename ${name}`} label="Rename…" look="small" onPress={() => setText(name)} />;
  const keep = (): void => void onRename(text).then((ok) => (ok ? setText(null) : undefined));
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
    <form className={styles.form} onSubmit={submit} onKeyDown={leave}>
      <label className={fieldStyles.field}>
        Name
        <input value={text} maxLength={200} onChange={({ target }) => setText(target.value)} ref={field} />
      </label>
      <Button name="Keep this name" hint="Enter" look="small" onPress={keep} />
      <Button name="Leave the name" hint="Esc" look="small" onPress={() => setText(null)} />
    </form>
  );
}
