/*
 * The touches of a page in a test: on the memory that it is given, which lasts as long as the test.
 */

import type { Link } from '../../../renderer/link/link.ts';
import { touchMemory, type TouchStorage } from '../../../renderer/ui/coach/times/touch-memory.ts';
import { Touches } from '../../../renderer/ui/coach/times/touches.ts';

let made = 0;

export interface PageTouches {
  readonly storage?: TouchStorage | null;
  /** What waits for its time; without it nothing is sent a second time. */
  readonly waits?: (() => void)[];
}

export function pageTouches(link: Pick<Link, 'store' | 'touch'>, { storage = null, waits }: PageTouches = {}): Touches {
  return new Touches({
    link,
    memory: touchMemory(storage, () => 0),
    newId: () => `touch-${++made}`,
    after: (call) => void waits?.push(call),
  });
}
