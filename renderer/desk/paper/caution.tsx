/*
 * The caution at the foot of every sheet.
 */

import type { ReactElement } from 'react';
import styles from './sheets.module.css';

export function Caution(): ReactElement {
  return (
    <p className={styles.caution}>
      The lifeguard and the coach keep watch. No breath-holding targets. Effort targets only for swimmers fit to train.
      Local pool rules and the coach’s licence and qualification come first. Screens on mains power stand outside the
      pool’s zones, on a protected circuit, set up by a competent person.
    </p>
  );
}
