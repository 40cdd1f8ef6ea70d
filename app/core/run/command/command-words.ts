/*
 * What the coach reads about a command: its name, the buttons and keys that give it, and the sentence after it has
 * been carried out. Each command's own file in `commands/` says it. Screens lay out the buttons;
 * `feedback/` supplies the phrases.
 */

import type { Millis } from '../../units.ts';
import type { Command, CommandName, CommandOf } from './command.ts';
import type { LaneState, Pending, RunState } from '../state.ts';

export interface CommandWords<Name extends CommandName> {
  readonly label: string | ((command: CommandOf<Name>) => string);
  /** Buttons and keys by name. Empty for a command whose fields are always chosen first, like a cut. */
  readonly actions: { readonly [action: string]: Action };
  /** The sentence after the command: what it did, and in which lanes. */
  says(told: Told<CommandOf<Name>>): string;
}

/** A button or key that gives a command; only its lanes are still open. */
export interface Action {
  readonly label: string;
  /** As printed on the button: a letter, "Shift M", or the name of a key. */
  readonly key: string;
  /** Other values of `KeyboardEvent.key` that give it: what a named key types, and the keys of a clicker. */
  readonly typed?: readonly string[];
  readonly clicker?: readonly string[];
  /** What it does, in a few words; '' if the label says it. */
  readonly does: string;
  /** Whether it needs a press of 0.6 s, or Shift with the key, because it ends what is going. */
  readonly pressed: boolean;
  /** Whether it is for the chosen lanes. Start, Stop and Resume are for all lanes, whichever are chosen. */
  readonly byChoice: boolean;
  /** The coach's window shows it in its bottom row, the remote among its few buttons or behind "more". */
  readonly desk?: 'row';
  readonly remote?: 'few' | 'more';
  command(lanes: { readonly lanes?: readonly number[] }): Command;
}

/** A command that was carried out, and the phrases for the sentence about it. */
export interface Told<Given = Command> {
  readonly command: Given;
  readonly at: Millis;
  /** The run at the command's time, without it and with it. */
  readonly before: RunState;
  readonly after: RunState;
  /** The lanes that the command changed, before and after it, in lane order. */
  readonly touched: readonly { readonly was: LaneState; readonly is: LaneState }[];
  /** The lanes that it changed: "lane 2", "all lanes". */
  readonly who: string;
  /** The lanes that it was given for, even those that it did not change. */
  readonly given: string;
  lanes(numbers: readonly number[], state: RunState): string;
  /** ", lane 3 too, stopped earlier": the lanes among "all lanes" that an earlier Stop had stopped; '' for none. */
  earlier(): string;
  /** "50 fast" if all lanes have the same rep; else `otherwise`. */
  rep(reps: readonly (Pending | undefined)[], otherwise: string): string;
  /** "1:35"; "≈1:35" if it is an estimate. */
  interval(rep: Pending): string;
  /** "next leave 6:10": the earliest in the lanes that it changed. */
  next(): string;
  /** "break at 5:40": what begins by itself next. */
  follows(): string;
  /** ", ends 5:35 sooner": how far the projected end has moved. For a cut, by what cutting its line saves. */
  end(line?: number): string;
  /** "Moved on to the break.": the verb, then the place where the run now is. */
  cameTo(verb: string): string;
  /** "Main set"; for a talk or break, with that word. */
  stretch(state: RunState): string;
  /** What the coach calls the stretch: "set", "talk" or "break". */
  kind(state: RunState): string;
  /** "2 of 10 x 75 free". */
  cut(line: number, n: number): string;
  /** A sentence of its own about what a rewrite made the run forget; '' for nothing. */
  forgotten(): string;
  /** What the coach calls a command, with the lanes that it names: "Stop, lane 6". */
  label(command: Command): string;
  capital(text: string): string;
  /** "1 swimmer", "3 reps". */
  count(n: number, one: string): string;
}
