/*
 * Which lanes a wall screen shows; all of them until one is tapped.
 */

import type { ReactElement } from 'react';
import type { ScreenSettings } from '../../../app/core/screen/screen-settings.ts';
import type { Link } from '../../link/link.ts';
import { Button } from '../../ui/parts/button.tsx';
import { useDeck } from '../../ui/coach/use-deck.ts';
import styles from './screens-panel.module.css';

type Lanes = ScreenSettings['lanes'];

interface LaneFieldsProps {
  readonly link: Link;
  readonly lanes: Lanes;
  onChange(lanes: Lanes): void;
}

/** Without a session. */
const USUAL = [1, 2, 3, 4, 5, 6, 7, 8];

export function LaneFields({ link, lanes, onChange }: LaneFieldsProps): ReactElement {
  const run = useDeck(link, (state) => state.run);
  const there = run?.given.lanes.map(({ number }) => number) ?? USUAL;
  const offered = [...new Set([...there, ...(lanes ?? [])])].sort((a, b) => a - b);
  return (
    <div className={styles.buttons} role="group" aria-label="Lanes on this screen">
      <Button name="All lanes" look="small" pressed={lanes === null} onPress={() => onChange(null)} />
      {offered.map((lane) => (
        <Button
          key={lane}
          name={`Show lane ${lane}`}
          label={lane}
          look="small"
          pressed={lanes?.includes(lane) ?? false}
          onPress={() => onChange(toggled(lanes, lane))}
        />
      ))}
    </div>
  );
}

/** The last of those chosen, taken away, leaves all. */
export function toggled(lanes: Lanes, lane: number): Lanes {
  if (lanes === null) return [lane];
  if (!lanes.includes(lane)) return [...lanes, lane].sort((a, b) => a - b);
  const rest = lanes.filter((each) => each !== lane);
  return rest.length > 0 ? rest : null;
}
