/*
 * A panel to write a note into the record. A mark changes nothing in the run.
 */

import { useRef, useState, type FormEvent, type ReactElement } from 'react';
import { MARK_LIMIT } from '../../../app/core/run/command/command-fields.ts';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { lanesOrAll } from '../../../app/core/words/lanes.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { SidePanel } from '../panel/panel.tsx';
import fieldStyles from '../panel/field.module.css';
import styles from '../panel/panel.module.css';

interface MarkPanelProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  /** The lanes chosen when it was opened, because the choice may end while the coach types; empty for all. */
  readonly lanes: readonly number[];
  onClose(): void;
}

export function MarkPanel({ tools, moment, lanes, onClose }: MarkPanelProps): ReactElement {
  const [words, setWords] = useState('');
  const field = useRef<HTMLInputElement>(null);
  const mark = (): void => {
    const named = lanes.filter((lane) =>
      moment.view.lanes.some(({ number, state }) => number === lane && state !== 'out'),
    );
    void tools.actions
      .press({ do: 'mark', ...(named.length > 0 ? { lanes: named } : {}), ...(words === '' ? {} : { words }) })
      .then((ok) => (ok ? onClose() : undefined));
  };
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    mark();
  };
  return (
    <SidePanel title={`Mark, ${lanesOrAll(lanes)}`} first={field} onClose={onClose}>
      <form onSubmit={submit} className={styles.group}>
        <label className={fieldStyles.field}>
          For the record
          <input
            value={words}
            maxLength={MARK_LIMIT}
            onChange={(event) => setWords(event.target.value)}
            placeholder="cramp"
            ref={field}
          />
        </label>
        <Button name="Mark it" onPress={mark} />
      </form>
    </SidePanel>
  );
}
