/*
 * Reading a session file that was picked or dropped. Nothing leaves the machine by it.
 */

import { TEXT_LIMIT } from './text-limit.ts';

export type FileText = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly why: string };

/** The text of a file, or why it is none. Never rejects. */
export async function readSessionFile(file: Pick<File, 'name' | 'size' | 'arrayBuffer'>): Promise<FileText> {
  if (file.size > TEXT_LIMIT) return { ok: false, why: `${file.name} has more than 256 KiB: too long for a session.` };
  try {
    const bytes = await file.arrayBuffer();
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return text.trim() === '' ? { ok: false, why: `${file.name} is empty: nothing was opened.` } : { ok: true, text };
  } catch (fault) {
    const why = fault instanceof TypeError ? 'is not plain UTF-8 text: save it as plain text' : 'cannot be read';
    return { ok: false, why: `${file.name} ${why}.` };
  }
}
