/*
 * Lanes and squads beside the session that is written: the table of its lanes, and the squads that can be put in their
 * place. What is done here is written into the text, and can be taken back.
 */

import { useCallback, useLayoutEffect, useMemo, useRef, useState, type ReactElement, type ReactNode } from 'react';
import { squadLanes } from '../../../app/core/session/lanes/squad.ts';
import { HIGHEST_LANE, plainLane, type WrittenLane } from '../../../app/core/session/line/lane-line.ts';
import {
  laneText,
  textWithLane,
  textWithLanes,
  textWithoutLane,
} from '../../../app/core/session/text/text-with-lane.ts';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { capital } from '../../../app/core/words/phrase.ts';
import type { Squad } from '../../link/requests/squads.ts';
import { Button } from '../../ui/parts/button.tsx';
import { SidePanel } from '../panel/panel.tsx';
import { laneTable, type LaneTable as Table } from './lane-rows.ts';
import { LaneTable } from './lane-table.tsx';
import { KeepSquad, SquadList } from './squad-list.tsx';
import { useSquads, type Deed } from './use-squads.ts';
import styles from './lanes-panel.module.css';

interface LanesPanelProps {
  /** Which text it is. What was typed for another does not count for this one. */
  readonly sheet: number;
  readonly text: string;
  /** Of lanes that are written apart; '' for none. */
  readonly lanesText: string;
  /** With what was typed and is not shown yet. */
  textNow(): string;
  /** `part`: what the change is a part of; left out for what is done at once. */
  onText(text: string, part?: string): void;
  /** Puts the cursor into a line of the text. */
  onLine(line: number): void;
  onClose(): void;
  /** What else can be done about lanes. */
  readonly children?: ReactNode;
}

export function LanesPanel(props: LanesPanelProps): ReactElement {
  const { sheet, text, lanesText, textNow, onText, onLine, onClose, children } = props;
  // By what it says, so that a key typed in a part draws nothing anew here.
  const said = JSON.stringify(laneTable(text, lanesText));
  const table = useMemo(() => JSON.parse(said) as Table, [said]);
  const { deed, say, refuse, write } = useDeeds(text, textNow, onText);
  const squads = useSquads(say);
  const use = (squad: Squad): void => {
    const lanes = squadLanes(squad.lanes);
    if (lanes) write(textWithLanes(textNow(), lanes), usedText(squad.name, table, lanes));
  };
  // The table is drawn anew where it says something else, not where these are new.
  const latest = useRef({ textNow, onText, write, onLine });
  useLayoutEffect(() => {
    latest.current = { textNow, onText, write, onLine };
  });
  const takeLane = useCallback((lane: WrittenLane, part?: string) => {
    const now = latest.current;
    now.onText(textWithLane(now.textNow(), lane), part);
  }, []);
  const takeOut = useCallback((number: number) => {
    const now = latest.current;
    now.write(textWithoutLane(now.textNow(), number), `Lane ${number} is out of the session.`);
  }, []);
  const goTo = useCallback((line: number) => latest.current.onLine(line), []);
  const last = table.rows[table.rows.length - 1]!;
  const addLane = (): void => {
    // A session without a line for any lane has lane 1; with one for lane 2 alone it would have no other.
    const now = textNow();
    const before = last.from.at === 'nowhere' ? textWithLane(now, plainLane(last.number)) : now;
    const number = last.number + 1;
    write(textWithLane(before, { ...(last.written ?? plainLane(0)), number, names: [], swimmers: 1 }), added(number));
  };
  return (
    <SidePanel title="Lanes and squads" onClose={onClose}>
      <div className={styles.said} data-wrong={deed?.isRefusal ? '' : undefined}>
        <p role="status">{deed?.said}</p>
        {deed?.undo ? <Button name="Undo that" look="small" onPress={deed.undo} /> : null}
      </div>
      <LaneTable key={sheet} table={table} onLane={takeLane} onTakeOut={takeOut} onLine={goTo} onRefused={refuse} />
      <div className={styles.more}>
        <Button
          name="Add a lane"
          look="small"
          why={last.number < HIGHEST_LANE ? null : `Lane ${HIGHEST_LANE} is the last there can be.`}
          onPress={addLane}
          onRefused={refuse}
        />
        {children}
      </div>
      <SquadList squads={squads} onUse={use} onRefused={refuse} />
      <KeepSquad squads={squads} lanes={keepable(table)} onRefused={refuse} />
      <p className={styles.quiet}>
        How many fit in a circle is an estimate: swimmers of one pace, nobody passing, the lead back after two lengths
        when the last has left. You know better how wide the lane is and who can swim close; the pool’s own rules come
        first.
      </p>
    </SidePanel>
  );
}

interface Deeds {
  readonly deed: Deed | null;
  say(deed: Deed): void;
  refuse(why: string): void;
  /** Puts another text in place of this one, which can be taken back until it is changed again. */
  write(next: string, said: string): void;
}

function useDeeds(text: string, textNow: () => string, onText: (text: string) => void): Deeds {
  const [last, setLast] = useState<{ readonly deed: Deed; readonly after: string | null } | null>(null);
  const say = useCallback((deed: Deed) => setLast({ deed, after: null }), []);
  const refuse = useCallback((said: string) => say({ said, isRefusal: true, undo: null }), [say]);
  const isOld = last !== null && last.after !== null && last.after !== text;
  return {
    deed: isOld ? null : (last?.deed ?? null),
    say,
    refuse,
    write(next, said) {
      const before = textNow();
      const undo = (): void => {
        setLast(null);
        // What was typed meanwhile stays: undo in the text goes as far.
        if (textNow() === next) onText(before);
      };
      setLast({ deed: { said, isRefusal: false, undo: next === before ? null : undo }, after: next });
      onText(next);
    },
  };
}

/** The lanes as a squad keeps them. */
function keepable({ rows }: Table): readonly string[] | { readonly why: string } {
  const faulty = rows.find(({ written }) => written === null);
  if (faulty) return { why: `The line of lane ${faulty.number} has a fault: mend it first.` };
  if (rows.every(({ from }) => from.at === 'nowhere')) return { why: 'There are no lanes yet: write them first.' };
  return rows.map(({ written }) => laneText(written!));
}

function usedText(name: string, { rows }: Table, lanes: readonly WrittenLane[]): string {
  const gone = rows.filter(({ number, from }) => from.at === 'text' && !lanes.some((lane) => lane.number === number));
  const out = gone.map(({ number }) => number);
  const said = `${name} swims this session.`;
  return out.length === 0 ? said : `${said} ${capital(lanesNamed(out))} ${out.length === 1 ? 'is' : 'are'} out of it.`;
}

function added(number: number): string {
  return `Lane ${number} is new. Each list with a value for each lane offers one more, beside it.`;
}
