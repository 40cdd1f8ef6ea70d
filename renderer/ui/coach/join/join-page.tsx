/*
 * A remote's or a tablet's page that has not been let in: the code is scanned, or its letters are typed here.
 */

import { useState, type ReactElement, type ReactNode } from 'react';
import { useStore } from 'zustand';
import type { Joining } from '../../../link/joining/joining.ts';
import { Button } from '../../parts/button.tsx';
import styles from './join-page.module.css';

export interface JoinProps {
  readonly joining: Joining;
  /** As the coach's window calls it: "phone". */
  readonly device: 'phone' | 'tablet';
  /** Joins by what was typed; false where that is no code. */
  enter(typed: string): boolean;
}

/** The page itself, once nothing stands in its way. */
export function JoinFirst({ children, ...props }: JoinProps & { readonly children: ReactNode }): ReactNode {
  const step = useStore(props.joining, (state) => state.step);
  return step === 'asks' ? <JoinPage {...props} /> : children;
}

const NO_CODE = 'A code has 20 letters and digits: check what you typed.';

function JoinPage({ joining, device, enter }: JoinProps): ReactElement {
  // A code that was refused may have one wrong letter: it stays, to be mended.
  const code = useStore(joining, (state) => (state.step === 'asks' ? (state.code ?? '') : ''));
  const refused = useStore(joining, (state) => (state.step === 'asks' ? state.why : null));
  const [typed, setTyped] = useState(() => inGroups(code, ''));
  const [fault, setFault] = useState<string | null>(null);
  const join = (): void => setFault(enter(typed) ? null : NO_CODE);
  const said = fault ?? refused;
  return (
    <main className={styles.page}>
      <h1>Lanecall on this {device}</h1>
      <p>
        In the coach’s window open Screens and tap “Let a {device} in”. Scan the code that it shows, or type its 20
        letters and digits.
      </p>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          join();
        }}
      >
        <label className={styles.field}>
          The 20 characters
          <input
            value={typed}
            autoCapitalize="characters"
            autoComplete="off"
            autoCorrect="off"
            spellCheck={false}
            enterKeyHint="go"
            placeholder="XXXXX-XXXXX-XXXXX-XXXXX"
            aria-invalid={fault !== null}
            onChange={({ target }) => {
              setTyped(target.selectionStart === target.value.length ? inGroups(target.value, typed) : target.value);
              setFault(null);
            }}
          />
        </label>
        <p className={styles.count}>{lettersIn(typed).length} of 20</p>
        <p className={styles.said} role="alert">
          {said}
        </p>
        <Button name="Join" look="primary go" onPress={join} />
      </form>
    </main>
  );
}

function lettersIn(typed: string): string {
  return typed.replace(/[\s-]/g, '').toUpperCase();
}

/** As it is read from the coach's window: five letters, a dash. What is taken away stays away. */
export function inGroups(typed: string, before: string): string {
  if (typed.length < before.length) return typed;
  return (lettersIn(typed).match(/.{1,5}/g) ?? []).join('-');
}
