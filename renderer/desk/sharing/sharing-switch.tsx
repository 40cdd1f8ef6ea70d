/*
 * Whether this machine shares with other screens, and on which of its addresses.
 */

import { useState, type ReactElement } from 'react';
import type { SharingTold } from '../../link/store.ts';
import { Button } from '../../ui/parts/button.tsx';
import { Select } from '../../ui/parts/select.tsx';
import type { Want } from './want.ts';
import styles from './sharing.module.css';

interface SwitchProps {
  readonly sharing: SharingTold;
  readonly onWant: Want;
  onRefused(why: string): void;
}

const NO_NETWORK = 'This machine is on no private network: connect it to the Wi-Fi first.';

export function SharingSwitch({ sharing, onWant, onRefused }: SwitchProps): ReactElement {
  const { state, choices } = sharing;
  const [chosen, setChosen] = useState<string | null>(null);
  const address = choices.find((each) => each.address === chosen)?.address ?? choices[0]?.address ?? null;
  const share = (): void => void onWant({ do: 'share', address: choices.length > 1 ? address : null });
  const isOn = state !== 'off';
  const mayChoose = choices.length > 1 && (state === 'off' || state === 'ask');
  return (
    <div className={styles.switch}>
      <Button
        name="Share with other screens"
        hint={isOn ? 'on' : 'off'}
        look="small"
        pressed={isOn}
        why={!isOn && choices.length === 0 ? NO_NETWORK : null}
        onPress={() => (isOn ? void onWant({ do: 'stop-sharing' }) : share())}
        onRefused={onRefused}
      />
      {isOn ? null : (
        <p className={styles.quiet}>
          {choices.length === 0
            ? NO_NETWORK
            : 'Televisions, tablets and phones on the pool’s network can then be let in, one by one. Nobody can give a command unless you let them in.'}
        </p>
      )}
      {mayChoose ? (
        <Select
          className={styles.field}
          label="Address of this machine"
          value={address ?? ''}
          choices={choices.map((each) => ({ choice: each.address, name: `${each.address} (${each.name})` }))}
          onChange={setChosen}
        />
      ) : null}
      {state === 'ask' ? (
        <Button
          name="Share on this address"
          look="small deep"
          why={choices.length === 0 ? NO_NETWORK : null}
          onPress={share}
          onRefused={onRefused}
        />
      ) : null}
    </div>
  );
}
