/*
 * "Match the pool's clock": a tap as the hand on the pool's wall passes 60, so that starts fall on round
 * readings of that clock.
 */

import { useRef, useState, type ReactElement } from 'react';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import { MINUTE } from '../../app/core/units.ts';

export interface MatchedClock {
  /** What the pool's clock shows past the full minute now, in whole ms; null where it was not matched. */
  now(): number | null;
  readonly matched: boolean;
  match(): void;
  forget(): void;
}

export function useMatchedClock(): MatchedClock {
  const passed = useRef<number | null>(null);
  const [matched, setMatched] = useState(false);
  return {
    now: () => (passed.current === null ? null : Math.floor(performance.now() - passed.current) % MINUTE),
    matched,
    match() {
      passed.current = performance.now();
      setMatched(true);
    },
    forget() {
      passed.current = null;
      setMatched(false);
    },
  };
}

export function MatchClock({ phase }: { readonly phase: MatchedClock }): ReactElement {
  return (
    <DeckButton
      name={phase.matched ? "Pool's clock matched" : "Match the pool's clock"}
      hint={phase.matched ? 'tap to use the time of day' : 'tap as its hand passes 60'}
      look="is-small is-match"
      pressed={phase.matched}
      onPress={phase.matched ? phase.forget : phase.match}
      onRefused={() => undefined}
    />
  );
}
