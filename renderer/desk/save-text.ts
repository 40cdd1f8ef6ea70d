/*
 * Saves a file among the browser's downloads.
 */

import { twoDigits } from '../../app/core/words/time/reading.ts';

export function saveText(name: string, text: string, type: 'text/plain' | 'text/csv' | 'application/json'): void {
  const url = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // By then the browser has read it.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** A name that every file system takes, from a title and a day: "Harbour squad 2026-11-26.csv". */
export function fileName(title: string, day: string, ending: 'csv' | 'json'): string {
  const name = title
    .replace(/[^\p{L}\p{N} ,()-]+/gu, ' ')
    .trim()
    .slice(0, 60)
    .trim();
  return `${name === '' ? 'Session' : name} ${day}.${ending}`;
}

/** "2026-11-26": today, here. */
export function todayIso(): string {
  const date = new Date();
  return `${date.getFullYear()}-${twoDigits(date.getMonth() + 1)}-${twoDigits(date.getDate())}`;
}
