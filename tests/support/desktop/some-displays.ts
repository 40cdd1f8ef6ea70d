/*
 * Displays of a machine, for what decides where a window goes.
 */

import type { SomeDisplay } from '../../../app/desktop/windows/displays.ts';

export const laptop = display(1, 'Built-in', 0, 1280, 800, true);
export const tv = display(2, 'Pool TV', 1280, 1920, 1080);
export const monitor = display(3, 'Desk monitor', 3200, 2560, 1440);

function display(id: number, label: string, x: number, width: number, height: number, internal = false): SomeDisplay {
  const bounds = { x, y: 0, width, height };
  return { id, label, internal, bounds, workArea: bounds };
}
