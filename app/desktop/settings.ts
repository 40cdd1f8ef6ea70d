/*
 * Saves where the windows are, as JSON in the data folder. What cannot be read counts as never chosen; what cannot be
 * written has to be chosen again at the next start.
 */

import { join } from 'node:path';
import type { Rectangle } from 'electron';
import { systemDisk } from '../host/journal/disk.ts';
import type { RememberedDisplay, WallWish } from './windows/displays.ts';

export interface Settings {
  readonly wall: WallWish;
  /** Where the coach's window was; null for never yet. */
  readonly desk: Rectangle | null;
}

const FILE = 'windows.json';

export const FIRST_SETTINGS: Settings = { wall: { shown: true, look: 'full screen', display: null }, desk: null };

/** What is kept while the program runs. */
export interface KeptSettings {
  now(): Settings;
  change(change: Partial<Settings>): void;
  /** Resolves when all changes are on the disk, or refused by it. */
  written(): Promise<void>;
}

/** folder: the data folder. Never rejects. */
export async function keepSettings(folder: string): Promise<KeptSettings> {
  let settings = await readSettings(folder);
  let written = Promise.resolve();
  return {
    now: () => settings,
    change(change) {
      settings = { ...settings, ...change };
      written = written.then(() => writeSettings(folder, settings));
    },
    written: () => written,
  };
}

/** Never rejects. folder: the data folder. */
export async function readSettings(folder: string): Promise<Settings> {
  try {
    return settingsOf(JSON.parse(Buffer.from(await systemDisk.read(join(folder, FILE))).toString('utf8')));
  } catch {
    return FIRST_SETTINGS;
  }
}

/** Never rejects. */
export async function writeSettings(folder: string, settings: Settings): Promise<void> {
  const bytes = Buffer.from(`${JSON.stringify(settings, null, 2)}\n`);
  await systemDisk
    .makeFolder(folder)
    .then(() => systemDisk.replace(join(folder, FILE), bytes))
    .catch(() => undefined);
}

/** What of a parsed file can be used; anything may stand in it. */
export function settingsOf(value: unknown): Settings {
  const { wall, desk } = fieldsOf(value);
  const { shown, look, display } = fieldsOf(wall);
  return {
    wall: {
      shown: shown !== false,
      look: look === 'window' ? 'window' : 'full screen',
      display: displayOf(display),
    },
    desk: rectangleOf(desk),
  };
}

function displayOf(value: unknown): RememberedDisplay | null {
  const { id, label, width, height } = fieldsOf(value);
  if (!isWhole(id) || typeof label !== 'string' || !isWhole(width) || !isWhole(height)) return null;
  return { id, label, width, height };
}

function rectangleOf(value: unknown): Rectangle | null {
  const { x, y, width, height } = fieldsOf(value);
  if (!isWhole(x) || !isWhole(y) || !isWhole(width) || !isWhole(height)) return null;
  return width < 200 || height < 200 ? null : { x, y, width, height };
}

function fieldsOf(value: unknown): { readonly [field: string]: unknown } {
  return typeof value === 'object' && value !== null ? (value as { readonly [field: string]: unknown }) : {};
}

function isWhole(value: unknown): value is number {
  return Number.isSafeInteger(value);
}
