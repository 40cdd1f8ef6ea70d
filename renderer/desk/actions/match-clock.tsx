/*
 * "Match the pool's clock": the coach taps as the hand of the clock on the wall passes 60, so that starts fall on round
 * readings of that clock. A run keeps its match, also when its session is edited.
 */

import { useRef, useState, type ReactElement } from 'react';
import { hasStarted } from '../../../app/core/run/first-start.ts';
import { MINUTE, type Millis } from '../../../app/core/units.ts';
import type { Link } from '../../link/link.ts';
import type { DeckRun } from '../../link/store.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { RunMoment } from '../../ui/coach/frames.ts';
import type { Tools } from '../../ui/coach/use-deck.ts';
import type { Writing } from '../write/writing.ts';
import { matchClock } from '../write/file/open-session.ts';

export interface MatchedClock {
  /** How far the pool's clock is past its 60 now, in whole ms; null if it was not matched. */
  now(): number | null;
  readonly matched: boolean;
  match(): void;
  forget(): void;
}

/** Whether a run's clock was matched; else it follows the time of day. */
export function isMatched({
  clockPhase,
  openedAtTimeOfDay,
}: Pick<DeckRun, 'clockPhase' | 'openedAtTimeOfDay'>): boolean {
  return clockPhase !== openedAtTimeOfDay % MINUTE;
}

/** How far the pool's clock is past its 60 at a time t of a run. */
export function phaseAt({ clockPhase }: Pick<DeckRun, 'clockPhase'>, t: Millis): Millis {
  return (clockPhase + t) % MINUTE;
}

/** The match made on this page, or else that of the open run. */
export function useMatchedClock(link: Pick<Link, 'now' | 'store'>, run: DeckRun | null): MatchedClock {
  const passed = useRef<number | null>(null);
  const [own, setOwn] = useState<'matched' | 'forgotten' | null>(null);
  const ofRun = own === null && run !== null && isMatched(run);
  return {
    now() {
      if (own === 'matched' && passed.current !== null) return Math.floor(performance.now() - passed.current) % MINUTE;
      const t = link.now();
      return ofRun && run && t !== null ? phaseAt(run, t) : null;
    },
    matched: own === 'matched' || ofRun,
    match() {
      passed.current = performance.now();
      setOwn('matched');
    },
    forget() {
      passed.current = null;
      setOwn('forgotten');
    },
  };
}

interface MatchButtonProps {
  readonly matched: boolean;
  onMatch(): void;
  onForget(): void;
  readonly className?: string | undefined;
}

export function MatchButton({ matched, onMatch, onForget, className }: MatchButtonProps): ReactElement {
  return (
    <Button
      name={matched ? "Pool's clock matched" : "Match the pool's clock"}
      hint={matched ? 'tap to use the time of day' : 'tap as its hand passes 60'}
      look="small"
      className={className}
      pressed={matched}
      onPress={matched ? onForget : onMatch}
    />
  );
}

export function MatchClock({ phase }: { readonly phase: MatchedClock }): ReactElement {
  return <MatchButton matched={phase.matched} onMatch={phase.match} onForget={phase.forget} />;
}

interface RunMatchProps {
  readonly tools: Tools & { readonly writing: Writing };
  readonly moment: RunMoment;
  readonly className?: string | undefined;
}

/** For a run that has not started: the host opens it again with the matched clock, and keeps its commands. */
export function RunMatch({ tools, moment: { run }, className }: RunMatchProps): ReactElement | null {
  if (hasStarted(run.commands)) return null;
  const match = async (clockPhase: number | null): Promise<void> => {
    const opened = await matchClock(run.id, clockPhase);
    if (opened.kind === 'opened') {
      if (opened.run !== null) tools.writing.followReopened(run.id, opened.run);
      tools.actions.say(
        clockPhase === null ? "The pool's clock follows the time of day again." : "The pool's clock is matched.",
        'done',
      );
    } else tools.actions.say('why' in opened ? opened.why : 'The clock could not be matched.', 'refused');
  };
  return (
    <MatchButton
      matched={isMatched(run)}
      onMatch={() => void match(0)}
      onForget={() => void match(null)}
      className={className}
    />
  );
}
