/*
 * A part or set that is kept: a tap puts it in at the cursor.
 */

import { memo, type ReactElement } from 'react';
import type { LibraryEntry } from '../../../link/requests/library.ts';
import { EntryRow, type Expanding } from './entry-row.tsx';
import { NameAndBin } from '../naming/name-and-bin.tsx';
import type { Sessions } from '../use-sessions.ts';

interface PieceRowProps extends Expanding {
  readonly sessions: Sessions;
  readonly entry: LibraryEntry;
}

export const PieceRow = memo(function PieceRow(props: PieceRowProps): ReactElement {
  const { sessions, entry, ...expanding } = props;
  const { name, note } = entry;
  return (
    <EntryRow
      {...expanding}
      kind="piece"
      name={name}
      deed={`Put in ${name}`}
      facts={note ?? ''}
      onPress={() => void sessions.insertPiece(name)}
    >
      <NameAndBin {...{ sessions, name }} kind="piece" onDone={() => expanding.onExpand(null)} />
    </EntryRow>
  );
});
