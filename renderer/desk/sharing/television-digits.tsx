/*
 * How a television is let in: it opens the address and shows four digits, which are typed here.
 */

import { useId, useRef, useState, type ReactElement } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import { useSaid } from './use-said.ts';
import { showingText } from './sharing-words.ts';
import type { Want } from './want.ts';
import styles from './sharing.module.css';

interface TelevisionProps {
  /** Of the network's pages. */
  readonly address: string;
  /** How many screens show digits now. */
  readonly showing: number;
  /** Its answer is said beside the field. */
  readonly onAsk: Want;
}

const FOUR = /^\d{4}$/;

export function TelevisionDigits({ address, showing, onAsk }: TelevisionProps): ReactElement {
  const [digits, setDigits] = useState('');
  const [said, say] = useSaid();
  const [isWrong, setWrong] = useState(false);
  const saidId = useId();
  const field = useRef<HTMLInputElement>(null);
  const answer = (why: string | null): void => {
    setWrong(why !== null);
    say(why ?? 'The screen is in.');
    if (why !== null) return field.current?.select();
    setDigits('');
    // Keys are commands again.
    field.current?.blur();
  };
  const letIn = (): void => {
    if (FOUR.test(digits)) void onAsk({ do: 'let-in', digits }).then(answer);
    else answer('Type the four digits that the screen shows.');
  };
  return (
    <div className={styles.group} role="group" aria-label="Televisions">
      <h3>Televisions</h3>
      <p>Open this address in the television’s browser:</p>
      <p className={styles.address}>{address}</p>
      <form
        className={styles.row}
        onSubmit={(event) => {
          event.preventDefault();
          letIn();
        }}
      >
        <label className={styles.field}>
          Type the digits that the screen shows
          <input
            className={styles.digits}
            value={digits}
            inputMode="numeric"
            autoComplete="off"
            maxLength={4}
            aria-invalid={isWrong && said !== ''}
            aria-describedby={saidId}
            onChange={({ target }) => {
              setDigits(target.value.replace(/\D/g, ''));
              say('');
              setWrong(false);
            }}
            ref={field}
          />
        </label>
        <Button name="Let the screen in" hint="Enter" look="small" onPress={letIn} />
      </form>
      <p
        className={isWrong && said !== '' ? styles.trouble : styles.quiet}
        role="status"
        aria-label="Of the digits"
        id={saidId}
      >
        {said === '' ? showingText(showing) : said}
      </p>
    </div>
  );
}
