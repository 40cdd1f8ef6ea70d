/*
 * What writes into the places of the screen: each remembers what it shows and touches the document
 * only where that changes, because it is asked on every frame.
 */

import { fitText, LINE, type Measure, type Place } from '../ui/fit-text.ts';

export type Writer = (text: string) => void;

/** Words fitted to a place; what is empty takes no part in the page. */
export function wordsWriter(element: HTMLElement, place: Place, measure: Measure): Writer {
  let shown: string | null = null;
  return (text) => {
    if (text === shown) return;
    shown = text;
    const { size, lines } = fitText(text, place, measure);
    element.hidden = text === '';
    element.style.fontSize = `${size}px`;
    if (place.height !== undefined) element.style.lineHeight = `${LINE}`;
    element.textContent = lines.join('\n');
  };
}

/** The first of several wordings, from the fullest on, that fits its place at the size wanted. */
export function firstThatFits(wordings: readonly string[], place: Place, measure: Measure): string {
  const fits = wordings.find((text) => measure(text) * place.size <= place.width);
  return fits ?? wordings[wordings.length - 1] ?? '';
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

/** The element of a place, by its `data-place`; throws where the page has none. */
export function placeIn(root: HTMLElement, name: string): HTMLElement {
  const element = root.querySelector<HTMLElement>(`[data-place='${name}']`);
  if (!element) throw new Error(`the page has no place for ${name}`);
  return element;
}
