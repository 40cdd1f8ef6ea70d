/*
 * A lane's row during a run: its number, which chooses it, its next leave, what it swims, and its buttons.
 */

import type { ReactElement } from 'react';
import type { LaneView } from '../../../app/core/run/view.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { useDigits, useDrawn, useActions } from '../../ui/coach/use-deck.ts';
import { lastAbandoned } from '../../ui/leaving.ts';
import type { DeskTools } from '../desk-tools.ts';
import { keyOf } from '../actions/keys/keys.ts';
import { LaneButtons } from './lane-buttons.tsx';
import { leaveOf, leftOf, moreGroups, moreWords, repGroups, standing } from './lane-text.ts';
import styles from './lane-row.module.css';

interface LaneRowProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  readonly lane: LaneView;
  readonly chosen: boolean;
  readonly open: boolean;
  /** Whether the key L opens this lane's panel. */
  readonly keyed: boolean;
  onMore(): void;
}

export function LaneRow({ tools, moment, lane, chosen, open, keyed, onMore }: LaneRowProps): ReactElement {
  const { actions, frames } = tools;
  const { view, run } = moment;
  const clock = useActions(actions, (state) => state.clock);
  const name = `Lane ${lane.number}`;
  const leave = useDigits(frames, (at) => (at ? leaveOf(at.view, lane.number, clock) : ''));
  const left = useDrawn(frames, (at) => (at ? leftOf(at.view, lane.number) : ''));
  const more = moreWords(view, lane, clock, lastAbandoned(run.commands));
  return (
    <section className={styles.lane} data-state={standing(view, lane)} aria-label={name}>
      <Button
        name={name}
        label={lane.number}
        className={styles.number}
        pressed={chosen}
        hint={lane.number === 10 ? '0' : undefined}
        keys={keyOf(lane.number)}
        onPress={() => actions.toggle(lane.number)}
      />
      <span
        className={styles.leave}
        ref={leave}
        aria-label={lane.state === 'stopped' ? undefined : 'Next leave'}
        role="group"
      />
      <div className={styles.words}>
        <p className={styles.rep}>
          <span className={styles.what}>{inGroups(repGroups(view, lane))}</span>
          <span className={styles.left} ref={left} />
        </p>
        <p className={styles.more}>{inGroups(moreGroups(more))}</p>
      </div>
      <LaneButtons tools={tools} moment={moment} lane={lane} open={open} keyed={keyed} onMore={onMore} />
    </section>
  );
}

/** If there is no room for all groups, the last are not shown at all (`lane-row.module.css`). */
function inGroups(groups: readonly string[]): ReactElement[] {
  return groups.map((words, at) => (
    <span key={at} className={styles.group}>
      {words}
    </span>
  ));
}
