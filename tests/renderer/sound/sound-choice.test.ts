/* What a screen keeps of its sound, and what it makes of anything else that it finds there. */

import { describe, expect, test } from 'vitest';
import {
  outputOf,
  PLAIN_CHOICE,
  readChoice,
  withOutput,
  writeChoice,
  type SoundChoice,
} from '../../../renderer/sound/sound-choice.ts';
import { voiceOf } from '../../../renderer/sound/output/sound-files.ts';

describe('[sound] what is chosen', () => {
  test('is read as it was written', () => {
    const choice: SoundChoice = {
      ...withOutput({ ...PLAIN_CHOICE, output: 'hdmi' }, { offset: -120, keepAwake: true }),
      pips: 'always',
      followers: true,
      signs: true,
      muted: [2, 5],
      pitches: true,
    };
    expect(readChoice(writeChoice(choice))).toEqual(choice);
    expect(outputOf(choice)).toEqual({ offset: -120, keepAwake: true });
    expect(choice.outputs.own).toEqual(PLAIN_CHOICE.outputs.own);
  });

  test('by every way and with pips or without, up to three tenths of a second early or late', () => {
    for (const output of ['own', 'hdmi', 'bluetooth', 'hall'] as const) {
      for (const pips of ['starts', 'always', 'never'] as const) {
        for (const offset of [-300, 300]) {
          const choice = withOutput({ ...PLAIN_CHOICE, output, pips }, { offset });
          expect(readChoice(writeChoice(choice))).toEqual(choice);
        }
      }
    }
  });

  test.each([
    null,
    '',
    'on',
    '[]',
    '7',
    '{"pips":3,"muted":"all","output":"radio","outputs":[1]}',
    '{"outputs":{"own":{"offset":301},"hdmi":{"offset":"12"},"hall":{"offset":1.5},"bluetooth":null}}',
  ])('what cannot have been chosen was not: %s', (kept) => {
    expect(readChoice(kept)).toEqual(PLAIN_CHOICE);
  });

  test('of lanes that are not heard only lanes are kept', () => {
    expect(readChoice('{"muted":[1,-1,"2",2.5,null,0]}').muted).toEqual([1, 0]);
  });
});

describe('[sound] which sound a cue has', () => {
  test('the usual tone for a leave, softer for a further swimmer', () => {
    expect(voiceOf({ kind: 'leave', lanes: [3] }, false)).toEqual({ file: 'leave', gain: 1 });
    const follow = voiceOf({ kind: 'follow', lanes: [3] }, false);
    expect(follow.file).toBe('leave');
    expect(follow.gain).toBeLessThan(0.5);
  });

  test('with a pitch a lane each lane that leaves alone has its own, six in all; lanes together the usual one', () => {
    const files = [1, 2, 3, 4, 5, 6].map((lane) => voiceOf({ kind: 'leave', lanes: [lane] }, true).file);
    expect(files).toEqual(['leave-1', 'leave-2', 'leave-3', 'leave-4', 'leave-5', 'leave-6']);
    expect(voiceOf({ kind: 'leave', lanes: [7] }, true).file).toBe(files[0]);
    expect(voiceOf({ kind: 'leave', lanes: [0] }, true).file).toBe(files[5]);
    expect(voiceOf({ kind: 'leave', lanes: [1, 2] }, true).file).toBe('leave');
    expect(voiceOf({ kind: 'follow', lanes: [2] }, true).file).toBe(files[1]);
  });

  test('pips and signs have one sound each', () => {
    for (const kind of ['pip', 'stop', 'resume'] as const) {
      expect(voiceOf({ kind, lanes: [1] }, true)).toEqual({ file: kind, gain: 1 });
    }
  });
});
