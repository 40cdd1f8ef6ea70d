/*
 * What can be done with all that the library keeps: another name, and the bin.
 */

import type { ReactElement } from 'react';
import type { ShelfKind } from '../../../link/requests/library.ts';
import { Button } from '../../../ui/parts/button.tsx';
import { NameField } from './name-field.tsx';
import type { Sessions } from '../use-sessions.ts';

interface NameAndBinProps {
  readonly sessions: Sessions;
  readonly kind: ShelfKind;
  readonly name: string;
  onDone(): void;
}

export function NameAndBin({ sessions, kind, name, onDone }: NameAndBinProps): ReactElement {
  const rename = async (to: string): Promise<boolean> => {
    const ok = await sessions.rename(kind, name, to);
    if (ok) onDone();
    return ok;
  };
  return (
    <>
      <NameField name={name} onRename={rename} />
      <Button
        name={`Move ${name} to the bin`}
        label="Move to the bin"
        look="small"
        onPress={() => void sessions.discard(kind, name).then(onDone)}
      />
    </>
  );
}
