/*
 * A session on paper: which sheet, as it will look, and the browser's own print.
 */

import { useMemo, useState, type ReactElement } from 'react';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import type { Source } from '../../../app/core/plan/plan.ts';
import { Button } from '../../ui/parts/button.tsx';
import { BoardSheet, LaneSheets, TimetableSheet } from './sheets.tsx';
import pageStyles from '../panel/page.module.css';
import styles from './paper-room.module.css';

interface PaperRoomProps {
  readonly source: Source;
  onBack(): void;
}

const SHEETS = [
  { name: 'Whiteboard', hint: 'for everybody', Sheet: BoardSheet },
  { name: 'A sheet a lane', hint: 'big type, to laminate', Sheet: LaneSheets },
  { name: 'Timetable', hint: 'for the coach', Sheet: TimetableSheet },
] as const;

export function PaperRoom({ source, onBack }: PaperRoomProps): ReactElement {
  const [chosen, setChosen] = useState(0);
  const { Sheet } = SHEETS[chosen]!;
  const opened = useMemo(() => openPlan(source), [source]);
  return (
    <div className={`${pageStyles.page} ${styles.room}`}>
      <header className={pageStyles.head}>
        <h1>On paper</h1>
        {SHEETS.map(({ name, hint }, index) => (
          <Button
            key={name}
            name={name}
            hint={hint}
            look="small"
            pressed={index === chosen}
            onPress={() => setChosen(index)}
          />
        ))}
        <Button name="Back to writing" look="small" onPress={onBack} />
      </header>
      <main className={`${pageStyles.card} ${styles.sheets}`} aria-label="As it is printed" tabIndex={0}>
        {opened.ok ? <Sheet plan={opened.value} /> : <p>The text has faults: mend them first.</p>}
      </main>
      <footer className={styles.foot}>
        <Button name="Print" hint="A4 or Letter" look="primary start" onPress={() => window.print()} />
        <p>
          It is printed black on white. Choose the paper, and more than one page on a sheet, in the printer’s window.
        </p>
      </footer>
    </div>
  );
}
