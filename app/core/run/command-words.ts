/*
 * What a command's own file says of it for the coach: what it is called, which buttons and keys give it, and
 * what is said once it has been carried out. Screens lay the buttons out and supply the phrases.
 */

import type { Millis } from '../units.ts';
import type { Command, CommandName, CommandOf } from './command.ts';
import type { LaneState, Pending, RunState } from './state.ts';

export interface CommandWords<Name extends CommandName> {
  readonly label: string | ((command: CommandOf<Name>) => string);
  /** By name; none for what is given only where its fields are chosen. */
  readonly actions: { readonly [action: string]: Action };
  /** The sentence after it: what it did, to whom. */
  says(told: Told<CommandOf<Name>>): string;
}

/** A button or key that gives a command with everything but its lanes. */
export interface Action {
  /** The plain name, as on the button. */
  readonly label: string;
  /** As printed on the button: a letter, "Shift M", or the name of a key. */
  readonly key: string;
  /** What else gives it, as `KeyboardEvent.key`: what a named key types, and the keys of a clicker. */
  readonly typed?: readonly string[];
  readonly clicker?: readonly string[];
  /** What it does, in a few words; '' where the name says it. */
  readonly does: string;
  /** Wants a press of 0.6 s, or Shift with the key: it ends what is going. */
  readonly pressed: boolean;
  /** Whether it is for the lanes chosen. Start, Stop and Resume are for all, whatever is chosen. */
  readonly byChoice: boolean;
  /** Where it stands of itself, in the order of the commands: the bottom row of the coach's window, the remote's few or more. */
  readonly desk?: 'row';
  readonly remote?: 'few' | 'more';
  command(lanes: { readonly lanes?: readonly number[] }): Command;
}

/** A command that was carried out, and the phrases in which it is told. */
export interface Told<Given = Command> {
  readonly command: Given;
  readonly at: Millis;
  /** The run as the command found it, and with it carried out. */
  readonly before: RunState;
  readonly after: RunState;
  /** In lane order, the lanes that the command changed, before and after. */
  readonly touched: readonly { readonly was: LaneState; readonly is: LaneState }[];
  /** The lanes that it changed: "lane 2", "all lanes". */
  readonly who: string;
  /** The lanes that it was given for, be it that they had that already. */
  readonly given: string;
  lanes(numbers: readonly number[], state: RunState): string;
  /** ", lane 3 too, stopped earlier": whom "all lanes" means besides those that the last Stop stopped. */
  earlier(): string;
  /** "50 fast", where it is the same in all lanes; else the other words. */
  rep(reps: readonly (Pending | undefined)[], otherwise: string): string;
  /** "1:35", "≈1:35" where it is an estimate. */
  interval(rep: Pending): string;
  /** "next leave 6:10", the earliest of the lanes it changed. */
  next(): string;
  /** "break at 5:40": what begins by itself. */
  follows(): string;
  /** ", ends 5:35 sooner": how the projected end has moved; of a cut by what its line makes of it. */
  end(line?: number): string;
  /** "Moved on to the break." behind such words for where the run has come to. */
  cameTo(verb: string): string;
  /** "Main set", with the talk or break where the stretch is one. */
  stretch(state: RunState): string;
  /** "set", "talk", "break": what the stretch is to the coach. */
  kind(state: RunState): string;
  /** "2 of 10 x 75 free". */
  cut(line: number, n: number): string;
  /** What a rewrite made the run forget, as a sentence of its own; '' for nothing. */
  forgotten(): string;
  /** What the coach calls a command. */
  label(command: Command): string;
  capital(text: string): string;
  /** "1 swimmer", "3 reps". */
  count(n: number, one: string): string;
}
