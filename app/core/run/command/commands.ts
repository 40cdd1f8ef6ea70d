/*
 * Every command: its rule for the run, and its words for the coach. They are two lists because the wall needs the
 * rules and never the words. A command that is missing here does not compile, nor does a line without its command.
 * Buttons side by side stand in this order.
 */

import type { CommandName } from './command.ts';
import type { Rule } from './command-rule.ts';
import type { CommandWords } from './command-words.ts';
import { cut, cutWords } from '../commands/plan/cut.ts';
import { finish, finishWords } from '../commands/start-stop/finish.ts';
import { gap, gapWords } from '../commands/lanes/gap.ts';
import { goTo, goToWords } from '../commands/plan/go-to.ts';
import { interval, intervalWords } from '../commands/reps/interval.ts';
import { laneIn, laneInWords } from '../commands/lanes/lane-in.ts';
import { laneOut, laneOutWords } from '../commands/lanes/lane-out.ts';
import { mark, markWords } from '../commands/mark.ts';
import { moveOn, moveOnWords } from '../commands/plan/move-on.ts';
import { rejoin, rejoinWords } from '../commands/start-stop/rejoin.ts';
import { repeat, repeatWords } from '../commands/reps/repeat.ts';
import { restart, restartWords } from '../commands/start-stop/restart.ts';
import { resume, resumeWords } from '../commands/start-stop/resume.ts';
import { rewrite, rewriteWords } from '../commands/plan/rewrite.ts';
import { shift, shiftWords } from '../commands/reps/shift.ts';
import { sitOut, sitOutWords } from '../commands/reps/sit-out.ts';
import { skip, skipWords } from '../commands/reps/skip.ts';
import { start, startWords } from '../commands/start-stop/start.ts';
import { stop, stopWords } from '../commands/start-stop/stop.ts';
import { swimmers, swimmersWords } from '../commands/lanes/swimmers.ts';
import { undo, undoWords } from '../commands/undo.ts';

export const RULES: { readonly [Name in CommandName]: Rule<Name> } = {
  start,
  stop,
  resume,
  rejoin,
  skip,
  'sit-out': sitOut,
  repeat,
  shift,
  interval,
  mark,
  restart,
  finish,
  'move-on': moveOn,
  undo,
  cut,
  'go-to': goTo,
  rewrite,
  'lane-out': laneOut,
  'lane-in': laneIn,
  swimmers,
  gap,
};

export const WORDS = {
  start: startWords,
  stop: stopWords,
  resume: resumeWords,
  rejoin: rejoinWords,
  skip: skipWords,
  'sit-out': sitOutWords,
  repeat: repeatWords,
  shift: shiftWords,
  interval: intervalWords,
  mark: markWords,
  restart: restartWords,
  finish: finishWords,
  'move-on': moveOnWords,
  undo: undoWords,
  cut: cutWords,
  'go-to': goToWords,
  rewrite: rewriteWords,
  'lane-out': laneOutWords,
  'lane-in': laneInWords,
  swimmers: swimmersWords,
  gap: gapWords,
} satisfies { readonly [Name in CommandName]: CommandWords<Name> };
