// @vitest-environment happy-dom
/* The marks on the dial as they are drawn. */

import { expect, test } from 'vitest';
import type { FaceMark } from '../../../../renderer/wall/faces/clock-face.ts';
import { sweepFace } from '../../../../renderer/wall/faces/sweep-face.ts';

test('[sweep] a lane that goes later than the next time the hand comes by has a mark of another shape: small and dashed', () => {
  const box = document.createElement('div');
  const marks: readonly FaceMark[] = [
    { lane: 1, hand: 10_000, look: 'waiting' },
    { lane: 2, hand: 40_000, look: 'later' },
  ];
  sweepFace.place(box, { x: 0, y: 0, width: 400, height: 460 }, { top: '60' }).paint({ text: '0:05', marks });
  const [later, waiting] = Array.from(box.querySelectorAll<SVGElement>('rect'));
  const heightOf = (mark: SVGElement | undefined): number => Number(mark!.getAttribute('height'));
  const dashesOf = (mark: SVGElement | undefined): string => mark!.style.getPropertyValue('stroke-dasharray');
  expect(heightOf(later)).toBeLessThanOrEqual(heightOf(waiting) * 0.7);
  expect([dashesOf(later) !== '', dashesOf(waiting)]).toEqual([true, '']);
});

test('[sweep] the hand goes under all numbers, those of the dial and those of the lanes', () => {
  const box = document.createElement('div');
  const marks: readonly FaceMark[] = [{ lane: 1, hand: 10_000, look: 'waiting' }];
  sweepFace.place(box, { x: 0, y: 0, width: 400, height: 460 }, { top: '60' }).paint({ text: '0:05', marks });
  const hand = box.querySelector('circle[r="6"]')!;
  const numbers = Array.from(box.querySelectorAll('text'));
  expect(numbers.map(({ textContent }) => textContent)).toEqual(expect.arrayContaining(['60', '35', '1']));
  const isOver = (number: Element): boolean => {
    return (hand.compareDocumentPosition(number) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
  };
  expect(numbers.filter((number) => !isOver(number))).toEqual([]);
});
