/*
 * The bottom row: the one primary action under the thumb, and the actions for all lanes or for those
 * chosen.
 */

import type { ReactElement } from 'react';
import { UNDO_FOR } from '../../app/core/run/align.ts';
import { ACTIONS, commandLabel, commandOf, type ActionName } from '../ui/coach/actions.ts';
import { DeckButton } from '../ui/coach/deck-button.tsx';
import type { Moment } from '../ui/coach/frames.ts';
import { primaryOf, refusalOf, type Primary } from '../ui/coach/offers.ts';
import { useHand } from '../ui/coach/use-deck.ts';
import { lanesNamed } from '../ui/coach/words.ts';
import type { DeskTools } from './desk-tools.ts';

interface ActionBarProps {
  readonly tools: DeskTools;
  readonly moment: Moment;
}

const SECONDARY: readonly ActionName[] = ['skip', 'sit-out', 'repeat', 'restart', 'finish', 'move-on'];

export function ActionBar({ tools, moment }: ActionBarProps): ReactElement {
  useHand(tools.hand, (state) => state.choice);
  const chosen = tools.hand.chosen();
  const primary = primaryOf(moment.view, chosen);
  return (
    <nav className="actions" aria-label="Actions">
      <ActionButton
        tools={tools}
        moment={moment}
        action={primary}
        {...primaryWords(primary, chosen)}
        look={`is-primary is-${primary}`}
      />
      {SECONDARY.map((action) =>
        // Its place stays empty: the others must not move from under a thumb.
        action === primary ? (
          <span key={action} />
        ) : (
          <ActionButton key={action} tools={tools} moment={moment} action={action} hint={hintOf(action, chosen)} />
        ),
      )}
      <UndoButton tools={tools} moment={moment} />
    </nav>
  );
}

interface ActionButtonProps extends ActionBarProps {
  readonly action: ActionName;
  readonly name?: string;
  readonly hint?: string;
  readonly look?: string;
}

/** An action for all lanes or those chosen, by its plain name. */
export function ActionButton({ tools, moment, action, name, hint, look }: ActionButtonProps): ReactElement {
  const { label, key, pressed, byLane } = ACTIONS[action];
  const chosen = byLane ? tools.hand.chosen() : [];
  return (
    <DeckButton
      name={name ?? label}
      hint={hint ?? key}
      look={look}
      keys={key.replace(' ', '+')}
      held={pressed}
      why={refusalOf(moment.view.state, commandOf(action, chosen), moment.view.t)}
      onPress={() => void tools.hand.act(action)}
      onRefused={(why) => tools.hand.say(why, 'refused')}
    />
  );
}

function UndoButton({ tools, moment }: ActionBarProps): ReactElement {
  const { view } = moment;
  const last = view.undo;
  const seconds = last ? Math.ceil((last.until - view.t) / 1000) : 0;
  return (
    <ActionButton
      tools={tools}
      moment={moment}
      action="undo"
      hint={last ? `U, ${commandLabel(last.command)}, ${seconds} s left` : `U, within ${UNDO_FOR / 1000} s`}
    />
  );
}

function primaryWords(primary: Primary, chosen: readonly number[]): { readonly name: string; readonly hint: string } {
  const some = chosen.length > 0 ? lanesNamed(chosen) : null;
  switch (primary) {
    case 'start':
      return { name: 'Start', hint: "Enter, or the clicker's forward key" };
    case 'stop':
      return { name: some ? `Stop ${some}` : 'Stop all lanes', hint: "Space, or the clicker's blank-screen key" };
    case 'finish':
      return { name: 'Finish', hint: hintOf('finish', []) };
    case 'resume':
      return { name: some ? `Resume ${some}` : 'Resume', hint: "Space, or the clicker's blank-screen key" };
  }
}

function hintOf(action: ActionName, chosen: readonly number[]): string {
  const { key, does, pressed, byLane } = ACTIONS[action];
  if (pressed) return `hold, or ${key}`;
  const who = byLane && chosen.length > 0 ? lanesNamed(chosen) : does;
  return who === '' ? key : `${key}, ${who}`;
}
