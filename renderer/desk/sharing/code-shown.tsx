/*
 * The code of one phone or tablet: to scan, dark on light by day and by night, and as letters to type.
 */

import { useEffect, useMemo, useRef, useState, type ReactElement } from 'react';
import { encode } from 'uqr';
import type { SharingTold } from '../../link/store.ts';
import { Button } from '../../ui/parts/button.tsx';
import { roleName } from './sharing-words.ts';
import styles from './sharing.module.css';

interface ShownProps {
  readonly code: NonNullable<SharingTold['code']>;
  onHide(): void;
}

export function CodeShown({ code, onHide }: ShownProps): ReactElement {
  const { role, address, letters, left } = code;
  const seconds = useSecondsLeft(left);
  const place = useRef<HTMLDivElement>(null);
  // It gives nothing back: newer browsers answer a scroll with a promise, which React would take for a clean-up.
  useEffect(() => {
    place.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  return (
    <div className={styles.code} ref={place}>
      <QrCode text={address} name={`Code for one ${roleName(role)}`} />
      <div>
        <p>
          Scan this with the {roleName(role)}’s camera. Or open <b className={styles.page}>{page(address)}</b> on it,
          and type:
        </p>
        <p className={styles.letters}>{inGroups(letters)}</p>
        <p className={styles.quiet}>
          {seconds > 0 ? `For one ${roleName(role)}, valid for ${seconds} s more.` : 'No longer valid: show another.'}
        </p>
        <Button name="Hide the code" look="small" onPress={onHide} />
      </div>
    </div>
  );
}

/** Of light modules around it, so that a camera finds it (ISO/IEC 18004, 9.1). */
const QUIET = 4;

function QrCode({ text, name }: { readonly text: string; readonly name: string }): ReactElement {
  const { size, dark } = useMemo(() => {
    const { size: modules, data } = encode(text, { ecc: 'M', border: QUIET });
    const runs = data.flatMap((row, y) => row.map((isDark, x) => (isDark ? `M${x} ${y}h1v1h-1z` : '')));
    return { size: modules, dark: runs.join('') };
  }, [text]);
  return (
    <svg className={styles.qr} role="img" aria-label={name} viewBox={`0 0 ${size} ${size}`} shapeRendering="crispEdges">
      <rect className={styles.light} width={size} height={size} />
      <path className={styles.dark} d={dark} />
    </svg>
  );
}

/** `left`: in ms, as the host has said it last. */
function useSecondsLeft(left: number): number {
  const [told, setTold] = useState({ left, seconds: Math.ceil(left / 1000) });
  if (told.left !== left) setTold({ left, seconds: Math.ceil(left / 1000) });
  useEffect(() => {
    const timer = setInterval(
      () => setTold((before) => ({ ...before, seconds: Math.max(0, before.seconds - 1) })),
      1000,
    );
    return () => clearInterval(timer);
  }, [left]);
  return told.seconds;
}

/** Five letters, a space: as they are read out. */
function inGroups(letters: string): string {
  return (letters.replace(/[\s-]/g, '').match(/.{1,5}/g) ?? []).join(' ');
}

/** Without the code. */
function page(address: string): string {
  const { origin, pathname } = new URL(address);
  return origin + pathname;
}
