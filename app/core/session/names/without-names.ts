/*
 * A session as a screen gets it that anybody at the pool may read: lanes count their swimmers and name none, a name
 * among other words is `somebody`, and comments are gone. Line for line it is swum as before.
 */

import { count } from '../../words/phrase.ts';
import type { Token } from '../tokens/token.ts';
import { anyName } from './any-name.ts';
import { eachLine, isLaneLine, namesIn } from './lane-names.ts';
import type { NamePattern } from './name-pattern.ts';
import { textWithoutName } from './without-name.ts';

interface Texts {
  readonly text: string;
  readonly lanesText: string | null;
}

/** Both texts without any name that a lane's line of either has, whole or in part: `Ana-Maria Lee`, `Ana`. */
export function withoutNames({ text, lanesText }: Texts): Texts {
  const names = [...namesOf(text), ...(lanesText === null ? [] : namesOf(lanesText))];
  const name = anyName([...names, ...([] as string[]).concat(...names.map(partsOf))]);
  return { text: without(text, name), lanesText: lanesText === null ? null : without(lanesText, name) };
}

function without(text: string, name: NamePattern): string {
  return eachLine(textWithoutName(text, name), (raw, tokens) =>
    isLaneLine(raw, tokens) ? laneCounted(raw, tokens) : withoutComment(raw, tokens),
  );
}

function namesOf(text: string): readonly string[] {
  const names: string[] = [];
  eachLine(text, (raw, tokens) => {
    if (isLaneLine(raw, tokens)) names.push(...namesIn(raw, tokens).map(({ from, to }) => raw.slice(from, to)));
    return raw;
  });
  return names;
}

/** Those by which a swimmer may be called alone, but not the `van` and `de` between them. */
function partsOf(name: string): string[] {
  const parts = [...name.split(/\s+/), ...name.split(/[-\u2010\u2011\s]+/)];
  return parts.filter((part) => /^\p{Lu}/u.test(part));
}

/** The first name becomes the number of all; the others go, with the commas before them. */
function laneCounted(raw: string, tokens: readonly Token[]): string {
  const names = namesIn(raw, tokens);
  let [line, end] = ['', 0];
  for (const token of tokens) {
    // Blanks could make the line too long with the number in it.
    const between = raw.slice(end, token.from).replace(/\s+/g, ' ');
    end = token.to;
    if (token.kind === 'comment') continue;
    if (!names.includes(token)) line += between + raw.slice(token.from, token.to);
    else if (token === names[0]) line += between + count(names.length, 'swimmer');
  }
  return line + raw.slice(end);
}

function withoutComment(raw: string, tokens: readonly Token[]): string {
  const comment = tokens.find(({ kind }) => kind === 'comment');
  return comment ? raw.slice(0, comment.from) : raw;
}
