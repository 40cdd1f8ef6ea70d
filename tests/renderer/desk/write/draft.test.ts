/*
 * What stands in the editor: beside a run what runs, and nothing that was being written is lost for it.
 */

import { describe, expect, test } from 'vitest';
import {
  draftOf,
  EMPTY,
  firstDraft,
  keepDraft,
  keepUnsaved,
  keptDraft,
  keptUnsaved,
  type Draft,
  type DraftedRun,
} from '../../../../renderer/desk/write/draft.ts';
import { runOf } from '../../../support/coach/coach-run.ts';

const TEXT = 'Harbour\nlane 2 base 1:30\nSet\n4 x 50 @ 1:00';

const run: DraftedRun = {
  id: 'run-1',
  state: runOf(TEXT),
  lanesText: 'lane 1 base 1:20',
  openedAtTimeOfDay: 19.5 * 3_600_000,
};

const other: Draft = { text: 'Tuesday\nSet\n8 x 50 @ 1:00', lanesText: '', from: 'tuesday.txt', during: null };

describe('what is edited first', () => {
  test('beside a run it is the session that runs, its lanes too, and the draft names where it came from', () => {
    expect(firstDraft(run, EMPTY)).toEqual({
      text: TEXT,
      lanesText: 'lane 1 base 1:20',
      from: 'Harbour, opened 19:30',
      during: 'run-1',
      file: null,
    });
    expect(firstDraft(run, other)).toEqual(draftOf(run));
  });

  test('a text that was changed since the run was opened goes on', () => {
    const changed: Draft = { ...draftOf(run), text: `${TEXT}\n50 easy @ 1:00` };
    expect(firstDraft(run, changed)).toBe(changed);
    expect(firstDraft({ ...run, id: 'run-2' }, changed)).toEqual(draftOf({ ...run, id: 'run-2' }));
  });

  describe('where it is kept as the run was opened with it', () => {
    const texts = { text: TEXT.replace('4 x 50', '6 x 50'), lanesText: 'lane 1 base 1:20' };
    const opened: Draft = { ...texts, from: 'harbour.txt', during: 'run-1', opened: texts };

    test('it gives way to what runs after a rewrite', () => {
      expect(firstDraft(run, opened)).toEqual(draftOf(run));
    });

    test('it goes on once it was changed, in its text or its lanes', () => {
      const longer = { ...opened, text: `${opened.text}\n50 easy @ 1:00` };
      expect(firstDraft(run, longer)).toBe(longer);
      const slower = { ...opened, lanesText: 'lane 1 base 1:40' };
      expect(firstDraft(run, slower)).toBe(slower);
    });

    test('it keeps its file as long as it is what runs', () => {
      const same = { ...opened, text: TEXT, opened: { ...texts, text: TEXT } };
      expect(firstDraft(run, same)).toBe(same);
    });
  });

  test('without a run it is what was kept', () => {
    expect(firstDraft(null, other)).toBe(other);
  });
});

/** What a browser keeps. */
function memoryOf(kept = new Map<string, string>()) {
  return {
    kept,
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
}

test('a draft is kept whole, with its file; one that an earlier version kept is read with its lanes', () => {
  const memory = memoryOf();
  expect(keptDraft(memory)).toBeNull();
  keepDraft(other, memory);
  expect(keptDraft(memory)).toEqual(other);
  const opened: Draft = { ...other, during: 'run-1', opened: { text: other.text, lanesText: '' } };
  keepDraft(opened, memory);
  expect(keptDraft(memory)).toEqual(opened);
  const filed: Draft = { ...other, file: { name: 'Tuesday', version: 'a'.repeat(32), isSaved: true } };
  keepDraft(filed, memory);
  expect(keptDraft(memory)).toEqual(filed);
  keepDraft(EMPTY, memory);
  expect(keptDraft(memory)).toEqual(EMPTY);
  memory.kept.set('lanecall.draft', TEXT).set('lanecall.draft.lanes', 'lane 1');
  expect(keptDraft(memory)).toEqual({ text: TEXT, lanesText: 'lane 1', from: null, during: null });
});

test('texts that no file has yet are kept; one that an earlier version set aside is among them once', () => {
  const memory = memoryOf(new Map([['lanecall.draft.aside', JSON.stringify(other)]]));
  expect(keptUnsaved(memory)).toEqual([other]);
  keepUnsaved([{ ...EMPTY, text: 'x' }], memory);
  expect(keptUnsaved(memory)).toEqual([{ ...EMPTY, text: 'x' }]);
  expect(keptUnsaved(memoryOf(new Map([['lanecall.drafts.unsaved', '[{"text":1},7]']])))).toEqual([]);
});
