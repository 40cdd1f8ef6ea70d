/*
 * What kind of line one is, by its first words and by what came before it. Both the reading of a session and the
 * editor's colours go by this.
 */

import type { Flaw } from '../values/flaw.ts';
import { startsTime } from '../values/time.ts';
import { lanePrefixOf, type LanePrefix } from './lane-prefix.ts';
import { lostInHeading } from './lost-meaning.ts';
import { isNote } from './note-line.ts';
import { isPause } from './part-line.ts';
import { misspeltSetting } from './misspelt-setting.ts';
import { settingOf, settingWordOf, type SettingLine, type SettingWord } from './setting-line.ts';

export type LineKind =
  | { readonly kind: 'setting' | 'setting too late'; readonly setting: SettingLine }
  | { readonly kind: 'note' | 'title' | 'heading' }
  /** A line of a part, and whom it is for. */
  | { readonly kind: 'item'; readonly lanes: LanePrefix | null }
  /** Meant as a setting and badly written: those behind it are settings still. */
  | { readonly kind: 'lost setting'; readonly word: SettingWord; readonly flaw: Flaw }
  /** In the header, and begins with neither a letter nor a number. */
  | { readonly kind: 'stranger' };

export interface LinesBefore {
  readonly inHeader: boolean;
  readonly hasTitle: boolean;
}

export function kindOfLine(text: string, { inHeader, hasTitle }: LinesBefore): LineKind {
  if (!/^\p{L}/u.test(text)) {
    return inHeader && !startsTime(text, 0) ? { kind: 'stranger' } : { kind: 'item', lanes: null };
  }
  const setting = settingOf(text);
  if (setting) return { kind: inHeader ? 'setting' : 'setting too late', setting };
  if (isNote(text)) return { kind: 'note' };
  const lanes = lanePrefixOf(text);
  if (lanes || isPause(text)) return { kind: 'item', lanes };
  if (inHeader && !hasTitle) return { kind: 'title' };
  const meant = inHeader ? misspeltSetting(text) : null;
  if (meant) return { kind: 'lost setting', ...meant };
  const word = inHeader ? settingWordOf(text) : null;
  const lost = word === null ? null : lostInHeading(text);
  return lost ? { kind: 'lost setting', word: word!, flaw: lost } : { kind: 'heading' };
}

/** Whether such a line is the first that is no longer the header's. */
export function endsHeader({ kind }: LineKind): boolean {
  return kind === 'item' || kind === 'heading';
}
