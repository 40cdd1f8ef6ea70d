/*
 * One session of the list: a tap opens it, and what else can be done with it stands behind "…".
 */

import { memo, useState, type ReactElement } from 'react';
import type { LibraryEntry } from '../../../link/requests/library.ts';
import { Button } from '../../../ui/parts/button.tsx';
import { saveText } from '../../save-text.ts';
import { AnotherDay } from '../naming/another-day.tsx';
import { entryFacts } from './entry-facts.ts';
import { EntryRow, type Expanding } from './entry-row.tsx';
import { NameAndBin } from '../naming/name-and-bin.tsx';
import type { Sessions } from '../use-sessions.ts';

interface SessionRowProps extends Expanding {
  readonly sessions: Sessions;
  readonly entry: LibraryEntry;
  /** Whether it is in the editor. */
  readonly isOpen: boolean;
}

export const SessionRow = memo(function SessionRow(props: SessionRowProps): ReactElement {
  const { sessions, entry, isOpen, ...expanding } = props;
  const { name } = entry;
  return (
    <EntryRow
      {...expanding}
      {...{ name, isOpen }}
      kind="session"
      deed={name}
      facts={entryFacts(entry)}
      onPress={() => void sessions.open(name)}
    >
      <SessionActions {...{ sessions, name }} onDone={() => expanding.onExpand(null)} />
    </EntryRow>
  );
});

interface SessionActionsProps {
  readonly sessions: Sessions;
  readonly name: string;
  onDone(): void;
}

function SessionActions({ sessions, name, onDone }: SessionActionsProps): ReactElement {
  // The text that is taken for another day.
  const [moving, setMoving] = useState<string | null>(null);
  const withText = async (call: (text: string) => void): Promise<void> => {
    const read = await sessions.read('session', name);
    if (read) call(read.text);
  };
  return (
    <>
      <Button
        name={`${name} for another day`}
        label="For another day…"
        look="small"
        expanded={moving !== null}
        onPress={() => (moving === null ? void withText(setMoving) : setMoving(null))}
      />
      {moving === null ? null : (
        <AnotherDay
          name={name}
          text={moving}
          onMake={(day, start) => void sessions.moveTo(name, day, start).then(onDone)}
          onRefused={sessions.refuse}
        />
      )}
      <Button
        name={`Duplicate ${name}`}
        label="Duplicate"
        look="small"
        onPress={() => void sessions.duplicate(name).then(onDone)}
      />
      <Button
        name={`Save ${name} as a file`}
        label="Save as a file"
        look="small"
        onPress={() => void withText((text) => saveText(`${name}.txt`, text, 'text/plain'))}
      />
      <NameAndBin {...{ sessions, name, onDone }} kind="session" />
    </>
  );
}
