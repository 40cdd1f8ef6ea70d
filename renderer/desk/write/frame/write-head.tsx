/*
 * The head of the writing page: which session it is, and what opens beside it.
 */

import type { ReactElement } from 'react';
import type { DeckRun } from '../../../link/store.ts';
import { Button } from '../../../ui/parts/button.tsx';
import { LightSwitch } from '../../actions/light-switch.tsx';
import { MatchClock, type MatchedClock } from '../../actions/match-clock.tsx';
import type { DeskTools } from '../../desk-tools.ts';
import { SESSIONS_KEY } from '../../library/keys/use-sessions-toggle.ts';
import { ScreensButton } from '../../screens/screens-button.tsx';
import type { BesideToggle } from './beside.tsx';
import { WriteSource } from './write-source.tsx';
import type { Written } from '../writing.ts';
import pageStyles from '../../panel/page.module.css';
import styles from '../write-screen.module.css';

interface WriteHeadProps {
  readonly tools: DeskTools;
  readonly run: DeckRun | null;
  readonly written: Written;
  readonly clock: MatchedClock;
  readonly isSessionsOpen: boolean;
  readonly beside: BesideToggle;
  readonly onBack: (() => void) | null;
  onSessions(): void;
  onHistory(): void;
  onRefused(why: string): void;
}

export function WriteHead(props: WriteHeadProps): ReactElement {
  const { tools, run, written, clock, isSessionsOpen, beside, onBack, onSessions, onHistory, onRefused } = props;
  return (
    <header className={`${pageStyles.top} ${styles.head}`} data-back={onBack ? '' : undefined}>
      <div className={styles.title}>
        <WriteSource run={run} writing={tools.writing} written={written} />
      </div>
      <Button
        name="Sessions"
        hint="Ctrl+O"
        keys={SESSIONS_KEY}
        look="small"
        expanded={isSessionsOpen}
        onPress={onSessions}
      />
      <Button name="History" look="small" onPress={onHistory} />
      <Button
        name="Lanes and squads"
        look="small"
        expanded={beside.open === 'lanes'}
        onPress={() => beside.toggle('lanes')}
      />
      <MatchClock phase={clock} />
      <ScreensButton isOpen={beside.open === 'screens'} onToggle={() => beside.toggle('screens')} />
      <LightSwitch light={tools.light} />
      {onBack ? <Button name="Back to the run" look="small" onPress={onBack} onRefused={onRefused} /> : null}
    </header>
  );
}
