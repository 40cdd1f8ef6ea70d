/*
 * What stands in the editor: beside a run what runs, and nothing that was being written is lost for it.
 */

import { describe, expect, test } from 'vitest';
import {
  draftOf,
  firstDraft,
  keepDraft,
  keptDraft,
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
    expect(firstDraft(run, null, null)).toEqual({
      draft: { text: TEXT, lanesText: 'lane 1 base 1:20', from: 'Harbour, opened 19:30', during: 'run-1' },
      aside: null,
    });
  });

  test('another text that was being written is set aside, and is not lost', () => {
    const { draft, aside } = firstDraft(run, other, null);
    expect(draft.text).toBe(TEXT);
    expect(aside).toEqual(other);
  });

  test('a text that was changed since the run was opened goes on', () => {
    const changed: Draft = { ...draftOf(run), text: `${TEXT}\n50 easy @ 1:00` };
    expect(firstDraft(run, changed, null).draft).toBe(changed);
    expect(firstDraft({ ...run, id: 'run-2' }, changed, null).aside).toBe(changed);
  });

  describe('where it is kept as the run was opened with it', () => {
    const texts = { text: TEXT.replace('4 x 50', '6 x 50'), lanesText: 'lane 1 base 1:20' };
    const opened: Draft = { ...texts, from: 'harbour.txt', during: 'run-1', opened: texts };

    test('it gives way to what runs after a rewrite, and can be taken back', () => {
      expect(firstDraft(run, opened, null)).toEqual({ draft: draftOf(run), aside: opened });
    });

    test('it takes no place from a text that was set aside', () => {
      expect(firstDraft(run, opened, other)).toEqual({ draft: draftOf(run), aside: other });
    });

    test('it goes on once it was changed, in its text or its lanes', () => {
      const longer = { ...opened, text: `${opened.text}\n50 easy @ 1:00` };
      expect(firstDraft(run, longer, null).draft).toBe(longer);
      const slower = { ...opened, lanesText: 'lane 1 base 1:40' };
      expect(firstDraft(run, slower, null).draft).toBe(slower);
    });

    test('it keeps the name of its file as long as it is what runs', () => {
      const same = { ...opened, text: TEXT, opened: { ...texts, text: TEXT } };
      expect(firstDraft(run, same, null).draft).toBe(same);
    });
  });

  test('the draft that the run was opened with is no other text', () => {
    expect(firstDraft(run, { ...other, text: TEXT }, null).aside).toBeNull();
  });

  test('without a run it is what was kept, and nothing at first', () => {
    expect(firstDraft(null, other, null).draft).toBe(other);
    expect(firstDraft(null, null, null).draft.text).toBe('');
  });
});

test('a draft is kept whole; one that an earlier version kept is read with its lanes', () => {
  const kept = new Map<string, string>();
  const memory = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
  expect(keptDraft('draft', memory)).toBeNull();
  keepDraft(other, 'draft', memory);
  const opened: Draft = { ...other, during: 'run-1', opened: { text: other.text, lanesText: '' } };
  keepDraft(opened, 'draft', memory);
  expect(keptDraft('draft', memory)).toEqual(opened);
  keepDraft(other, 'draft', memory);
  keepDraft({ ...other, text: 'x' }, 'aside', memory);
  expect(keptDraft('draft', memory)).toEqual(other);
  expect(keptDraft('aside', memory)?.text).toBe('x');
  kept.set('lanecall.draft', TEXT).set('lanecall.draft.lanes', 'lane 1');
  expect(keptDraft('draft', memory)).toEqual({ text: TEXT, lanesText: 'lane 1', from: null, during: null });
});
