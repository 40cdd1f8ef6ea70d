/*
 * The window during a run: head, a row a lane, the outline of the session, and the actions under the
 * thumb. Keys mean the same as the buttons.
 */

import { useCallback, useEffect, useRef, useState, type ReactElement } from 'react';
import type { Moment } from '../ui/coach/frames.ts';
import { useHand } from '../ui/coach/use-deck.ts';
import { ActionBar } from './action-bar.tsx';
import type { DeskTools } from './desk-tools.ts';
import { LanePanel } from './lane-panel.tsx';
import { LaneRow } from './lane-row.tsx';
import { MarkPanel } from './mark-panel.tsx';
import { Outline } from './outline.tsx';
import type { Panel } from './panel.tsx';
import { RewriteScreen } from './rewrite-screen.tsx';
import { RunHead } from './run-head.tsx';
import { SaidLine } from './said-line.tsx';
import { laneOfKey, useRunKeys } from './use-run-keys.ts';

interface RunScreenProps {
  readonly tools: DeskTools;
  readonly moment: Moment;
  /** Back to writing: before anything has begun. */
  onWrite(): void;
}

export function RunScreen({ tools, moment, onWrite }: RunScreenProps): ReactElement {
  const [panel, setPanel] = useState<Panel | null>(null);
  const close = (): void => setPanel(null);
  const chosen = useHand(tools.hand, ({ choice }) => choice.lanes);
  const { view } = moment;
  // What has been commanded would be lost by opening the session anew, even before the first start.
  const untouched = moment.run.commands.length === 0;
  const edit = untouched ? onWrite : () => setPanel({ kind: 'edit' });
  const latestEdit = useRef(edit);
  useEffect(() => {
    latestEdit.current = edit;
  });
  const openPanel = useCallback(
    (next: Panel | null) => (next?.kind === 'edit' ? latestEdit.current() : setPanel(next)),
    [],
  );
  useRunKeys(tools, panel, openPanel);
  const keyed = laneOfKey(view, tools.hand.chosen());

  if (panel?.kind === 'edit')
    return <RewriteScreen key={moment.run.id} tools={tools} moment={moment} onClose={close} />;
  return (
    <div className="run">
      <RunHead tools={tools} moment={moment} />
      <main className="lanes" aria-label="Lanes">
        {view.lanes.map((lane) => (
          <LaneRow
            key={lane.number}
            tools={tools}
            moment={moment}
            lane={lane}
            chosen={chosen.includes(lane.number)}
            keyed={lane.number === keyed}
            open={panel?.kind === 'lane' && panel.lane === lane.number}
            onMore={() => setPanel(isLane(panel, lane.number) ? null : { kind: 'lane', lane: lane.number })}
          />
        ))}
      </main>
      <aside className="side" aria-label="Session">
        {panel?.kind === 'lane' ? (
          <LanePanel key={panel.lane} tools={tools} moment={moment} number={panel.lane} onClose={close} />
        ) : panel?.kind === 'mark' ? (
          <MarkPanel tools={tools} moment={moment} onClose={close} />
        ) : (
          <Outline tools={tools} moment={moment} />
        )}
      </aside>
      <SaidLine tools={tools} moment={moment} onMark={() => setPanel({ kind: 'mark' })} onEdit={edit} />
      <ActionBar tools={tools} moment={moment} />
    </div>
  );
}

function isLane(panel: Panel | null, lane: number): boolean {
  return panel?.kind === 'lane' && panel.lane === lane;
}
