/*
 * The hatching of what is stopped or past the finish, in a picture of lanes along the time: `fill="url(#id)"`.
 */

import type { ReactElement } from 'react';
import styles from './time-picture.module.css';

export function Hatch({ id }: { readonly id: string }): ReactElement {
  return (
    <defs>
      <pattern id={id} width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect width="8" height="8" className={styles.ground} />
        <rect width="4" height="8" className={styles.stripe} />
      </pattern>
    </defs>
  );
}
