/*
 * What the coach must know for as long as it lasts: a host that is lost, what the host reports, and
 * faults of this page's own link.
 */

import type { ReactElement } from 'react';
import { useDeck, useMoment, type Tools } from '../ui/coach/use-deck.ts';

export function Notices({ tools }: { readonly tools: Tools }): ReactElement | null {
  const status = useDeck(tools.link, (state) => state.status);
  const notices = useDeck(tools.link, (state) => state.notices);
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
    </div>
  );
}

function lostText(ms: number | null): string {
  const seconds = Math.floor((ms ?? 0) / 1000);
  const since = seconds < 60 ? '' : ` for ${Math.floor(seconds / 60)} min`;
  return `The link to the host is lost${since}. The clock and the leaves go on; commands are sent when it is back.`;
}
