/*
 * Between lanes and actions: what was just done, in one sentence, and the tools that are needed less
 * often than the actions under the thumb.
 */

import type { ReactElement } from 'react';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import type { Moment } from '../ui/coach/frames.ts';
import { canHoldBreak, primaryOf, refusalOf } from '../ui/coach/offers.ts';
import { useHand } from '../ui/coach/use-deck.ts';
import { lanesNamed } from '../ui/coach/words.ts';
import { ActionButton } from './action-bar.tsx';
import type { DeskTools } from './desk-tools.ts';
import { SoundButton } from './sound-button.tsx';

interface SaidLineProps {
  readonly tools: DeskTools;
  readonly moment: Moment;
  onMark(): void;
  onEdit(): void;
}

export function SaidLine({ tools, moment, onMark, onEdit }: SaidLineProps): ReactElement {
  const { hand } = tools;
  useHand(hand, (state) => state.said);
  const said = hand.said();
  useHand(hand, (state) => state.choice);
  const chosen = hand.chosen();
  const { view } = moment;
  const primary = primaryOf(view, chosen);
  const startToo = primary !== 'start' && refusalOf(view.state, { do: 'start' }, view.t) === null;
  const nothing = (): void => undefined;
  return (
    <div className="said">
      <p className={`said-text is-${said?.kind ?? 'none'}`} role="status">
        {chosen.length > 0 ? <strong>For {lanesNamed(chosen)}: </strong> : null}
        {said ? <span key={said.n}>{said.text}</span> : openedText(view.heldOpenBy)}
      </p>
      <div className="said-tools">
        {startToo ? <ActionButton tools={tools} moment={moment} action="start" look="is-small" /> : null}
        {canHoldBreak(view) ? (
          <ActionButton tools={tools} moment={moment} action="stop" hint="Space, hold the break" look="is-small" />
        ) : null}
        <ActionButton tools={tools} moment={moment} action="sooner" look="is-small" />
        <ActionButton tools={tools} moment={moment} action="later" look="is-small" />
        <IntervalButton tools={tools} moment={moment} seconds={-5} />
        <IntervalButton tools={tools} moment={moment} seconds={5} />
        <ActionButton tools={tools} moment={moment} action="rejoin" look="is-small" />
        <DeckButton name="Mark" hint="M" keys="M" look="is-small" onPress={onMark} onRefused={nothing} />
        <DeckButton name="Edit" hint="E" keys="E" look="is-small" onPress={onEdit} onRefused={nothing} />
        <SoundButton sound={tools.sound} />
      </div>
    </div>
  );
}

interface IntervalButtonProps {
  readonly tools: DeskTools;
  readonly moment: Moment;
  readonly seconds: -5 | 5;
}

/** Every rep from now on, of the lanes chosen or of all. */
function IntervalButton({ tools, moment, seconds }: IntervalButtonProps): ReactElement {
  const { hand } = tools;
  const lanes = hand.chosen();
  const command = { do: 'interval', ...(lanes.length > 0 ? { lanes } : {}), seconds } as const;
  const key = seconds < 0 ? '[' : ']';
  return (
    <DeckButton
      name={`${seconds < 0 ? '−' : '+'}5 s a rep`}
      hint={key}
      keys={key}
      look="is-small"
      why={refusalOf(moment.view.state, command, moment.view.t)}
      onPress={() => void hand.give(command)}
      onRefused={(why) => hand.say(why, 'refused')}
    />
  );
}

function openedText(held: readonly number[]): string {
  if (held.length === 0) return '';
  return `Only ${lanesNamed(held)} ${held.length > 1 ? 'keep' : 'keeps'} this open: Resume, or Start what follows.`;
}
