/*
 * What the coach must know for as long as it lasts: a host that is lost, what the host reports, and
 * faults of this page's own link. News of a run that has come back stays until the coach has said what to do.
 */

import { useState, type ReactElement } from 'react';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import { useDeck, useMoment, type Tools } from '../ui/coach/use-deck.ts';
import { goOn, leaveRun } from './comeback.ts';

export function Notices({ tools }: { readonly tools: Tools }): ReactElement | null {
  const status = useDeck(tools.link, (state) => state.status);
  const notices = useDeck(tools.link, (state) => state.notices);
  const news = useDeck(tools.link, (state) => state.news);
  const [refused, setRefused] = useState<string | null>(null);
  const faults = useDeck(tools.link, (state) => state.faults);
  useMoment(tools.frames);
  const lost = status === 'lost' ? [lostText(tools.link.lostFor())] : [];
  const all = [...lost, ...faults, ...notices];
  if (all.length === 0) return null;
  return (
    <div className="notices" role="status">
      {all.map((text) => (
        <p key={text}>{text}</p>
      ))}
      {news && status === 'live' ? (
        <div className="notices-answer">
          <DeckButton
            name={news.run === null ? 'I have read it' : 'Go on'}
            look="is-small"
            onPress={() => void goOn().then(setRefused)}
            onRefused={setRefused}
          />
          <Leave run={news.run} onAnswer={setRefused} />
          {refused === null ? null : <p>{refused}</p>}
        </div>
      ) : null}
    </div>
  );
}

interface LeaveProps {
  /** Null where none has come back that could be left. */
  readonly run: string | null;
  onAnswer(refused: string | null): void;
}

function Leave({ run, onAnswer }: LeaveProps): ReactElement | null {
  if (run === null) return null;
  return (
    <DeckButton
      name="Leave it"
      look="is-small"
      onPress={() => void leaveRun(run).then(onAnswer)}
      onRefused={onAnswer}
    />
  );
}

function lostText(ms: number | null): string {
  const seconds = Math.floor((ms ?? 0) / 1000);
  const since = seconds < 60 ? '' : ` for ${Math.floor(seconds / 60)} min`;
  return `The link to the host is lost${since}. The clock and the leaves go on; commands are sent when it is back.`;
}
