/*
 * One wall screen: its picture, its name, how it stands, and its settings where it is open.
 */

import { useEffect, useRef, useState, type ReactElement } from 'react';
import type { ScreenChange } from '../../../app/core/screen/screen-settings.ts';
import type { ScreenTold } from '../../link/store.ts';
import type { ScreenSight } from '../../link/lent-link.ts';
import type { Link } from '../../link/link.ts';
import { Button } from '../../ui/parts/button.tsx';
import { addressText } from './address-wins.ts';
import { ScreenName } from './screen-name.tsx';
import { ScreenPicture } from './screen-picture.tsx';
import { SightFields } from './sight-fields.tsx';
import { SettingsFields } from './settings-fields.tsx';
import styles from './screens-panel.module.css';

interface ScreenCardProps {
  readonly link: Link;
  readonly screen: ScreenTold;
  /** Which lanes are on no screen, in a sentence; empty where there are none. */
  readonly unseen: string;
  readonly isOpen: boolean;
  onOpen(isOpen: boolean): void;
  onChange(change: ScreenChange): void;
  /** Resolves with why it was not done; null where it was. */
  onRename(name: string): Promise<string | null>;
  onForget(): void;
  onRefused(why: string): void;
}

export function ScreenCard(props: ScreenCardProps): ReactElement {
  const { link, screen, unseen, isOpen, onOpen, onChange, onRename, onForget, onRefused } = props;
  const { name, connected, settings } = screen;
  const [sight, setSight] = useState<ScreenSight | null>(null);
  const card = useRef<HTMLElement>(null);
  const wasOpen = useRef(isOpen);
  useEffect(() => {
    // Opened at the foot of the panel, its settings would be out of sight.
    if (isOpen && !wasOpen.current) card.current?.scrollIntoView({ block: 'nearest' });
    wasOpen.current = isOpen;
  }, [isOpen]);
  const isConnected = connected.length > 0;
  const address = addressText(connected);
  return (
    <li>
      <section ref={card} className={styles.card} data-open={isOpen ? 'yes' : undefined} aria-label={name}>
        <div className={styles.shown}>
          <ScreenPicture link={link} screen={screen} onSight={setSight} />
          <div className={styles.head}>
            <div className={styles.title}>
              <h3>{name}</h3>
              <p className={styles.quiet}>{standText(screen)}</p>
            </div>
            <Button
              name={`Settings of ${name}`}
              label="Settings"
              look="small"
              expanded={isOpen}
              onPress={() => onOpen(!isOpen)}
            />
          </div>
        </div>
        {isOpen || address !== '' ? (
          <div className={styles.body}>
            {address === '' ? null : <p className={styles.quiet}>{address}</p>}
            {isOpen ? (
              <>
                {sight ? <SightFields sight={sight} reader={settings.reader} onChange={onChange} /> : null}
                <SettingsFields
                  link={link}
                  unseen={unseen}
                  settings={settings}
                  hearsNames={screen.isOwnWindow === true || !isConnected}
                  onChange={onChange}
                  onRefused={onRefused}
                />
                <div className={styles.row}>
                  <ScreenName name={name} onRename={onRename} />
                  <Button
                    name={`Forget ${name}`}
                    label="Forget"
                    hint={isConnected ? 'once it is switched off' : undefined}
                    look="small"
                    why={isConnected ? `“${name}” is connected: forget it once it is switched off.` : null}
                    onPress={onForget}
                    onRefused={onRefused}
                  />
                </div>
              </>
            ) : null}
          </div>
        ) : null}
      </section>
    </li>
  );
}

/** "connected", "2 of this name connected", "not connected". */
function standText({ connected }: ScreenTold): string {
  if (connected.length === 0) return 'not connected';
  return connected.length === 1 ? 'connected' : `${connected.length} of this name connected`;
}
