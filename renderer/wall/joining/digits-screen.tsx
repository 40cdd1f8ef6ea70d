/*
 * A wall screen that has not been let in: four digits for the coach to type, large enough for the far side of the hall,
 * and for how long they are valid. It changes once a second.
 */

import { useEffect, useState, type ReactElement, type ReactNode } from 'react';
import { useStore } from 'zustand';
import { JOINING_TIME, type Joining } from '../../link/joining/joining.ts';
import './digits-screen.css';

interface DigitsProps {
  readonly joining: Joining;
  /** This page's own clock, in ms: as the digits' time is given. */
  readonly now?: () => number;
  /** What a screen shows that is in. */
  readonly children: ReactNode;
}

const ownNow = (): number => performance.now();

export function DigitsFirst({ joining, now = ownNow, children }: DigitsProps): ReactNode {
  const state = useStore(joining);
  if (state.step === 'waits') return <WaitsScreen why={state.why} until={state.until} now={now} />;
  if (state.step !== 'shows') return children;
  return <DigitsScreen key={state.until} digits={state.digits} until={state.until} why={state.why} now={now} />;
}

interface ShownProps {
  readonly digits: string;
  readonly until: number;
  readonly why: string | null;
  readonly now: () => number;
}

function DigitsScreen({ digits, until, why, now }: ShownProps): ReactElement {
  const left = Math.max(0, until - useSecond(now));
  return (
    <main className="digits-screen">
      {why === null ? null : (
        <p className="digits-why" role="status">
          {why}
        </p>
      )}
      <h1>Type these digits in the coach’s window, under Screens</h1>
      <p className="digits-shown" role="img" aria-label={`Digits ${Array.from(digits).join(' ')}`}>
        {Array.from(digits, (digit, place) => (
          <span key={place}>{digit}</span>
        ))}
      </p>
      <div className="digits-time" aria-hidden="true">
        <div style={{ transform: `scaleX(${Math.min(1, left / JOINING_TIME)})` }} />
      </div>
      <p className="digits-left">{`New digits in ${Math.ceil(left / 1000)} s`}</p>
    </main>
  );
}

/** Other walls show their digits. */
function WaitsScreen({ why, until, now }: Omit<ShownProps, 'digits' | 'why'> & { readonly why: string }): ReactElement {
  const left = Math.max(0, until - useSecond(now));
  return (
    <main className="digits-screen">
      <h1 role="status">{why}</h1>
      <p className="digits-left">{`This screen asks again in ${Math.ceil(left / 1000)} s`}</p>
    </main>
  );
}

/** The time, once a second. */
function useSecond(now: () => number): number {
  const [time, setTime] = useState(now);
  useEffect(() => {
    const timer = setInterval(() => setTime(now()), 1000);
    return () => clearInterval(timer);
  }, [now]);
  return time;
}
