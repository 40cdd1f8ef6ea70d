/*
 * All wall screens by name, each with a small live picture; one of them open, with its settings beside it.
 */

import { useState, type ReactElement, type ReactNode } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import { useDeck, type Tools } from '../../ui/coach/use-deck.ts';
import { SidePanel } from '../panel/panel.tsx';
import type { ScreenTold } from '../../link/store.ts';
import { Sharing } from '../sharing/sharing.tsx';
import { ScreenCard } from './screen-card.tsx';
import { unseenText } from './unseen-lanes.ts';
import { useScreens } from './use-screens.ts';
import styles from './screens-panel.module.css';

interface ScreensPanelProps {
  readonly tools: Pick<Tools, 'link'>;
  /** What sets the clock that the screens show, where it stands nowhere else. */
  readonly children?: ReactNode;
  /** As in `Sharing`. */
  readonly folds?: boolean;
  onClose(): void;
}

export function ScreensPanel({ tools, children, folds = false, onClose }: ScreensPanelProps): ReactElement {
  const { link } = tools;
  const screens = useScreens(link);
  const { said, say } = screens;
  const all = connectedFirst(screens.all);
  const run = useDeck(link, (state) => state.run);
  const unseen = unseenText(run?.given.lanes.map(({ number }) => number) ?? [], all);
  const shared = useDeck(link, ({ sharing }) => (sharing?.state === 'open' ? sharing.address : null));
  // By name; null until one has been opened or closed by hand.
  const [chosen, setChosen] = useState<string | null>(null);
  const open = chosen ?? (all.length === 1 ? all[0]?.name : null);
  return (
    <SidePanel title="Screens" onClose={onClose}>
      <div className={styles.screens}>
        {children}
        <Sharing link={link} folds={folds} />
        <p className={styles.unseen} role="status" aria-label="Lanes on no screen">
          {unseen}
        </p>
        {all.length === 0 ? (
          <p>
            No wall screen has been connected yet.{' '}
            {shared === null
              ? 'For a screen on this machine, open the address of this page with /display after it.'
              : `Open ${shared} in the television’s browser.`}
          </p>
        ) : (
          <Button
            name="Show which is which"
            hint="each shows its name for 5 s"
            look="small"
            onPress={() => link.which()}
          />
        )}
        <ul className={styles.list}>
          {all.map((screen) => (
            <ScreenCard
              key={screen.name}
              link={link}
              screen={screen}
              unseen={unseen}
              isOpen={screen.name === open}
              onOpen={(isOpen) => setChosen(isOpen ? screen.name : '')}
              onChange={(change) => screens.change(screen.name, change)}
              onRename={async (rename) => {
                const why = await screens.rename(screen.name, rename);
                if (why === null) setChosen(rename);
                return why;
              }}
              onForget={() => screens.forget(screen.name)}
              onRefused={say}
            />
          ))}
        </ul>
        <p className={styles.said} role="status" aria-label="What was said">
          {said}
        </p>
      </div>
    </SidePanel>
  );
}

/** Each in the order of names. */
function connectedFirst(all: readonly ScreenTold[]): readonly ScreenTold[] {
  const isConnected = ({ connected }: ScreenTold): boolean => connected.length > 0;
  return [...all.filter(isConnected), ...all.filter((each) => !isConnected(each))];
}
