/*
 * Says so where this page may not keep the screen awake; not while swimmers read the screen.
 */

import { useEffect, useState, type ReactElement } from 'react';
import { useStore } from 'zustand';
import type { Link } from '../../link/link.ts';
import { keepAwake, type AwakePorts } from '../../ui/awake.ts';

export function AwakeNote({ link, ports }: { readonly link: Link; readonly ports: AwakePorts }): ReactElement | null {
  const [kept, setKept] = useState(true);
  const going = useStore(link.store, ({ run }) => run?.given.phase === 'going');
  useEffect(() => keepAwake(ports, setKept), [ports]);
  if (kept || going) return null;
  return (
    <p className="awake-note">This page may not keep the screen awake: switch its sleep off in its own settings.</p>
  );
}
