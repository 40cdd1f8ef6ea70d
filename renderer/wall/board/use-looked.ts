/*
 * What makes another board of the wall as time goes on: readings that go past the hour, and a session that is over. Looked
 * for a few times a second, because both are known long before they matter.
 */

import { useEffect, useState } from 'react';
import { clockReading, readingAt } from '../../../app/core/run/readings.ts';
import { view, type RunView } from '../../../app/core/run/view.ts';
import { HOUR, MINUTE, type Millis } from '../../../app/core/units.ts';
import type { Link } from '../../link/link.ts';
import { guarded } from '../../link/mishap.ts';
import type { WallChoice } from '../screen/wall-choice.ts';

export interface Looked {
  /** Whether readings go past the hour: then the places for them are wider. */
  readonly hours: boolean;
  /** When the session was done, in the run's time, once what each lane did has been shown for long enough; else null. */
  readonly overAt: Millis | null;
}

/** For so long it says what each lane did, and its clock goes on for the last to come in; then it is a pace clock again. */
const SHOWN_FOR: Millis = 5 * MINUTE;

/** In ms. */
const PACE = 500;

export function useLooked(link: Link, choice: WallChoice): Looked {
  const [looked, setLooked] = useState<Looked>({ hours: false, overAt: null });
  useEffect(() => {
    const look = guarded('looking ahead for the hour and the end', () => {
      const { run } = link.store.getState();
      const t = link.now();
      if (!run || t === null) return;
      const now = view(run.state, t);
      const { phase, projectedEnd } = now;
      const overAt = phase === 'done' && t - projectedEnd >= SHOWN_FOR ? projectedEnd : null;
      const hours = readsPastHour(now, choice);
      setLooked((before) => (before.hours === hours && before.overAt === overAt ? before : { hours, overAt }));
    });
    look();
    const stop = link.store.subscribe(look);
    const timer = setInterval(look, PACE);
    return () => {
      stop();
      clearInterval(timer);
    };
  }, [link, choice]);
  return looked;
}

function readsPastHour({ t, clock, lanes }: RunView, { clock: choice }: WallChoice): boolean {
  if (choice === 'pool') return false;
  const leaves = lanes.map(({ next, after }) => after?.at ?? next?.at ?? t);
  const shown = readingAt(choice, clock, Math.max(t, ...leaves)) ?? 0;
  return Math.max(shown, clockReading(choice, clock, t) ?? 0) >= HOUR;
}
