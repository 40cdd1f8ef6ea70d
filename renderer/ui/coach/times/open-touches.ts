/*
 * The touches of a page in a browser.
 */

import { newId } from '../../../link/connection/ports.ts';
import type { Link } from '../../../link/link.ts';
import { ownStorage } from '../own-storage.ts';
import { touchMemory } from './touch-memory.ts';
import { Touches } from './touches.ts';

export function openTouches(link: Link): Touches {
  return new Touches({
    link,
    memory: touchMemory(ownStorage(), () => Date.now()),
    newId,
    after: (call, ms) => void setTimeout(call, ms),
  });
}
