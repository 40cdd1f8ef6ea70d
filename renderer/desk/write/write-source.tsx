/*
 * Where the session in the editor comes from, whether it is what runs, and the other texts that could stand there:
 * the one that is open, and one that was set aside for it.
 */

import type { ReactElement } from 'react';
import type { DeckRun } from '../../link/store.ts';
import { Button } from '../../ui/parts/button.tsx';
import { draftOf, type Draft, type Writing } from './draft.ts';

interface WriteSourceProps {
  readonly run: DeckRun | null;
  readonly writing: Writing;
}

export function WriteSource({ run, writing }: WriteSourceProps): ReactElement {
  const { draft, aside, swap } = writing;
  const open = run ? draftOf(run) : null;
  const isOpen = open !== null && open.text === draft.text && open.lanesText === draft.lanesText;
  return (
    <p className="write-source">
      <span>{sourceText(draft, run !== null, isOpen)}</span>
      {open && !isOpen ? <Button onPress={() => swap(open)}>Take the one that is open</Button> : null}
      {aside && aside.text !== draft.text ? (
        <Button onPress={() => swap(aside)}>Take back {aside.from ?? firstLine(aside)}</Button>
      ) : null}
    </p>
  );
}

function sourceText({ from, text }: Draft, beside: boolean, isOpen: boolean): string {
  if (isOpen) return `${from ?? 'Written here'}: as it is open now`;
  if (text === '') return 'A new one';
  const named = from ?? 'Written here';
  return beside ? `${named}, changed: not in use until you run it` : named;
}

function firstLine({ text }: Draft): string {
  const line = text.split('\n').find((each) => each.trim() !== '') ?? '';
  return line.length > 30 ? `${line.slice(0, 30)}…` : line;
}
