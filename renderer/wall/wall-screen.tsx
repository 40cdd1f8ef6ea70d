/*
 * The wall screen: the board while there is a run, else a sentence saying what is waited for. React
 * makes the structure anew only where lanes, room or typeface change; everything that changes with
 * time is drawn into it on every frame.
 */

import { useEffect, useMemo, useState, type ReactElement } from 'react';
import { useStore } from 'zustand';
import { clockTime } from '../../app/core/words/time/time-of-day.ts';
import type { Link } from '../link/link.ts';
import type { DeckState } from '../link/store.ts';
import { DO_NOT_LEAVE, offText } from '../ui/clock-words.ts';
import { Board } from './board/board.tsx';
import { draw } from './board/drawing.ts';
import { Idle } from './idle/idle.tsx';
import { readWallChoice, type WallChoice } from './screen/wall-choice.ts';
import { ScreenNamed } from './screen/screen-named.tsx';
import { useLooked } from './board/use-looked.ts';
import { layoutFor, type Layout } from './layout.ts';
import { sightOf, type Sight } from './sight/sight.ts';
import { lanesShown, mostSwimmers, roomOf, type Size } from './room.ts';

interface WallProps {
  readonly link: Link;
  /** As in `location.search`: what the address asks for holds against the settings. */
  readonly search: string;
  /** Where the coach's window is, for whoever stands before a screen without a session; null where that needs no address. */
  readonly address: string | null;
  /** Told how far the leaves can be read, again whenever that changes; null while there are none. The same function each time. */
  readonly onSight?: (sight: Sight | null) => void;
}

export function WallScreen({ link, search, address, onSight }: WallProps): ReactElement {
  const { width, height } = useSize();
  const settings = useStore(link.store, ({ screen }) => screen?.settings);
  const choice = useMemo(() => readWallChoice(search, settings), [search, settings]);
  useLight(choice);
  const isSet = useTypeface();
  const run = useStore(link.store, (state) => state.run);
  const isFaulty = useStore(link.store, ({ faults }) => faults.length > 0);
  const waitsFor = useStore(link.store, (state) => messageFor(state, address));
  const { hours, overAt } = useLooked(link, choice);
  const isOver = run !== null && overAt !== null;
  const shown = isOver ? '' : lanesShown(run, choice).join(' ');
  const lanes = useMemo(() => (shown === '' ? [] : shown.split(' ').map(Number)), [shown]);
  const swimmers = mostSwimmers(run, lanes);
  // Snapshots come often: only what changes the room makes a new layout.
  const room = useMemo(
    () => roomOf({ width, height }, lanes.length, swimmers, choice, hours),
    [choice, width, height, lanes, swimmers, hours],
  );
  const layout = useMemo(() => layoutFor(room, choice.face), [room, choice]);
  useEffect(() => onSight?.(sightOf(room, choice, lanes)), [onSight, room, choice, lanes]);
  // A new layout or typeface is a new board with a new painter.
  const [boards, countBoard] = useState({ n: 0, of: layout });
  if (boards.of !== layout) countBoard({ n: boards.n + 1, of: layout });
  const key = [boards.n, shown, isSet, run?.id].join('/');
  const text = isOver ? `Session done\nat ${clockTime(run.openedAtTimeOfDay + overAt)}` : waitsFor;
  const board =
    !run || isOver ? (
      <Idle key={key} link={link} layout={layout} choice={choice} text={text} />
    ) : (
      <RunBoard key={key} link={link} choice={choice} layout={layout} lanes={lanes} />
    );
  return (
    <>
      <ScreenNamed link={link} layout={layout} />
      {!run && isFaulty ? <Message layout={layout} text={waitsFor} /> : board}
    </>
  );
}

/** The colours of the whole page, margins included. */
function useLight({ light }: WallChoice): void {
  useEffect(() => {
    const { dataset } = document.documentElement;
    dataset['light'] = light;
    return () => void delete dataset['light'];
  }, [light]);
}

interface RunBoardProps {
  readonly link: Link;
  readonly choice: WallChoice;
  readonly layout: Layout;
  readonly lanes: readonly number[];
}

function RunBoard({ link, choice, layout, lanes }: RunBoardProps): ReactElement {
  const [board, setBoard] = useState<HTMLElement | null>(null);
  const [instead, setInstead] = useState<string | null>(null);
  useEffect(() => {
    if (!board) return;
    return draw(board, link, choice, layout, setInstead);
  }, [board, link, choice, layout]);
  return (
    <>
      <Board layout={layout} lanes={lanes} from={choice.pushOff} boardRef={setBoard} />
      {instead === null ? null : <Message layout={layout} text={instead} />}
    </>
  );
}

/** In px: a sentence on a screen as small as a phone's. */
const LEAST = 24;

function Message({ layout, text }: { readonly layout: Layout; readonly text: string }): ReactElement {
  const [title, ...lines] = text.split('\n');
  const style = {
    padding: `${layout.insetY}px ${layout.insetX}px`,
    fontSize: Math.max(LEAST, Math.min(layout.width * 0.035, layout.height * 0.06)),
  };
  return (
    <main className="message" style={style}>
      <h1>{title}</h1>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </main>
  );
}

function messageFor({ status, faults, clockQuality }: DeckState, address: string | null): string {
  if (faults.length > 0) return faults.join('\n');
  if (clockQuality?.quality === 'poor') return `${DO_NOT_LEAVE}\n${offText(clockQuality)}`;
  const waits = waitsFor(status, address);
  return clockQuality?.quality === 'fair' ? `${waits}\nClock: fair` : waits;
}

function waitsFor(status: DeckState['status'], address: string | null): string {
  if (address === null) {
    return status === 'live' ? "Waiting for a session\nOpen one in the coach's window." : 'Looking for the program';
  }
  if (status === 'live') return `Waiting for a session\nThe coach's window is at ${address}/`;
  return `Looking for the program\nat ${address}/`;
}

function useSize(): Size {
  const [size, setSize] = useState(sizeNow);
  useEffect(() => {
    const measure = (): void => {
      const now = sizeNow();
      setSize((before) => (before.width === now.width && before.height === now.height ? before : now));
    };
    window.addEventListener('resize', measure);
    // It may have been resized between the first drawing and now.
    measure();
    return () => window.removeEventListener('resize', measure);
  }, []);
  return size;
}

export function sizeNow(): Size {
  return { width: window.innerWidth, height: window.innerHeight };
}

/** Whether the typeface is there: before that, widths cannot be measured. */
function useTypeface(): boolean {
  const [isSet, setIsSet] = useState(false);
  useEffect(() => {
    let wanted = true;
    const weights = ['500', '600', '700'].map((weight) => document.fonts.load(`${weight} 20px 'Barlow Condensed'`));
    const settle = (): void => {
      if (wanted) setIsSet(true);
    };
    Promise.all(weights).then(settle, settle);
    return () => {
      wanted = false;
    };
  }, []);
  return isSet;
}
