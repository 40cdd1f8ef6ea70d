/*
 * A file that another program has changed, beside what stands in the editor: which of the two counts is the coach's
 * choice, and neither is lost.
 */

import { useEffect, useRef, type ReactElement } from 'react';
import { changesOf } from '../../../app/core/session/text/line-changes.ts';
import { textLines } from '../../../app/core/session/text/lines.ts';
import type { FileNow } from '../../link/requests/library.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { Writing } from '../write/writing.ts';
import styles from './changed-elsewhere.module.css';

interface ChangedElsewhereProps {
  readonly writing: Writing;
  readonly name: string;
  readonly mine: string;
  readonly now: FileNow;
}

export function ChangedElsewhere({ writing, name, mine, now }: ChangedElsewhereProps): ReactElement {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    // Browsers differ in what this returns; an effect returns nothing but its end.
    heading.current?.scrollIntoView();
  }, []);
  return (
    <section aria-label="Changed elsewhere">
      <div role="alert">
        <h2 className={styles.title} ref={heading}>
          {name} {now ? 'was changed elsewhere' : 'is not there any more'}
        </h2>
        <p>
          {now
            ? 'Another program, or another window, has written to its file. Your text is in the editor, and what is in the file is below. Nothing is saved until you choose; neither is lost.'
            : 'Its file was moved, renamed or deleted elsewhere. Your text is still in the editor. Nothing is saved until you choose.'}
        </p>
      </div>
      <div className={styles.buttons}>
        {now ? (
          <>
            <Button
              name="Take what is in the file"
              hint="Undo brings yours back"
              look="small"
              onPress={() => writing.takeTheirs()}
            />
            <Button
              name="Keep mine"
              hint="what is in the file goes into the bin"
              look="small"
              onPress={() => void writing.keepMine()}
            />
            <Button
              name="Keep both"
              hint="mine under another name"
              look="small"
              onPress={() => void writing.keepBoth()}
            />
          </>
        ) : (
          <>
            <Button name="Save it again" hint="by its name" look="small" onPress={() => void writing.keepMine()} />
            <Button
              name="Let it go"
              hint="begins a new session; Undo brings it back"
              look="small"
              onPress={() => writing.takeTheirs()}
            />
          </>
        )}
      </div>
      {now ? <FileText mine={mine} theirs={now.text} /> : null}
    </section>
  );
}

function FileText({ mine, theirs }: { readonly mine: string; readonly theirs: string }): ReactElement {
  const lines = textLines(theirs);
  const other = new Set<number>();
  let shift = 0;
  for (const { from, to, by } of changesOf(textLines(mine), lines)) {
    by.forEach((_, index) => other.add(from + shift + index));
    shift += by.length - (to - from);
  }
  return (
    <ol className={styles.text} aria-label="What is in the file" tabIndex={0}>
      {lines.map((line, index) => (
        <li key={index} data-other={other.has(index) ? '' : undefined}>
          {other.has(index) ? <mark>{line === '' ? ' ' : line}</mark> : line}
        </li>
      ))}
    </ol>
  );
}
