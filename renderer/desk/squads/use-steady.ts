/*
 * What is called later, the same from one drawing to the next: what is drawn with it alone is then not drawn anew.
 */

import { useLayoutEffect, useRef, useState } from 'react';

type Calls<Names extends string> = { readonly [name in Names]: (...given: never[]) => unknown };

/** Each does what the latest of its name does. */
export function useSteady<Names extends string, Given extends Calls<Names>>(given: Given): Given {
  const latest = useRef(given);
  useLayoutEffect(() => {
    latest.current = given;
  });
  const [steady] = useState(() => {
    const names = Object.keys(given) as Names[];
    return Object.fromEntries(
      names.map((name) => [name, (...values: never[]) => latest.current[name](...values)]),
    ) as unknown as Given;
  });
  return steady;
}
