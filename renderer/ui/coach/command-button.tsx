/*
 * A button that gives one command: looks as the run stood when it was drawn, and is judged by the run as
 * it stands when it is pressed.
 */

import type { ReactElement } from 'react';
import type { Command } from '../../../app/core/run/command.ts';
import { Button, type NamedButtonProps } from '../parts/button.tsx';
import type { Moment } from './frames.ts';
import { refusalOf } from './offers.ts';
import type { Tools } from './use-deck.ts';

export interface CommandButtonProps extends Omit<NamedButtonProps, 'why' | 'judge' | 'onPress' | 'onRefused'> {
  readonly tools: Pick<Tools, 'hand'>;
  readonly moment: Moment;
  readonly command: Command;
  /** Told when the command has been accepted. */
  onDone?(): void;
}

export function CommandButton({ tools, moment, command, onDone, ...looks }: CommandButtonProps): ReactElement {
  const { hand } = tools;
  return (
    <Button
      {...looks}
      why={refusalOf(moment.view.state, command, moment.view.t)}
      judge={() => hand.refusal(command)}
      onPress={() => void hand.press(command).then((ok) => (ok ? onDone?.() : undefined))}
      onRefused={(why) => hand.say(why, 'refused')}
    />
  );
}
