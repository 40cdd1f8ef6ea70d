/*
 * Which file is a cue's sound, and how loud it is. Every pitch is a file of its own: a sound played at
 * another rate would be longer or shorter too.
 */

import leaveUrl from '../../../assets/sounds/leave.wav?url';
import leave1Url from '../../../assets/sounds/leave-1.wav?url';
import leave2Url from '../../../assets/sounds/leave-2.wav?url';
import leave3Url from '../../../assets/sounds/leave-3.wav?url';
import leave4Url from '../../../assets/sounds/leave-4.wav?url';
import leave5Url from '../../../assets/sounds/leave-5.wav?url';
import leave6Url from '../../../assets/sounds/leave-6.wav?url';
import pipUrl from '../../../assets/sounds/pip.wav?url';
import resumeUrl from '../../../assets/sounds/resume.wav?url';
import stopUrl from '../../../assets/sounds/stop.wav?url';
import type { Cue } from '../../../app/core/sound/cues.ts';

/** Of lanes 1 to 6; those of one number more than six apart share them. */
const PITCHES = ['leave-1', 'leave-2', 'leave-3', 'leave-4', 'leave-5', 'leave-6'] as const;

export type SoundFile = 'leave' | 'pip' | 'stop' | 'resume' | (typeof PITCHES)[number];

export interface SoundVoice {
  readonly file: SoundFile;
  /** 0 to 1. */
  readonly gain: number;
}

export const SOUND_URLS: { readonly [file in SoundFile]: string } = {
  leave: leaveUrl,
  pip: pipUrl,
  stop: stopUrl,
  resume: resumeUrl,
  'leave-1': leave1Url,
  'leave-2': leave2Url,
  'leave-3': leave3Url,
  'leave-4': leave4Url,
  'leave-5': leave5Url,
  'leave-6': leave6Url,
};

/** What nobody does without. */
export const PLAIN_FILES: readonly SoundFile[] = ['leave', 'pip', 'stop', 'resume'];

/** What a pitch for each lane needs besides. */
export const PITCH_FILES: readonly SoundFile[] = PITCHES;

/** A further swimmer's tone beside the lead's: about 10 dB below. */
const FOLLOWS = 0.32;

/** With a pitch a lane, a lane that leaves alone has its own; lanes together have the usual tone. */
export function voiceOf({ kind, lanes }: Pick<Cue, 'kind' | 'lanes'>, pitches: boolean): SoundVoice {
  if (kind === 'pip' || kind === 'stop' || kind === 'resume') return { file: kind, gain: 1 };
  const [lane] = lanes;
  const file = pitches && lane !== undefined && lanes.length === 1 ? pitchOf(lane) : 'leave';
  return { file, gain: kind === 'follow' ? FOLLOWS : 1 };
}

function pitchOf(lane: number): SoundFile {
  // Lane 0 of a pool that has one sounds as lane 6.
  return PITCHES[(lane + PITCHES.length - 1) % PITCHES.length]!;
}
