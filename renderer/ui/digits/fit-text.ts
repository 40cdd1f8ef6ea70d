/*
 * Words that must fit a place: set smaller down to a least size, and where that is not enough
 * shortened at a word's end with a mark that there is more. Widths are measured by whoever asks.
 */

/** The width of a text in em of its type. */
export type Measure = (text: string) => number;

export interface Place {
  /** In px; `height` for texts of several lines. */
  readonly width: number;
  readonly height?: number;
  /** The size wanted and the smallest that is still worth reading, in px. */
  readonly size: number;
  readonly least: number;
}

export interface Fitted {
  /** In px. */
  readonly size: number;
  /** One for each line as it will break. */
  readonly lines: readonly string[];
}

/** From one baseline to the next, in em. */
export const LINE = 1.12;

const MORE = '…';

/** How a text stands in a place: on one line without a height, else on as many as the height holds. */
export function fitText(text: string, place: Place, measure: Measure): Fitted {
  const words = text.split(/\s+/).filter((word) => word !== '');
  for (let size = place.size; ; size = Math.max(place.least, size * 0.92)) {
    const lines = breakLines(words, place.width / size, measure);
    const room = linesIn(place, size);
    if (lines.length <= room && lines.every((line) => measure(line) * size <= place.width)) return { size, lines };
    if (size <= place.least) return { size, lines: shorten(lines, room, place.width / size, measure) };
  }
}

function linesIn(place: Place, size: number): number {
  return place.height === undefined ? 1 : Math.max(1, Math.floor(place.height / (size * LINE)));
}

function breakLines(words: readonly string[], width: number, measure: Measure): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words.reduce<string[]>((all, each) => all.concat(partsOf(each, width, measure)), [])) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && measure(longer) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return line === '' ? lines : [...lines, line];
}

/** A word that is wider than a line, as the distances of a long ladder are, is broken after a hyphen. */
function partsOf(word: string, width: number, measure: Measure): readonly string[] {
  if (measure(word) <= width) return [word];
  const parts: string[] = [];
  let part = '';
  for (const piece of word.match(/[^-]*-|[^-]+/g) ?? [word]) {
    if (part !== '' && measure(part + piece) > width) {
      parts.push(part);
      part = piece;
    } else part += piece;
  }
  return [...parts, part];
}

/** The first lines, each cut to the width; the last says that there was more. */
function shorten(lines: readonly string[], room: number, width: number, measure: Measure): string[] {
  const kept = lines.slice(0, room);
  return kept.map((line, index) => {
    const last = index === kept.length - 1 && lines.length > room;
    return last || measure(line) > width ? withMore(line, width, measure) : line;
  });
}

function withMore(line: string, width: number, measure: Measure): string {
  let short = line;
  while (short !== '' && measure(short + MORE) > width) {
    const end = short.lastIndexOf(' ');
    short = end > 0 ? short.slice(0, end) : short.slice(0, -1);
  }
  return short.replace(/[\s,:;]+$/, '') + MORE;
}
