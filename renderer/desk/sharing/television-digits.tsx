/*
 * How a television is let in: it opens the address and shows four digits, which are typed here.
 */

import { useId, useRef, useState, type ReactElement } from 'react';
import type { SharedDevice } from '../../link/store.ts';
import { Button } from '../../ui/parts/button.tsx';
import { useSaid } from './use-said.ts';
import { letInText, showingText } from './sharing-words.ts';
import type { Want } from './want.ts';
import styles from './sharing.module.css';

interface TelevisionProps {
  /** Of the network's pages. */
  readonly address: string;
  /** How many screens show digits now. */
  readonly showing: number;
  /** All that were let in. */
  readonly devices: readonly SharedDevice[];
  /** Its answer is said beside the field. */
  readonly onAsk: Want;
}

/** Stands for the sentence about the screen that has come in, whose name may still change. */
const IN = 'in';

const FOUR = /^\d{4}$/;

export function TelevisionDigits({ address, showing, devices, onAsk }: TelevisionProps): ReactElement {
  const [digits, setDigits] = useState('');
  const [said, say] = useSaid();
  const [isWrong, setWrong] = useState(false);
  // What was in before the last digits were typed. The host may tell of the new one after its answer.
  const [before, setBefore] = useState<readonly string[] | null>(null);
  const saidId = useId();
  const field = useRef<HTMLInputElement>(null);
  const answer = (why: string | null): void => {
    setWrong(why !== null);
    say(why ?? IN);
    if (why !== null) return field.current?.select();
    setDigits('');
    // Keys are commands again.
    field.current?.blur();
  };
  const letIn = (): void => {
    if (!FOUR.test(digits)) return answer('Type the four digits that the screen shows.');
    setBefore(devices.map(({ id }) => id));
    void onAsk({ do: 'let-in', digits }).then(answer);
  };
  const news = said === IN ? letInText(devices.find(({ id, role }) => role === 'wall' && !before?.includes(id))) : said;
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
        {news === '' ? showingText(showing) : news}
      </p>
    </div>
  );
}
