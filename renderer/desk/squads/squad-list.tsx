/*
 * The squads that are kept: one is chosen for the session, the session's lanes are kept as one, and they are renamed and
 * deleted.
 */

import { useEffect, useRef, useState, type FormEvent, type KeyboardEvent, type ReactElement } from 'react';
import { isSameSquad, LONGEST_SQUAD_NAME, squadLanes, squadName } from '../../../app/core/session/lanes/squad.ts';
import { count } from '../../../app/core/words/phrase.ts';
import type { Squad } from '../../link/requests/squads.ts';
import { Button } from '../../ui/parts/button.tsx';
import type { Squads } from './use-squads.ts';
import styles from './lanes-panel.module.css';

interface SquadListProps {
  readonly squads: Squads;
  onUse(squad: Squad): void;
  onRefused(why: string): void;
}

/** Nothing as long as there is none. */
export function SquadList({ squads, onUse, onRefused }: SquadListProps): ReactElement | null {
  if (!squads.all || squads.all.length === 0) return null;
  return (
    <section className={styles.squads} aria-label="Squads">
      <h3>Who swims</h3>
      <ul className={styles.list}>
        {squads.all.map((squad) => (
          <li key={squad.name} className={styles.squad}>
            <SquadRow squad={squad} squads={squads} onUse={onUse} onRefused={onRefused} />
          </li>
        ))}
      </ul>
    </section>
  );
}

type SquadRowProps = SquadListProps & { readonly squad: Squad };

function SquadRow({ squad, squads, onUse, onRefused }: SquadRowProps): ReactElement {
  const { name } = squad;
  const [isRenamed, setRenamed] = useState(false);
  if (isRenamed) {
    const rename = async (to: string): Promise<void> => {
      if (to === name || (await squads.rename(squad, to))) setRenamed(false);
    };
    return (
      <NameForm
        label={`New name of ${name}`}
        first={name}
        deed={() => 'Rename'}
        onName={(to) => void rename(to)}
        onLeave={() => setRenamed(false)}
        onRefused={onRefused}
      />
    );
  }
  return (
    <>
      <p className={styles.name}>
        <strong>{name}</strong> {sizeText(squad)}
      </p>
      <Button name={`Use ${name}`} label="Use" look="small deep" onPress={() => onUse(squad)} />
      <Button name={`Rename ${name}`} label="Rename" look="small" onPress={() => setRenamed(true)} />
      <Button name={`Delete ${name}`} label="Delete" look="small" onPress={() => squads.remove(squad)} />
    </>
  );
}

interface KeepSquadProps {
  readonly squads: Squads;
  /** The session's lanes, a line each; or why they cannot be kept. */
  readonly lanes: readonly string[] | { readonly why: string };
  onRefused(why: string): void;
}

export function KeepSquad({ squads, lanes, onRefused }: KeepSquadProps): ReactElement {
  // Each that is kept has a form of its own, empty again for the next.
  const [kept, setKept] = useState(0);
  const keep = async (name: string): Promise<void> => {
    if ('why' in lanes) return onRefused(lanes.why);
    if (await squads.keep({ name, lanes: [...lanes] })) setKept(kept + 1);
  };
  const isThere = (name: string): boolean => squads.all?.some((each) => isSameSquad(each.name, name)) ?? false;
  return (
    <section aria-label="Keep these lanes as a squad">
      <NameForm
        key={kept}
        label="Keep these lanes as a squad called"
        first=""
        deed={(name) => (isThere(name) ? `Replace ${name}` : 'Keep')}
        onName={(name) => void keep(name)}
        onLeave={null}
        onRefused={onRefused}
      />
      {squads.all?.length === 0 ? (
        <p className={styles.quiet}>
          No squads yet. Give these lanes a name and keep them: the next session then has them with one tap.
        </p>
      ) : null}
    </section>
  );
}

interface NameFormProps {
  readonly label: string;
  readonly first: string;
  /** What the button does with a name. */
  deed(name: string): string;
  onName(name: string): void;
  /** null for a form that stays. */
  readonly onLeave: (() => void) | null;
  onRefused(why: string): void;
}

function NameForm({ label, first, deed, onName, onLeave, onRefused }: NameFormProps): ReactElement {
  const [text, setText] = useState(first);
  const field = useRef<HTMLInputElement>(null);
  const isOpened = onLeave !== null;
  useEffect(() => {
    if (isOpened) field.current?.select();
  }, [isOpened]);
  const give = (): void => {
    const name = squadName(text);
    if (name === null) return onRefused(`Write a name of letters and digits, ${LONGEST_SQUAD_NAME} at most.`);
    onName(name);
  };
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    give();
  };
  const leave = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.nativeEvent.isComposing || !onLeave) return;
    // It closes the field, not the panel around it.
    event.stopPropagation();
    onLeave();
  };
  return (
    <form className={styles.form} onSubmit={submit} onKeyDown={leave}>
      <label>
        {label}
        <input
          className={styles.input}
          value={text}
          maxLength={LONGEST_SQUAD_NAME}
          autoComplete="off"
          onChange={({ target }) => setText(target.value)}
          ref={field}
        />
      </label>
      <Button name={deed(squadName(text) ?? '')} hint="Enter" look="small" onPress={give} />
      {onLeave ? <Button name="Leave the name" hint="Esc" look="small" onPress={onLeave} /> : null}
    </form>
  );
}

/** "6 lanes, 28 swimmers". */
function sizeText({ lanes }: Squad): string {
  const swimmers = squadLanes(lanes)?.reduce((sum, lane) => sum + lane.swimmers, 0) ?? 0;
  return `${count(lanes.length, 'lane')}, ${count(swimmers, 'swimmer')}`;
}
