/*
 * The clock as digits.
 */

import { CAP, createDigits, widthOf } from '../../ui/digits.ts';
import type { ClockFace } from './clock-face.ts';

export const digitsFace: ClockFace = {
  name: 'digits',
  measure({ width, height, hours }) {
    const em = widthOf(hours ? '8:88:88' : '88:88') / CAP;
    const cap = Math.max(1, Math.floor(Math.min(height, width / em)));
    return { width: Math.ceil(cap * em), height: cap, cap };
  },
  place(box, { cap, width }) {
    const element = box.ownerDocument.createElement('div');
    element.className = 'clock digits';
    element.setAttribute('role', 'timer');
    element.setAttribute('aria-label', 'Clock');
    element.style.width = `${width}px`;
    element.style.fontSize = `${cap / CAP}px`;
    box.appendChild(element);
    const digits = createDigits(element);
    return ({ text }) => digits.show(text);
  },
};
