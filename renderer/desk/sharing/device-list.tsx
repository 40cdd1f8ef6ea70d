/*
 * Everything that was let in: what it is, how it stands, another name for it, and out with it. What was thrown out can
 * be let in again.
 */

import type { ReactElement } from 'react';
import type { SharedDevice } from '../../link/store.ts';
import { Button } from '../../ui/parts/button.tsx';
import { ScreenName } from '../screens/screen-name.tsx';
import { deviceText } from './sharing-words.ts';
import type { Want } from './want.ts';
import styles from './sharing.module.css';

interface DeviceListProps {
  readonly devices: readonly SharedDevice[];
  readonly onWant: Want;
  /** Its answer is said beside the name. */
  readonly onAsk: Want;
}

export function DeviceList({ devices, onWant, onAsk }: DeviceListProps): ReactElement {
  const connected = devices.filter((device) => device.connected);
  const all = [...connected, ...devices.filter((device) => !device.connected)];
  return (
    <div className={styles.group} role="group" aria-label="Devices">
      <h3>Let in</h3>
      <ul className={styles.devices}>
        {all.map((device) => (
          <li key={device.id} aria-label={device.name}>
            <div className={styles.device}>
              <p className={styles.name}>{device.name}</p>
              <p className={device.clock === 'poor' ? styles.trouble : styles.quiet}>{deviceText(device)}</p>
            </div>
            {device.role === 'wall' ? null : (
              <ScreenName
                name={device.name}
                onRename={(name) => onAsk({ do: 'rename-device', device: device.id, name })}
              />
            )}
            {device.isYours ? <p className={styles.quiet}>this window</p> : null}
            {device.mayThrowOut ? (
              <Button
                name={`Throw out ${device.name}`}
                label="Throw out"
                look="small"
                onPress={() => void onWant({ do: 'throw-out', device: device.id })}
              />
            ) : null}
          </li>
        ))}
      </ul>
    </div>
  );
}
