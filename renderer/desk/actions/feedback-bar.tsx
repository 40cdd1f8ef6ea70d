/*
 * The line between lanes and actions: the chosen lanes, the sentence after the last command, and smaller tools.
 */

import type { ReactElement } from 'react';
import { ACTIONS } from '../../ui/coach/commands/action-list.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { FeedbackLine } from '../../ui/coach/feedback/feedback-line.tsx';
import { useActions, useOffer } from '../../ui/coach/use-deck.ts';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { ActionButton } from './action-bar.tsx';
import type { DeskTools } from '../desk-tools.ts';
import { SoundButton } from './sound-button.tsx';
import styles from './feedback-bar.module.css';

interface FeedbackBarProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  onMark(): void;
  onEdit(): void;
}

export function FeedbackBar({ tools, moment, onMark, onEdit }: FeedbackBarProps): ReactElement {
  const { actions, offers } = tools;
  useActions(actions, (state) => state.feedback);
  const feedback = actions.feedback();
  const chosen = useOffer(offers, (all) => all.chosen());
  const hasRejoin = useOffer(offers, (all) => all.primary().beside.includes('rejoin'));
  const { view } = moment;
  return (
    <div className={styles.whole}>
      {chosen.length > 0 ? (
        <p className={styles.choice}>
          Next command: <strong>{lanesNamed(chosen)}</strong>
        </p>
      ) : null}
      <FeedbackLine feedback={feedback} otherwise={openedText(view.heldOpenBy)} className={styles.text} />
      <div className={styles.tools}>
        <ShiftButton tools={tools} moment={moment} action="sooner" />
        <ShiftButton tools={tools} moment={moment} action="later" />
        <IntervalButton tools={tools} action="shorter" />
        <IntervalButton tools={tools} action="longer" />
        {hasRejoin ? (
          // It is beside Resume then. An empty place keeps the other tools where they are.
          <span className={styles.empty} />
        ) : (
          <ActionButton tools={tools} action="rejoin" hint="J, old times" look="small" />
        )}
        <Button name="Mark" hint="M, note" keys="M" look="small" onPress={onMark} />
        <Button name="Edit" hint="E, text" keys="E" look="small" onPress={onEdit} />
        <SoundButton sound={tools.sound} />
      </div>
    </div>
  );
}

/** Moves the leaves to come, or the end of a talk or break, and says which. */
function ShiftButton({
  tools,
  moment,
  action,
}: Pick<FeedbackBarProps, 'tools' | 'moment'> & { readonly action: 'sooner' | 'later' }): ReactElement {
  const { pauseEnd, stretch } = moment.view;
  const chosen = useOffer(tools.offers, (offers) => offers.chosen());
  const who = pauseEnd !== null ? `${stretch.kind} ends ` : allText(chosen);
  const hint = `${action === 'sooner' ? '−' : '+'}, ${who}${ACTIONS[action].does}`;
  return <ActionButton tools={tools} action={action} hint={hint} look="small" />;
}

/** Changes every interval from now on, of the chosen lanes or of all. */
function IntervalButton({
  tools,
  action,
}: Pick<FeedbackBarProps, 'tools'> & { readonly action: 'shorter' | 'longer' }): ReactElement {
  const chosen = useOffer(tools.offers, (offers) => offers.chosen());
  const hint = `${ACTIONS[action].key}, ${allText(chosen)}${action}`;
  return <ActionButton tools={tools} action={action} hint={hint} look="small" />;
}

/** Chosen lanes are named in the same line already. */
function allText(chosen: readonly number[]): string {
  return chosen.length > 0 ? '' : 'all ';
}

function openedText(held: readonly number[]): string {
  if (held.length === 0) return '';
  const [are, them] = held.length > 1 ? ['are', 'them'] : ['is', 'it'];
  return `Only ${lanesNamed(held)} ${are} still in this set, stopped: Resume ${them}, or Start now what follows.`;
}
