/*
 * A button that gives one command. Whether it looks pressable is worked out about once a second; whether the command
 * is allowed is checked again at the press. It is drawn again only when something about it has changed.
 */

import { memo, type ReactElement } from 'react';
import type { Command } from '../../../../app/core/run/command/command.ts';
import { Button, type NamedButtonProps } from '../../parts/button.tsx';
import { useOffer, type Tools } from '../use-deck.ts';

export interface CommandButtonProps extends Omit<NamedButtonProps, 'why' | 'judge' | 'onPress' | 'onRefused'> {
  readonly tools: Pick<Tools, 'actions' | 'offers'>;
  readonly command: Command;
  /** Called when the command has been accepted. */
  readonly onDone?: (() => void) | undefined;
}

export const CommandButton = memo(DrawnCommandButton, isSame);

function DrawnCommandButton({ tools, command, onDone, ...looks }: CommandButtonProps): ReactElement {
  const { actions, offers } = tools;
  const why = useOffer(offers, ({ whyNot }) => whyNot(command));
  return (
    <Button
      {...looks}
      why={why}
      judge={() => actions.refusal(command)}
      onPress={() => void actions.press(command).then((ok) => (ok ? onDone?.() : undefined))}
      onRefused={(reason) => actions.say(reason, 'refused')}
    />
  );
}

/** Compares commands by their content, because whatever draws the button makes a new object each time. */
function isSame(before: CommandButtonProps, after: CommandButtonProps): boolean {
  const { command: was, ...others } = before;
  const { command: is, ...now } = after;
  const names = new Set([...Object.keys(others), ...Object.keys(now)]) as Set<keyof typeof now>;
  return JSON.stringify(was) === JSON.stringify(is) && [...names].every((name) => Object.is(others[name], now[name]));
}
