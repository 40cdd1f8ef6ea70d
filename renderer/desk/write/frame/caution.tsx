/*
 * What Lanecall does not do, and what comes before it. It stands at the foot, or below the timetable where the foot has no
 * room.
 */

import type { ReactElement } from 'react';
import pageStyles from '../../panel/page.module.css';

export function Caution({ className = '' }: { readonly className?: string | undefined }): ReactElement {
  return (
    <p className={`${pageStyles.caution} ${className}`}>
      Lanecall times swimmers, it does not watch them: the lifeguard and the coach keep watch. No breath-holding
      targets; effort targets only for swimmers fit to train; local pool rules and your qualification come first.
    </p>
  );
}
