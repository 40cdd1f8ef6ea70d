/*
 * Every command: its rule for the run, and its words for the coach. They are two lists because the wall needs the
 * rules and never the words. A command that is missing here does not compile, nor does a line without its command.
 * Buttons side by side stand in this order.
 */

import type { CommandName } from './command.ts';
import type { Rule } from './command-rule.ts';
import type { CommandWords } from './command-words.ts';
import { cut, cutWords } from '../commands/cut.ts';
import { finish, finishWords } from '../commands/finish.ts';
import { gap, gapWords } from '../commands/gap.ts';
import { goTo, goToWords } from '../commands/go-to.ts';
import { interval, intervalWords } from '../commands/interval.ts';
import { laneIn, laneInWords } from '../commands/lane-in.ts';
import { laneOut, laneOutWords } from '../commands/lane-out.ts';
import { mark, markWords } from '../commands/mark.ts';
import { moveOn, moveOnWords } from '../commands/move-on.ts';
import { rejoin, rejoinWords } from '../commands/rejoin.ts';
import { repeat, repeatWords } from '../commands/repeat.ts';
import { restart, restartWords } from '../commands/restart.ts';
import { resume, resumeWords } from '../commands/resume.ts';
import { rewrite, rewriteWords } from '../commands/rewrite.ts';
import { shift, shiftWords } from '../commands/shift.ts';
import { sitOut, sitOutWords } from '../commands/sit-out.ts';
import { skip, skipWords } from '../commands/skip.ts';
import { start, startWords } from '../commands/start.ts';
import { stop, stopWords } from '../commands/stop.ts';
import { swimmers, swimmersWords } from '../commands/swimmers.ts';
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
