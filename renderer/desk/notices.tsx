/*
 * Notices above every page of the coach's window: a lost host, what the host reports, and faults of this page's own
 * link, each for as long as it lasts. News of a run that has come back, and of earlier ones that nobody was there for,
 * stay until the coach answers.
 */

import { useState, type ReactElement } from 'react';
import type { DeckState } from '../link/store.ts';
import { DO_NOT_LEAVE, offText } from '../ui/clock-words.ts';
import { Button } from '../ui/parts/button.tsx';
import { useDeck, useMoment, type Tools } from '../ui/coach/use-deck.ts';
import { goOn, leaveRun } from './comeback.ts';
import styles from './notices.module.css';

export function Notices({ tools }: { readonly tools: Tools }): ReactElement | null {
  const status = useDeck(tools.link, (state) => state.status);
  const notices = useDeck(tools.link, (state) => state.notices);
  const startUp = useDeck(tools.link, (state) => state.startUp);
  const [refused, setRefused] = useState<string | null>(null);
  const faults = useDeck(tools.link, (state) => state.faults);
  useMoment(tools.frames);
  const lost = status === 'lost' ? [lostText(tools.link.lostFor())] : [];
  const clock = useDeck(tools.link, (state) => state.clockQuality);
  const fair = clock?.quality === 'fair' ? `The clock of this window is fair. ${offText(clock)}` : null;
  const all = [...poorTexts(clock), ...lost, ...faults, ...notices];
  const isBad = all.length > 0 || startUp !== null;
  if (!isBad && fair === null) return null;
  return (
    <div className={`${styles.notices} ${isBad ? '' : styles.isMild}`} role="status" aria-label="Notices">
      {fair === null ? null : <p>{fair}</p>}
      {all.map((text) => (
        <p key={text}>{text}</p>
      ))}
      <EarlierRuns runs={startUp?.unattended ?? []} />
      {startUp && status === 'live' ? (
        <div className={styles.answer}>
          <Button
            name="I have read it"
            look="small"
            onPress={() => void goOn().then(setRefused)}
            onRefused={setRefused}
          />
          <Leave run={startUp.run} onAnswer={setRefused} />
          {refused === null ? null : <p>{refused}</p>}
        </div>
      ) : null}
    </div>
  );
}

/** More would leave no room for the run. All of them stay in the data folder. */
const MOST_LISTED = 3;

function EarlierRuns({ runs }: { readonly runs: readonly string[] }): ReactElement | null {
  if (runs.length === 0) return null;
  const more = runs.length - MOST_LISTED;
  return (
    <section className={styles.earlier} aria-label="Earlier runs">
      <p>These earlier runs were left unattended and are closed now:</p>
      <ul>
        {runs.slice(0, MOST_LISTED).map((run, index) => (
          <li key={index}>{run}</li>
        ))}
        {more > 0 ? <li>and {more} before these.</li> : null}
      </ul>
    </section>
  );
}

interface LeaveProps {
  /** Null if no run has come back. */
  readonly run: string | null;
  onAnswer(refused: string | null): void;
}

/** It ends a run, so it has to be held. */
function Leave({ run, onAnswer }: LeaveProps): ReactElement | null {
  if (run === null) return null;
  return (
    <Button
      name="Leave it"
      hint="hold"
      look="small"
      held
      onPress={() => void leaveRun(run).then(onAnswer)}
      onRefused={onAnswer}
    />
  );
}

function poorTexts(clock: DeckState['clockQuality']): readonly string[] {
  if (clock?.quality !== 'poor') return [];
  return [`${DO_NOT_LEAVE}. ${offText(clock)} Use another screen, or go nearer to the Wi-Fi.`];
}

function lostText(ms: number | null): string {
  const seconds = Math.floor((ms ?? 0) / 1000);
  const since = seconds < 60 ? '' : ` for ${Math.floor(seconds / 60)} min`;
  return `The link to the program is lost${since}. The clock and the leaves go on here. If the program itself has ended, the record will show these leaves as not called. A command given now counts only if the link is back within 5 s: check whether it was carried out.`;
}
