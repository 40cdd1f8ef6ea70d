/*
 * What writes into the places of the screen: each remembers what it shows and touches the document
 * only where that changes, because it is asked on every frame.
 */

import { fitText, LINE, type Measure, type Place } from '../../ui/digits/fit-text.ts';

export type Writer = (text: string) => void;

/** Words fitted to a place, shortened at a word's end where they are too long; what is empty takes no part in the page. */
export function wordsWriter(element: HTMLElement, place: Place, measure: Measure): Writer {
  return writer(element, place, (text) => fitText(text, place, measure));
}

/** Words that are left out whole where they do not fit. */
export function wholeWriter(element: HTMLElement, place: Place, measure: Measure): Writer {
  return writer(element, place, (text) => {
    const fitted = fitText(text, place, measure);
    return fitted.lines.join(' ') === text.trim().replace(/\s+/g, ' ') ? fitted : { ...fitted, lines: [] };
  });
}

function writer(element: HTMLElement, place: Place, fit: (text: string) => ReturnType<typeof fitText>): Writer {
  const hide = hiddenWriter(element);
  let shown: string | null = null;
  let shownSize = 0;
  let node: ChildNode | null = null;
  return (text) => {
    if (text === shown) return;
    shown = text;
    const { size, lines } = fit(withTimesSign(text));
    hide(lines.length === 0);
    if (size !== shownSize) element.style.fontSize = `${(shownSize = size)}px`;
    if (place.height !== undefined) element.style.lineHeight = `${LINE}`;
    // Another text in the same node costs the browser less than another node.
    if (node !== null && element.firstChild === node) node.nodeValue = lines.join('\n');
    else {
      element.textContent = lines.join('\n');
      node = element.firstChild;
    }
  };
}

/** As it is set in print, narrower than the letter that it is written with. */
export function withTimesSign(text: string): string {
  return text.replace(/(\d) x (?=\d)/g, '$1 × ');
}

/** The first of several wordings, from the fullest on, that fits its place at the size wanted. */
export function firstThatFits(wordings: readonly string[], place: Place, measure: Measure): string {
  const fits = wordings.find((text) => measure(text) * place.size <= place.width);
  return fits ?? wordings[wordings.length - 1] ?? '';
}

/** Wordings from the fullest to the first item alone, the last item going first. */
export function fuller(...items: readonly string[]): readonly string[] {
  return items.map((_, index) => joined(items.slice(0, items.length - index)));
}

export function joined(items: readonly string[]): string {
  return items.filter(isSaid).join(', ');
}

export function isSaid(text: string): boolean {
  return text !== '';
}

/** An attribute that the styles look at; empty takes it away. */
export function attributeWriter(element: HTMLElement, name: string): Writer {
  let shown: string | null = null;
  return (value) => {
    if (value === shown) return;
    shown = value;
    if (value === '') element.removeAttribute(name);
    else element.setAttribute(name, value);
  };
}

/** Takes an element out of the page, or puts it in: even what is set to the same again is a change to the browser. */
export function hiddenWriter(element: HTMLElement): (hidden: boolean) => void {
  let shown: boolean | null = null;
  return (hidden) => {
    if (hidden !== shown) element.hidden = shown = hidden;
  };
}

/** The element of a place, by its `data-place`; throws where the page has none. */
export function placeIn(root: HTMLElement, name: string): HTMLElement {
  const element = root.querySelector<HTMLElement>(`[data-place='${name}']`);
  if (!element) throw new Error(`the page has no place for ${name}`);
  return element;
}
