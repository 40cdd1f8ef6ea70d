/*
 * The host works out for the first time what the history shows while the coach does something else, so that the first
 * opening of it takes no longer than the next. Never while a run goes on: reading one that is kept is a long task.
 */

import type { AskRecords } from '../link/requests/records.ts';
import type { DeckStore } from '../link/store.ts';

/** In ms, after the host was heard: what the page begins with is over. */
export const AFTER_OPENING = 500;

interface AheadPorts {
  readonly store: Pick<DeckStore, 'getState' | 'subscribe'>;
  readonly ask: AskRecords;
  readonly after: (ms: number, call: () => void) => void;
}

/** Once for a page, when its host was heard first; nothing of what is answered is kept here. */
export function readHistoryAhead({ store, ask, after }: AheadPorts): void {
  const isFree = (): boolean => {
    const { status, run } = store.getState();
    return status === 'live' && (run === null || run.commands.length === 0 || run.given.phase === 'done');
  };
  const read = async (): Promise<void> => {
    while (isFree()) {
      const listed = await ask<'list'>({ do: 'list', find: '', from: null, to: null, most: 1 });
      if (!listed.ok) return;
      if (listed.toCome > 0) continue;
      const newest = listed.runs[0];
      if (newest && isFree()) await ask<'review'>({ do: 'review', run: newest.run });
      return;
    }
  };
  const stop = store.subscribe(({ status }) => {
    if (status !== 'live') return;
    stop();
    after(AFTER_OPENING, () => void read());
  });
}
