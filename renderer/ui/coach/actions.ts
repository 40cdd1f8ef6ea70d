/*
 * The coach's actions: what each is called, which key gives it, and the command it stands for.
 */

import type { Command } from '../../../app/core/run/command.ts';

export type ActionName =
  | 'start'
  | 'stop'
  | 'resume'
  | 'rejoin'
  | 'skip'
  | 'sit-out'
  | 'repeat'
  | 'sooner'
  | 'later'
  | 'move-on'
  | 'restart'
  | 'finish'
  | 'undo';

export interface Action {
  /** The plain name, as on the button. */
  readonly label: string;
  /** As printed on the button. */
  readonly key: string;
  /** What it does, in a few words; '' where the name says it. */
  readonly does: string;
  /** Wants a press of 0.6 s, or Shift with the key: it ends what is going. */
  readonly pressed: boolean;
  /** Whether it is for the lanes chosen. Start, Stop and Resume are for all, whatever is chosen. */
  readonly byChoice: boolean;
}

export const ACTIONS: { readonly [name in ActionName]: Action } = {
  start: { label: 'Start', key: 'Enter', does: '', pressed: false, byChoice: false },
  stop: { label: 'Stop', key: 'Space', does: '', pressed: false, byChoice: false },
  resume: { label: 'Resume', key: 'Space', does: '', pressed: false, byChoice: false },
  rejoin: { label: 'Rejoin', key: 'J', does: 'back into the old times', pressed: false, byChoice: true },
  skip: { label: 'Skip rep', key: 'S', does: 'the set gets shorter', pressed: false, byChoice: true },
  'sit-out': { label: 'Sit out', key: 'O', does: 'times stay', pressed: false, byChoice: true },
  repeat: { label: 'Repeat', key: 'R', does: 'the last rep again', pressed: false, byChoice: true },
  sooner: { label: '−5 s', key: 'minus', does: 'sooner', pressed: false, byChoice: true },
  later: { label: '+5 s', key: 'plus', does: 'later', pressed: false, byChoice: true },
  'move-on': { label: 'Move on', key: 'Shift M', does: 'to what is next', pressed: true, byChoice: false },
  restart: { label: 'Restart', key: 'Shift R', does: 'back to the last start', pressed: true, byChoice: false },
  finish: { label: 'Finish', key: 'Shift F', does: 'ends the session', pressed: true, byChoice: false },
  undo: { label: 'Undo', key: 'U', does: '', pressed: false, byChoice: false },
};

/** One step of "−5 s" and "+5 s". */
export const STEP_SECONDS = 5;

/** The command of an action for the lanes chosen; none chosen: for all. */
export function commandOf(name: ActionName, lanes: readonly number[]): Command {
  const named = lanes.length > 0 ? { lanes } : {};
  switch (name) {
    case 'sooner':
      return { do: 'shift', ...named, seconds: -STEP_SECONDS };
    case 'later':
      return { do: 'shift', ...named, seconds: STEP_SECONDS };
    case 'start':
    case 'move-on':
    case 'restart':
    case 'finish':
    case 'undo':
      return { do: name };
    case 'stop':
    case 'resume':
    case 'rejoin':
    case 'skip':
    case 'sit-out':
    case 'repeat':
      return { do: name, ...named };
  }
}

/** What the coach calls a command. */
export function commandLabel(command: Command): string {
  switch (command.do) {
    case 'shift':
      return command.seconds > 0 ? `+${command.seconds} s` : `−${-command.seconds} s`;
    case 'interval':
      return 'Interval';
    case 'gap':
      return 'Gap';
    case 'swimmers':
      return 'Swimmers';
    case 'cut':
      return 'Cut';
    case 'rewrite':
      return 'Rewrite';
    case 'go-to':
      return 'Go to';
    case 'mark':
      return 'Mark';
    case 'lane-out':
      return 'Lane out';
    case 'lane-in':
      return 'Lane in';
    default:
      return ACTIONS[command.do].label;
  }
}

/** Whether what a lane swims next changes by it: then the host is told what was on the screen. */
export function touchesReps(command: Command): boolean {
  return ['skip', 'sit-out', 'repeat', 'shift', 'interval', 'resume', 'rejoin', 'cut'].includes(command.do);
}
