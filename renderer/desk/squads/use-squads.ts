/*
 * The squads that are kept, and what is done with them. Each thing that is done can be taken back once.
 */

import { useCallback, useEffect, useState } from 'react';
import { isSameSquad } from '../../../app/core/session/lanes/squad.ts';
import { askSquads, type Squad, type SquadsAnswer, type SquadsRequest } from '../../link/requests/squads.ts';

export interface Deed {
  readonly said: string;
  readonly isRefusal: boolean;
  /** Takes it back; null for what cannot be. */
  readonly undo: (() => void) | null;
}

export interface Squads {
  /** null until the host has answered. */
  readonly all: readonly Squad[] | null;
  keep(squad: Squad): Promise<boolean>;
  rename(squad: Squad, to: string): Promise<boolean>;
  remove(squad: Squad): void;
}

export function useSquads(say: (deed: Deed) => void): Squads {
  const [all, setAll] = useState<readonly Squad[] | null>(null);
  /** Whether it was granted. */
  const hear = useCallback(
    (answer: SquadsAnswer, done: { readonly said: string; readonly undo: () => void } | null): boolean => {
      if (!answer.ok) {
        say({ said: answer.why, isRefusal: true, undo: null });
        return false;
      }
      setAll(answer.squads);
      if (answer.said !== null) say({ said: answer.said, isRefusal: true, undo: null });
      else if (done) say({ ...done, isRefusal: false });
      return true;
    },
    [say],
  );
  useEffect(() => void askSquads({ do: 'list' }).then((answer) => hear(answer, null)), [hear]);
  const ask = (asked: SquadsRequest, said: string, undo: () => void): Promise<boolean> =>
    askSquads(asked).then((answer) => hear(answer, { said, undo }));
  const back = (asked: SquadsRequest, said: string) => (): void => {
    void askSquads(asked).then((answer) => {
      if (hear(answer, null)) say({ said, isRefusal: false, undo: null });
    });
  };
  return {
    all,
    keep(squad) {
      const { name } = squad;
      const before = all?.find((each) => isSameSquad(each.name, name));
      const asked = { do: 'keep', squad, over: before !== undefined } as const;
      return before
        ? ask(asked, `${name} has these lanes now.`, back({ ...asked, squad: before }, `${before.name} is as it was.`))
        : ask(asked, `${name} is kept.`, back({ do: 'delete', name }, `${name} is gone.`));
    },
    rename: ({ name }, to) =>
      ask(
        { do: 'rename', name, to },
        `${name} is ${to} now.`,
        back({ do: 'rename', name: to, to: name }, `It is ${name} again.`),
      ),
    remove(squad) {
      const { name } = squad;
      void ask(
        { do: 'delete', name },
        `${name} is deleted.`,
        back({ do: 'keep', squad, over: false }, `${name} is back.`),
      );
    },
  };
}
