/*
 * How a phone or a tablet is let in: its code is shown, for one device and two minutes, while this is open.
 */

import { useEffect, useRef, type ReactElement } from 'react';
import type { SharingTold } from '../../link/store.ts';
import { Button } from '../../ui/parts/button.tsx';
import { CodeShown } from './code-shown.tsx';
import { roleName } from './sharing-words.ts';
import type { Want } from './want.ts';
import styles from './sharing.module.css';

interface CodeProps {
  readonly code: SharingTold['code'];
  readonly onWant: Want;
}

const ROLES = ['remote', 'tablet'] as const;

export function CodeButtons({ code, onWant }: CodeProps): ReactElement {
  useHidden(code, onWant);
  return (
    <div className={styles.group} role="group" aria-label="Phones and tablets">
      <h3>Phones and tablets</h3>
      <div className={styles.row}>
        {ROLES.map((role) => (
          <Button
            key={role}
            name={`Let a ${roleName(role)} in`}
            hint={role === 'remote' ? 'the remote' : 'the coach’s window'}
            look="small"
            pressed={code?.role === role}
            onPress={() => void onWant(code?.role === role ? { do: 'hide-code' } : { do: 'show-code', role })}
          />
        ))}
      </div>
      {code ? <CodeShown key={code.letters} code={code} onHide={() => void onWant({ do: 'hide-code' })} /> : null}
    </div>
  );
}

/** Nobody can use a code any more once this is closed. */
function useHidden(code: CodeProps['code'], onWant: Want): void {
  const latest = useRef({ code, onWant });
  useEffect(() => {
    latest.current = { code, onWant };
  });
  useEffect(
    () => () => {
      if (latest.current.code) void latest.current.onWant({ do: 'hide-code' });
    },
    [],
  );
}
