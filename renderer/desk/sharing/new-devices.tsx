/*
 * News of a phone or a tablet that has just been let in, above every page for half a minute: whoever has taken a picture
 * of the code does not stay unseen.
 */

import { useState, type ReactElement } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import { useDeck, type Tools } from '../../ui/coach/use-deck.ts';
import { arrivedText, newDevices } from './sharing-words.ts';
import styles from './sharing.module.css';

export function NewDevices({ tools }: { readonly tools: Pick<Tools, 'link'> }): ReactElement | null {
  const { link } = tools;
  const arrived = newDevices(useDeck(link, (state) => state.sharing));
  const [refused, setRefused] = useState<string | null>(null);
  const throwable = arrived.filter(({ mayThrowOut }) => mayThrowOut);
  if (arrived.length === 0) return null;
  return (
    <div className={styles.arrived} role="status" aria-label="New devices">
      <div className={styles.row}>
        <p>{arrivedText(arrived)}</p>
        {throwable.map(({ id, name }) => (
          <Button
            key={id}
            name={`Throw out ${name}`}
            label={arrived.length === 1 ? 'Throw out' : undefined}
            look="small"
            onPress={() => void link.share({ do: 'throw-out', device: id }).then(({ why }) => setRefused(why))}
          />
        ))}
      </div>
      {refused === null ? null : <p>{refused}</p>}
    </div>
  );
}
