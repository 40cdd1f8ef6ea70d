/*
 * The pool's clock for screens that have no session to go by. It shows the time of day until a coach has matched it;
 * from then on the seconds that were matched, for as long as the program runs.
 */

import { DAY, MINUTE, type Millis } from '../../core/units.ts';
import { timeOfDayAt, type Clock } from '../time/clock.ts';

export class PoolClock {
  /** By how much it is ahead of the time of day: half a minute at most. */
  private ahead: Millis = 0;
  private readonly clock: Clock;

  constructor(clock: Clock) {
    this.clock = clock;
  }

  /** shown: past the full minute at a time of day; null: it goes by the time of day again. */
  match(shown: Millis | null, timeOfDay: Millis): void {
    const ahead = shown === null ? 0 : mod(shown - timeOfDay, MINUTE);
    this.ahead = ahead > MINUTE / 2 ? ahead - MINUTE : ahead;
  }

  /** The time of day that it shows at host time 0. */
  atZero(): Millis {
    const moment = this.clock.instant();
    return mod(timeOfDayAt(moment, this.clock.wall()) + this.ahead - moment.hostTime, DAY);
  }
}

function mod(value: number, by: number): number {
  return ((value % by) + by) % by;
}
