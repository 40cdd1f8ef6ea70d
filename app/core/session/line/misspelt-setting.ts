/*
 * A setting whose word is misspelt: `strat 19:30`. Taken for a heading it would end the settings, and each of those below
 * it would be a fault for a mistake that is made once.
 */

import { emptyHeader, takeSetting } from '../header.ts';
import { FaultList, type Flaw } from '../values/flaw.ts';
import { lostInHeading } from './lost-meaning.ts';
import { nearWord } from './near-word.ts';
import { settingOf, type SettingLine, type SettingWord } from './setting-line.ts';

export interface MisspeltSetting {
  /** As it is surely meant. */
  readonly word: SettingWord;
  readonly flaw: Flaw;
}

/** null for a line that is meant as no setting, or whose setting is written in another wrong way too. */
export function misspeltSetting(text: string): MisspeltSetting | null {
  const word = /^\p{L}+/u.exec(text)?.[0] ?? '';
  const near = nearWord(word);
  const right = near === null ? text : near + text.slice(word.length);
  const setting = near === null ? null : settingOf(right);
  if (!setting || setting.flaw || (!lostInHeading(text) && !isWhole(right, setting))) return null;
  return { word: setting.word, flaw: { at: 0, message: `${word} is not a setting: write ${right}` } };
}

/** Whether all of it can be read as a setting: words that begin like one are a heading. */
function isWhole(text: string, setting: SettingLine): boolean {
  const faults = new FaultList([]);
  takeSetting(emptyHeader(), { number: 1, raw: text, indent: 0, start: 0, text }, setting, faults, []);
  return faults.sorted().length === 0;
}
