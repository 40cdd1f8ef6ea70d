/*
 * Sharing with other screens, in the Screens panel: switched on and off, televisions, phones and tablets let in, and
 * everything that was let in, with a way to throw it out. A tablet sees the list alone.
 */

import { useCallback, useState, type ReactElement } from 'react';
import type { Link } from '../../link/link.ts';
import type { SharingTold } from '../../link/store.ts';
import { Button } from '../../ui/parts/button.tsx';
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

interface SharingProps {
  readonly link: Link;
  /**
   * In a run the panel is opened for the wall screens below: once something was let in, and while no screen shows digits,
   * what lets in and throws out is behind a button.
   */
  readonly folds?: boolean;
}

export function Sharing({ link, folds = false }: SharingProps): ReactElement | null {
  const sharing = useDeck(link, (state) => state.sharing);
  const [isOpen, open] = useState(() => !folds || isWanted(link.store.getState().sharing));
  const [said, say] = useSaid();
  const [isRefused, refuse] = useState(false);
  const ask = useCallback<Want>(async (wish) => (await link.share(wish)).why, [link]);
  const want = useCallback<Want>(
    async (wish) => {
      const { devices } = link.store.getState().sharing ?? { devices: [] };
      const why = await ask(wish);
      refuse(why !== null);
      say(why ?? (wish.do === 'stop-sharing' ? endedText(devices) : ''));
      return why;
    },
    [ask, link, say],
  );
  const onRefused = useCallback(
    (why: string): void => {
      refuse(true);
      say(why);
    },
    [say],
  );
  if (!sharing) return null;
  const { mayLetIn, devices, fault } = sharing;
  const troubles = [fault ?? '', troubleText(sharing)].filter((text) => text !== '');
  return (
    <section className={styles.sharing} aria-label="Sharing">
      {mayLetIn ? <SharingSwitch sharing={sharing} onWant={want} onRefused={onRefused} /> : null}
      <p
        className={troubles.length > 0 || (isRefused && said !== '') ? styles.trouble : styles.quiet}
        role="status"
        aria-label="How sharing goes"
      >
        {[...troubles, said].filter((text) => text !== '').join(' ')}
      </p>
      {folds && (devices.length > 0 || !isOpen) ? (
        <Button
          name="Devices"
          hint={`${devices.length} let in${sharing.showing > 0 ? ', a screen shows digits' : ''}`}
          look="small"
          expanded={isOpen}
          onPress={() => open(!isOpen)}
        />
      ) : null}
      {isOpen && mayLetIn && sharing.state === 'open' ? (
        <LettingIn link={link} sharing={sharing} onWant={want} onAsk={ask} />
      ) : null}
      {isOpen && devices.length > 0 ? <DeviceList devices={devices} onWant={want} onAsk={ask} /> : null}
      {!isOpen || sharing.state === 'off' ? null : (
        <p className={styles.quiet}>
          On an open Wi-Fi anyone can read what wall screens show. A phone that is lost unlocked commands until you
          throw it out.
        </p>
      )}
    </section>
  );
}

/** Whether the panel is likely opened to let something in. */
function isWanted(sharing: SharingTold | null): boolean {
  return sharing === null || sharing.devices.length === 0 || sharing.showing > 0;
}

interface LettingInProps {
  readonly link: Link;
  readonly sharing: SharingTold;
  readonly onWant: Want;
  readonly onAsk: Want;
}

function LettingIn({ link, sharing, onWant, onAsk }: LettingInProps): ReactElement {
  const { address, showing, code, devices } = sharing;
  return (
    <>
      <TelevisionDigits address={address ?? ''} showing={showing} devices={devices} onAsk={onAsk} />
      <CodeButtons code={code} onWant={onWant} />
      <AnotherWindow link={link} onWant={onWant} />
    </>
  );
}
