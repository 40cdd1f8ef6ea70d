/*
 * News of a phone or a tablet that has just been let in, above every page for half a minute: whoever has taken a picture
 * of the code does not stay unseen.
 */

import { useState, type ReactElement } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import { useDeck, type Tools } from '../../ui/coach/use-deck.ts';
import { newDevices, roleName } from './sharing-words.ts';
import styles from './sharing.module.css';

export function NewDevices({ tools }: { readonly tools: Pick<Tools, 'link'> }): ReactElement | null {
  const { link } = tools;
  const arrived = newDevices(useDeck(link, (state) => state.sharing));
  const [refused, setRefused] = useState<string | null>(null);
  if (arrived.length === 0) return null;
  return (
    <div className={styles.arrived} role="status" aria-label="New devices">
      {arrived.map(({ id, role, name }) => (
        <div className={styles.row} key={id}>
          <p>
            A {roleName(role)} is in: “{name}”. Not yours?
          </p>
          <Button
            name={`Throw out ${name}`}
            label="Throw out"
            look="small"
            onPress={() => void link.share({ do: 'throw-out', device: id }).then(({ why }) => setRefused(why))}
          />
        </div>
      ))}
      {refused === null ? null : <p>{refused}</p>}
    </div>
  );
}
