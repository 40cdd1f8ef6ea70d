/*
 * Above every page: that a rehearsal has ended by itself, until the coach has read it.
 */

import type { ReactElement } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import type { RehearsalChoice } from './use-rehearsal.ts';
import styles from '../notices.module.css';

export function RehearsalEnded({ rehearsal }: { readonly rehearsal: RehearsalChoice }): ReactElement | null {
  if (rehearsal.ended === null) return null;
  return (
    <div className={styles.notices} role="status" aria-label="The rehearsal">
      <p>{rehearsal.ended}</p>
      <div className={styles.answer}>
        <Button name="I have read it" look="small" onPress={rehearsal.read} />
      </div>
    </div>
  );
}
