/*
 * Times drawn in fixed cells, so that nothing moves but the digit that changes. The typeface has no
 * figures of one width; every digit stands in the middle of a cell as wide as its widest.
 */

/** Of the typeface at the weight that digits are drawn in, in em. */
export const CAP = 0.7;
export const DIGIT_CELL = 0.46;
export const COLON_CELL = 0.25;

export interface Digits {
  /** Shows a time as `reading` gives it; touches the document only where a character has changed. */
  show(text: string): void;
}

/** The cells of a time inside an element, which should carry the class `digits` and nothing else. */
export function createDigits(element: HTMLElement): Digits {
  const cells: { readonly cell: HTMLElement; readonly in: Text; kind: string; text: string }[] = [];
  element.textContent = '';
  return {
    show(text) {
      while (cells.length > text.length) cells.pop()?.cell.remove();
      while (cells.length < text.length) {
        const { ownerDocument } = element;
        const cell = element.appendChild(ownerDocument.createElement('span'));
        // Another text in the same node costs the browser less than another node.
        cells.push({ cell, in: cell.appendChild(ownerDocument.createTextNode('')), kind: '', text: '' });
      }
      const point = text.indexOf('.');
      cells.forEach((known, index) => {
        const character = text.charAt(index);
        const kind = cellKind(character, point >= 0 && index >= point);
        if (known.kind !== kind) known.cell.className = known.kind = kind;
        if (known.text !== character) known.in.data = known.text = character;
      });
    },
  };
}

/** The width of a time in cells, in em of its digits; tenths are not counted, they stand in the gap after it. */
export function widthOf(text: string): number {
  let width = 0;
  for (const character of text.split('.')[0] ?? '') width += character === ':' ? COLON_CELL : DIGIT_CELL;
  return width;
}

function cellKind(character: string, tenth: boolean): string {
  if (tenth) return character === '.' ? 'digits-point' : 'digits-tenth';
  return character === ':' ? 'digits-colon' : 'digits-cell';
}
