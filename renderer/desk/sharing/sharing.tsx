/*
 * Sharing with other screens, in the Screens panel: switched on and off, televisions, phones and tablets let in, and
 * everything that was let in, with a way to throw it out. A tablet sees the list alone.
 */

import { useCallback, type ReactElement } from 'react';
import type { Link } from '../../link/link.ts';
import type { SharingTold } from '../../link/store.ts';
import { useDeck } from '../../ui/coach/use-deck.ts';
import { useSaid } from './use-said.ts';
import { AnotherWindow } from './another-window.tsx';
import { CodeButtons } from './code-buttons.tsx';
import { DeviceList } from './device-list.tsx';
import { SharingSwitch } from './sharing-switch.tsx';
import { endedText, troubleText } from './sharing-words.ts';
import { TelevisionDigits } from './television-digits.tsx';
import type { Want } from './want.ts';
import styles from './sharing.module.css';

export function Sharing({ link }: { readonly link: Link }): ReactElement | null {
  const sharing = useDeck(link, (state) => state.sharing);
  const [said, say] = useSaid();
  const ask = useCallback<Want>(async (wish) => (await link.share(wish)).why, [link]);
  const want = useCallback<Want>(
    async (wish) => {
      const { devices } = link.store.getState().sharing ?? { devices: [] };
      const why = await ask(wish);
      say(why ?? (wish.do === 'stop-sharing' ? endedText(devices) : ''));
      return why;
    },
    [ask, link, say],
  );
  if (!sharing) return null;
  const { mayLetIn, devices, fault } = sharing;
  return (
    <section className={styles.sharing} aria-label="Sharing">
      {mayLetIn ? <SharingSwitch sharing={sharing} onWant={want} onRefused={say} /> : null}
      <p className={styles.trouble} role="status" aria-label="How sharing goes">
        {[fault ?? '', troubleText(sharing), said].filter((text) => text !== '').join(' ')}
      </p>
      {mayLetIn && sharing.state === 'open' ? (
        <LettingIn link={link} sharing={sharing} onWant={want} onAsk={ask} />
      ) : null}
      {devices.length > 0 ? <DeviceList devices={devices} onWant={want} onAsk={ask} /> : null}
      {sharing.state === 'off' ? null : (
        <p className={styles.quiet}>
          On an open Wi-Fi anyone can read what wall screens show. A phone that is lost unlocked commands until you
          throw it out.
        </p>
      )}
    </section>
  );
}

interface LettingInProps {
  readonly link: Link;
  readonly sharing: SharingTold;
  readonly onWant: Want;
  readonly onAsk: Want;
}

function LettingIn({ link, sharing, onWant, onAsk }: LettingInProps): ReactElement {
  const { address, showing, code } = sharing;
  return (
    <>
      <TelevisionDigits address={address ?? ''} showing={showing} onAsk={onAsk} />
      <CodeButtons code={code} onWant={onWant} />
      <AnotherWindow link={link} onWant={onWant} />
    </>
  );
}
