/*
 * Timers that keep their time while the page is hidden. Chromium lets the timers of a hidden page that
 * makes no sound run once a minute (Firefox and Safari hold them back as well), and a page whose clock
 * sends swimmers off may be silent for minutes between two leaves. The timers of a worker are left alone,
 * so while the page is hidden a worker knocks four times a second and what is due is called then.
 */

export interface Alarms {
  /** Calls back once after so many ms; returns what cancels it. */
  after(delay: number, call: () => void): () => void;
  /** Calls back again and again, so many ms apart or, while the page is hidden, a little more; returns what ends it. */
  every(pace: number, call: () => void): () => void;
}

export interface AlarmPorts {
  /** In ms; never steps. */
  now(): number;
  /** The page's own timer: may be late, for a hidden page by a minute. */
  after(delay: number, call: () => void): () => void;
  isHidden(): boolean;
  /** Calls whenever that has changed. */
  onHidden(call: () => void): void;
  /** What knocks while the page is hidden; null where the browser has no such thing. */
  openKnocker(knock: () => void): Knocker | null;
}

export interface Knocker {
  /** Knocks every so many ms from now on; null: no more. */
  pace(pace: number | null): void;
}

/** In ms: as often as the sound looks ahead, the most frequent thing that matters in a hidden page. */
const KNOCKS = 250;

interface Alarm {
  readonly at: number;
  ring(): void;
}

export function createAlarms(ports: AlarmPorts): Alarms {
  const waiting = new Set<Alarm>();
  let knocker: Knocker | null = null;

  /** A page that is never hidden, as on a television, never has a worker. */
  function follow(): void {
    const isHidden = ports.isHidden();
    if (isHidden && !knocker) knocker = ports.openKnocker(ringDue);
    knocker?.pace(isHidden ? KNOCKS : null);
  }

  function ringDue(): void {
    const now = ports.now();
    for (const alarm of [...waiting]) if (alarm.at <= now) alarm.ring();
  }

  function after(delay: number, call: () => void): () => void {
    const alarm: Alarm = {
      at: ports.now() + delay,
      ring() {
        if (!waiting.delete(alarm)) return;
        cancelTimer();
        call();
      },
    };
    waiting.add(alarm);
    const cancelTimer = ports.after(delay, () => alarm.ring());
    return () => {
      waiting.delete(alarm);
      cancelTimer();
    };
  }

  ports.onHidden(follow);
  follow();

  return {
    after,
    every(pace, call) {
      let cancel = after(pace, again);
      function again(): void {
        // First, so that a call that throws is not the last.
        cancel = after(pace, again);
        call();
      }
      return () => cancel();
    },
  };
}
