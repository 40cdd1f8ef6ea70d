/*
 * The bottom row: the big primary button, always for all lanes, with what is offered beside it; then the actions for all
 * lanes or for the chosen ones, and Undo.
 */

import { memo, type ReactElement } from 'react';
import { ACTION_NAMES, ACTIONS, commandOf, type ActionName } from '../../ui/coach/commands/action-list.ts';
import { CommandButton } from '../../ui/coach/commands/command-button.tsx';
import type { RunMoment } from '../../ui/coach/frames.ts';
import { undoText } from '../../ui/coach/commands/offers.ts';
import type { Primary, Steering } from '../../ui/coach/commands/primary.ts';
import { useActions, useOffer } from '../../ui/coach/use-deck.ts';
import type { Look } from '../../ui/parts/button.tsx';
import { lanesNamed, lanesOrAll } from '../../../app/core/words/lanes.ts';
import { goesText, startNowText } from '../../ui/coach/feedback/words.ts';
import type { DeskTools } from '../desk-tools.ts';
import { useTakenKeys, type TakenKeys } from './keys/taken-keys.ts';
import styles from './action-bar.module.css';

interface ActionBarProps {
  readonly tools: DeskTools;
  readonly moment: RunMoment;
  /** Beside a text no letter is a command; on a phone there is room for the primary action and Undo alone. */
  readonly few?: boolean;
}

const SECONDARY = ACTION_NAMES.filter((name) => ACTIONS[name].desk === 'row');

export function ActionBar({ tools, moment, few = false }: ActionBarProps): ReactElement {
  const chosen = useOffer(tools.offers, (offers) => offers.chosen());
  const primary = useOffer(tools.offers, (offers) => offers.primary());
  return (
    <nav className={styles.actions} data-few={few ? '' : undefined} aria-label="Actions">
      <PrimaryActions tools={tools} moment={moment} primary={primary} few={few} />
      {SECONDARY.map((action) =>
        // Its place stays empty, so that no other button moves under the thumb.
        action === primary.main ? (
          <span key={action} />
        ) : (
          <ActionButton key={action} tools={tools} action={action} hint={hintOf(action, chosen, few)} keyless={few} />
        ),
      )}
      <UndoButton tools={tools} moment={moment} few={few} />
    </nav>
  );
}

/** Finish is not repeated beside the primary button: it is in the row anyway. */
function PrimaryActions({
  tools,
  moment,
  primary,
  few = false,
}: ActionBarProps & { readonly primary: Primary }): ReactElement {
  const clock = useActions(tools.actions, (state) => state.clock);
  const chosen = useOffer(tools.offers, (offers) => offers.chosen());
  const taken = useTakenKeys();
  const { main, beside } = primary;
  const also = beside.filter((action) => action !== 'finish');
  const lanesOf = (action: Steering): readonly number[] => (ACTIONS[action].byChoice ? chosen : []);
  const wordsOf = (action: Steering): { readonly name: string; readonly hint: string } =>
    steeringWords(action, goesText(moment.view, action, clock, lanesOf(action)), lanesOf(action), taken, few);
  return (
    <div className={styles.primary}>
      {main === null ? (
        <p className={styles.none}>Nothing more leaves. The session ends by itself.</p>
      ) : (
        <ActionButton tools={tools} action={main} {...wordsOf(main)} look={`primary ${main}`} />
      )}
      {also.length === 0 ? null : (
        <div className={styles.beside}>
          {also.map((action) => (
            <ActionButton
              key={action}
              tools={tools}
              action={action}
              {...wordsOf(action)}
              {...(action === 'start'
                ? { name: 'Start now', hint: `${keyNow('Enter', taken)}, ${startNowText(moment.view)}` }
                : {})}
              look="small"
            />
          ))}
        </div>
      )}
    </div>
  );
}

interface ActionButtonProps {
  readonly tools: DeskTools;
  readonly action: ActionName;
  readonly name?: string;
  readonly hint?: string;
  readonly look?: Look;
  readonly className?: string | undefined;
  /** Its key does nothing here. */
  readonly keyless?: boolean;
}

const ALL: readonly number[] = [];

/** A button of an action, for all lanes or the chosen ones. */
export const ActionButton = memo(DrawnActionButton);

function DrawnActionButton({
  tools,
  action,
  name,
  hint,
  look,
  className,
  keyless = false,
}: ActionButtonProps): ReactElement {
  const { label, key, pressed, byChoice } = ACTIONS[action];
  const chosen = useOffer(tools.offers, (offers) => (byChoice ? offers.chosen() : ALL));
  return (
    <CommandButton
      tools={tools}
      command={commandOf(action, chosen)}
      name={name ?? label}
      hint={hint ?? hintOf(action, chosen)}
      look={look}
      className={className}
      keys={keyless ? undefined : key.replace(' ', '+')}
      held={pressed}
    />
  );
}

function UndoButton({ tools, moment, few = false }: ActionBarProps): ReactElement {
  const whyNot = useOffer(tools.offers, (offers) => offers.whyNot({ do: 'undo' }));
  const hint = `${few ? 'tap' : 'U'}, ${undoText(moment.view, whyNot)}`;
  return <ActionButton tools={tools} action="undo" className={styles.undo} hint={hint} keyless={few} />;
}

function steeringWords(
  action: Steering,
  goes: string,
  lanes: readonly number[],
  taken: TakenKeys,
  few: boolean,
): { readonly name: string; readonly hint: string } {
  const when = goes === '' ? '' : `, ${goes}`;
  switch (action) {
    case 'start':
      return { name: 'Start', hint: withClicker('Enter', 'forward key', taken) };
    case 'stop':
      return { name: 'Stop all lanes', hint: withClicker('Space', 'blank-screen key', taken) };
    case 'resume':
      return { name: 'Resume', hint: `${keyNow('Space', taken)}, all lanes${when}` };
    case 'rejoin':
      return { name: 'Rejoin', hint: `${few ? 'tap' : 'J'}, ${lanesOrAll(lanes)}${when}` };
    case 'finish':
      return { name: 'Finish', hint: hintOf('finish', [], few) };
  }
}

/** Space and Enter belong to whatever has the keyboard, until Escape gives it back. */
function keyNow(key: 'Space' | 'Enter', taken: TakenKeys): string {
  return taken === 'none' ? key : `tap, or Esc then ${key}`;
}

/** A clicker's keys go into a text too, but past a button. */
function withClicker(key: 'Space' | 'Enter', clicker: string, taken: TakenKeys): string {
  if (taken === 'all') return keyNow(key, taken);
  return taken === 'press'
    ? `tap, Esc then ${key}, or the clicker's ${clicker}`
    : `${key}, or the clicker's ${clicker}`;
}

/** The key, where it has one here, then what the action does or for which lanes. */
export function hintOf(action: ActionName, chosen: readonly number[], keyless = false): string {
  const { key, does, pressed, byChoice } = ACTIONS[action];
  const how = keyless ? (pressed ? 'hold' : 'tap') : pressed ? `hold, or ${key}` : key;
  if (byChoice && chosen.length > 0) return `${how}, ${lanesNamed(chosen)}`;
  const what = byChoice ? `all lanes: ${does}` : does;
  return what === '' ? how : `${how}, ${what}`;
}
