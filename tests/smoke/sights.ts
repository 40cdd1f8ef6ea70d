/*
 * What the smoke sees of windows and displays, from the main process: pictures as the system has them, not as a
 * test library would draw them.
 */

import { writeFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { placeForWall, type SomeDisplay } from '../../app/desktop/windows/displays.ts';
import type { DesktopProgram } from '../support/desktop/desktop-program.ts';
import { coloursOf } from '../support/formats/png.ts';
import { failed, held, type Outcome } from './report.ts';

/** A page of ours has letters with smooth edges: black and empty ones have one colour. */
const COLOURS = 12;
/** As long as the launcher waits. */
const PAINTED_WITHIN_MS = 45_000;

type Rectangle = SomeDisplay['bounds'];

/** path: of the window's page; picture: where its picture goes. */
export async function painted(program: DesktopProgram, path: string, picture: string): Promise<Outcome> {
  const end = Date.now() + PAINTED_WITHIN_MS;
  for (;;) {
    const png = await pictureOf(program, path);
    if (png) writeFileSync(picture, png);
    const colours = png ? coloursOf(png) : 0;
    if (colours >= COLOURS) return held();
    if (Date.now() > end) return failed(png ? `${colours} colours` : 'no picture of a visible window');
    await pause(250);
  }
}

/** null while there is no such window to be seen. */
async function pictureOf(program: DesktopProgram, path: string): Promise<Buffer | null> {
  const text = await program.app.evaluate(async ({ BrowserWindow }, ending) => {
    const window = BrowserWindow.getAllWindows().find(({ webContents }) => webContents.getURL().endsWith(ending));
    if (!window?.isVisible()) return null;
    const image = await window.webContents.capturePage();
    return image.isEmpty() ? null : image.toPNG().toString('base64');
  }, `lanecall${path}`);
  return text === null ? null : Buffer.from(text, 'base64');
}

export interface SeenDisplay extends SomeDisplay {
  readonly isCoachs: boolean;
}

export function displays(program: DesktopProgram): Promise<SeenDisplay[]> {
  return program.app.evaluate(({ BrowserWindow, screen }) => {
    const desk = BrowserWindow.getAllWindows().find(({ webContents }) => webContents.getURL().endsWith('lanecall/'))!;
    const coachs = screen.getDisplayMatching(desk.getBounds()).id;
    return screen.getAllDisplays().map(({ id, label, internal, bounds, workArea }) => {
      return { id, label, internal, bounds, workArea, isCoachs: id === coachs };
    });
  });
}

export interface WallBounds {
  readonly full: boolean;
  readonly bounds: Rectangle;
  /** The display it is on, by its id. */
  readonly display: number;
  /** Where a window would be put; null where none would. */
  readonly wanted: Rectangle | null;
}

export async function bounds(program: DesktopProgram): Promise<WallBounds> {
  const wall = await program.wall();
  if (!wall) throw new Error('there is no wall screen');
  const all = await displays(program);
  const display = await program.app.evaluate(({ screen }, at) => screen.getDisplayMatching(at).id, wall.bounds);
  const coach = all.find(({ isCoachs }) => isCoachs)!.id;
  const known = all.find(({ id }) => id !== coach);
  const wish = {
    shown: true,
    look: 'window',
    display: known ? { id: known.id, label: known.label, ...sizeOf(known.bounds) } : null,
  } as const;
  const place = placeForWall(all, coach, wish);
  return { full: wall.full, bounds: wall.bounds, display, wanted: place.look === 'window' ? place.bounds : null };
}

/** What borders and bars take, in the display's own units. */
export function isNear(a: Rectangle, b: Rectangle): boolean {
  return (['x', 'y', 'width', 'height'] as const).every((side) => Math.abs(a[side] - b[side]) <= 80);
}

function sizeOf({ width, height }: Rectangle) {
  return { width, height };
}
