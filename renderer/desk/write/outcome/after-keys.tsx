/*
 * What is drawn anew only once the keys are done with: a key that is typed does not wait for it.
 */

import { useDeferredValue, type ReactElement, type ReactNode } from 'react';

/** Nothing in it may be typed into, unless it keeps what is typed by itself. */
export function AfterKeys({ children }: { readonly children: ReactNode }): ReactElement {
  return <>{useDeferredValue(children)}</>;
}
