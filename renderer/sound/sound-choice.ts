/*
 * What is chosen of the sound on a screen, and how that is kept there. What is kept may be old, foreign
 * or broken: each part that cannot be is as if it had never been chosen.
 */

import { PLAIN_CUES, type CueChoice } from '../../app/core/sound/cue-choice.ts';

/** By what way the sound leaves this screen; each has its own delay. */
export type OutputName = 'own' | 'hdmi' | 'bluetooth' | 'hall';

export const OUTPUT_NAMES: readonly OutputName[] = ['own', 'hdmi', 'bluetooth', 'hall'];

export interface OutputChoice {
  /** How much later the sound is sent, in whole ms; below 0: earlier. */
  readonly offset: number;
  readonly keepAwake: boolean;
}

export interface SoundChoice extends CueChoice {
  /** A pitch for each lane. */
  readonly pitches: boolean;
  readonly output: OutputName;
  readonly outputs: { readonly [name in OutputName]: OutputChoice };
}

/** In ms, to both sides. */
export const MOST_OFFSET = 300;

const PLAIN_OUTPUT: OutputChoice = { offset: 0, keepAwake: false };

export const PLAIN_CHOICE: SoundChoice = {
  ...PLAIN_CUES,
  pitches: false,
  output: 'own',
  outputs: { own: PLAIN_OUTPUT, hdmi: PLAIN_OUTPUT, bluetooth: PLAIN_OUTPUT, hall: PLAIN_OUTPUT },
};

/** From what `writeChoice` made of it. */
export function readChoice(kept: string | null): SoundChoice {
  const fields = fieldsOf(parsed(kept));
  const outputs = fieldsOf(fields['outputs']);
  const { pips, output, muted } = fields;
  return {
    pips: pips === 'always' || pips === 'never' ? pips : 'starts',
    followers: fields['followers'] === true,
    signs: fields['signs'] === true,
    muted: Array.isArray(muted) ? muted.filter(isLane) : [],
    pitches: fields['pitches'] === true,
    output: OUTPUT_NAMES.find((name) => name === output) ?? 'own',
    outputs: {
      own: readOutput(outputs['own']),
      hdmi: readOutput(outputs['hdmi']),
      bluetooth: readOutput(outputs['bluetooth']),
      hall: readOutput(outputs['hall']),
    },
  };
}

export function writeChoice(choice: SoundChoice): string {
  return JSON.stringify(choice);
}

/** Of the output that is in use. */
export function outputOf({ output, outputs }: SoundChoice): OutputChoice {
  return outputs[output];
}

/** The choice with something else for the output in use. */
export function withOutput(choice: SoundChoice, change: Partial<OutputChoice>): SoundChoice {
  const changed = { ...outputOf(choice), ...change };
  return { ...choice, outputs: { ...choice.outputs, [choice.output]: changed } };
}

function parsed(kept: string | null): unknown {
  try {
    return JSON.parse(kept ?? '') as unknown;
  } catch {
    return null;
  }
}

function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
}

function isLane(value: unknown): value is number {
  return typeof value === 'number' && Number.isInteger(value) && value >= 0;
}

function readOutput(value: unknown): OutputChoice {
  const { offset, keepAwake } = fieldsOf(value);
  const isOffset = typeof offset === 'number' && Number.isInteger(offset) && Math.abs(offset) <= MOST_OFFSET;
  return { offset: isOffset ? offset : 0, keepAwake: keepAwake === true };
}
