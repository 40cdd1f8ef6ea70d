/*
 * The tokens of a setting: its word, and what it is set to; of a lane what each of its values is.
 */

import type { SettingLine } from '../line/setting-line.ts';
import { endBefore } from './clause-tokens.ts';
import type { Token } from './token.ts';

const ON = /^on(?![\p{L}\p{N}-])/iu;
const LANE = /^(\d+)(?:\s*:)?/;
const KEY = /^(base|css|gap)(?![\p{L}\p{N}-])\s*/iu;
const SWIMMERS = /^(\d+)\s*swimmers?$/i;

export function settingTokens(text: string, { word, value }: SettingLine): Token[] {
  // `start on` is the name of a setting, `auto` what another is set to.
  const on = word === 'start' ? (ON.exec(text.slice(value))?.[0].length ?? 0) : 0;
  const end = on > 0 ? value + on : endBefore(text, value);
  const name: Token = { kind: 'setting', from: 0, to: end };
  if (word === 'lane') return [name, ...laneTokens(text, value)];
  const rest = text.slice(value + on);
  const at = value + on + rest.search(/\S/);
  return rest === '' ? [name] : [name, { kind: 'value', from: at, to: text.length }];
}

function laneTokens(text: string, value: number): Token[] {
  const number = LANE.exec(text.slice(value));
  if (!number) return [];
  const tokens: Token[] = [{ kind: 'value', from: value, to: value + number[1]!.length }];
  let at = value + number[0].length;
  for (const piece of text.slice(at).split(',')) {
    const item = piece.trim();
    const from = at + piece.indexOf(item);
    if (item !== '') tokens.push(...laneItem(item, from));
    at += piece.length + 1;
  }
  return tokens;
}

function laneItem(item: string, from: number): Token[] {
  const key = KEY.exec(item);
  if (key) {
    const word: Token = { kind: 'keyword', from, to: from + key[1]!.length };
    const value: Token = { kind: 'value', from: from + key[0].length, to: from + item.length };
    return value.from < value.to ? [word, value] : [word];
  }
  const swimmers = SWIMMERS.exec(item);
  if (!swimmers) return [{ kind: 'words', from, to: from + item.length }];
  const digits = from + swimmers[1]!.length;
  return [
    { kind: 'value', from, to: digits },
    { kind: 'words', from: digits + item.slice(swimmers[1]!.length).search(/\S/), to: from + item.length },
  ];
}
