/*
 * A session as text. The words that cause a fault are underlined, and what is wrong stands beside the line in a few
 * words, as do warnings; in full it stands in the list beside the text, where a line that is tapped puts the cursor
 * there. Lines that may no longer be changed are dimmed. Numbers and marks are drawn for the lines in sight alone.
 */

import { useLayoutEffect, useMemo, useRef, useState, type ReactElement, type RefObject } from 'react';
import type { Fault } from '../../../app/core/result.ts';
import { Button } from '../../ui/parts/button.tsx';
import { characterAt, faultMarks, FAULTS_SHOWN } from './fault-place.ts';
import type { WarningGroup } from '../timetable/warning-groups.ts';
import styles from './session-editor.module.css';

/** As in the style sheet: the height of a line and what stands above the first, in px. */
const LINE = 26;
const ABOVE = 12;

/** Lines drawn above and below those in sight, for a scroll that is under way. */
const SPARE = 20;

interface SessionEditorProps {
  readonly label: string;
  readonly text: string;
  readonly faults: readonly Fault[];
  readonly warnings?: readonly WarningGroup[];
  /** The id of the element that says what the faults are. */
  readonly faultsId: string;
  /** The first lines, that are there to be read only. */
  readonly locked?: number;
  /** The text area, for `putCursor`. */
  readonly area: RefObject<HTMLTextAreaElement | null>;
  readonly placeholder?: string;
  onChange(text: string): void;
}

export function SessionEditor(props: SessionEditorProps): ReactElement {
  const { label, text, faults, warnings, faultsId, locked = 0, area, placeholder, onChange } = props;
  const layer = useRef<HTMLDivElement>(null);
  const [inSight, setInSight] = useState({ from: 0, to: 80 });
  const [cursor, setCursor] = useState(0);
  const lines = useMemo(() => text.split('\n'), [text]);
  const follow = ({ scrollTop, scrollLeft, clientHeight }: HTMLTextAreaElement): void => {
    layer.current?.style.setProperty('--scrolled-down', `${-scrollTop}px`);
    layer.current?.style.setProperty('--scrolled-across', `${-scrollLeft}px`);
    const first = Math.floor((scrollTop - ABOVE) / LINE);
    const last = first + Math.ceil(clientHeight / LINE);
    const isDrawn = Math.max(0, first - SPARE / 2) >= inSight.from && last + SPARE / 2 <= inSight.to;
    if (!isDrawn) setInSight({ from: Math.max(0, first - SPARE), to: last + SPARE });
  };
  const first = useRef(locked);
  useLayoutEffect(() => {
    // What may be changed is what it is opened for; a line or two of what may not are left in sight.
    if (first.current > 0) area.current?.scrollTo({ top: Math.max(0, (first.current - 3) * LINE) });
  }, [area]);
  useLayoutEffect(() => {
    // A text that got shorter has been scrolled back by the browser.
    if (area.current) follow(area.current);
  });
  return (
    <div className={styles.whole} ref={layer}>
      <div className={styles.numbers} aria-hidden="true">
        <div className={styles.down}>
          <LineNumbers {...inSight} count={lines.length} />
          <NumbersOf lines={faults.map(({ line }) => line)} {...inSight} look={styles.isFaulty} />
        </div>
      </div>
      <div className={styles.paper}>
        <div className={styles.marks} aria-hidden="true">
          <div className={styles.downAcross}>
            <Underlines lines={lines} faults={faults} {...inSight} />
          </div>
        </div>
        <textarea
          ref={area}
          aria-label={label}
          aria-invalid={faults.length > 0}
          aria-describedby={faults.length > 0 ? faultsId : undefined}
          value={text}
          placeholder={placeholder}
          spellCheck={false}
          autoCapitalize="off"
          autoCorrect="off"
          wrap="off"
          onChange={(event) => onChange(event.target.value)}
          onScroll={(event) => follow(event.currentTarget)}
          onSelect={({ currentTarget: own }) => setCursor(lineAt(own.value, own.selectionStart))}
        />
        <div className={styles.marks} aria-hidden="true">
          <div className={styles.down}>
            <Notes lines={lines} faults={faults} warnings={warnings ?? []} cursor={cursor} {...inSight} />
          </div>
        </div>
        {locked > 0 ? (
          <div className={styles.lock} aria-hidden="true">
            <div className={styles.down} style={{ height: ABOVE + locked * LINE }} />
          </div>
        ) : null}
      </div>
    </div>
  );
}

interface InSight {
  /** Lines from 0; `to` is not in sight. */
  readonly from: number;
  readonly to: number;
}

/** One text for all that are in sight: a file may have as many lines as it has letters. */
function LineNumbers({ from, to, count }: InSight & { readonly count: number }): ReactElement {
  const numbers: number[] = [];
  for (let line = from + 1; line <= Math.min(to, count); line++) numbers.push(line);
  return <pre style={{ top: topOf(from) }}>{numbers.join('\n')}</pre>;
}

interface NumbersOfProps extends InSight {
  /** From 1. */
  readonly lines: readonly number[];
  readonly look: string | undefined;
}

function NumbersOf({ lines, from, to, look }: NumbersOfProps): ReactElement[] {
  const own = [...new Set(lines)].filter((line) => line > from && line <= to);
  return own.map((line) => (
    <span key={line} className={look} style={{ top: topOf(line - 1) }}>
      {line}
    </span>
  ));
}

interface UnderlinesProps extends InSight {
  readonly lines: readonly string[];
  readonly faults: readonly Fault[];
}

/** Behind the text. */
function Underlines({ lines, faults, from, to }: UnderlinesProps): ReactElement[] {
  const near = faults.filter(({ line }) => line > from && line <= to);
  return faultMarks(lines, near).map(({ row, before, words }, index) => (
    <span key={index} className={styles.mark} style={{ top: topOf(row) }}>
      {before}
      <u>{words}</u>
    </span>
  ));
}

interface NotesProps extends UnderlinesProps {
  readonly warnings: readonly WarningGroup[];
  /** The line that is written in: its note covers nothing of it. */
  readonly cursor: number;
}

/** What is to be said of a line: behind its end; a warning, whose line can be read as it is, over the end of a long one. */
function Notes({ lines, faults, warnings, cursor, from, to }: NotesProps): ReactElement[] {
  const near = faults.filter(({ line }) => line > from && line <= to);
  return notesOf(near, warnings, from, to).map(({ line, kind, words }) => (
    <span
      key={line}
      className={`${styles.mark} ${styles.isNote} ${line === cursor ? styles.isWritten : ''}`}
      data-kind={kind}
      style={{ top: topOf(line - 1) }}
    >
      <span>{lines[line - 1] ?? ''}</span>
      <em>{words}</em>
    </span>
  ));
}

interface Note {
  readonly line: number;
  readonly kind: 'fault' | 'warning';
  readonly words: string;
}

/** One a line: its fault, or its warnings. */
function notesOf(faults: readonly Fault[], warnings: readonly WarningGroup[], from: number, to: number): Note[] {
  const notes = new Map<number, Note>();
  for (const { line, short } of warnings) {
    if (line <= from || line > to) continue;
    const known = notes.get(line);
    notes.set(line, { line, kind: 'warning', words: known ? `${known.words}; ${short}` : short });
  }
  for (const { line, message } of faults) notes.set(line, { line, kind: 'fault', words: message });
  return [...notes.values()];
}

/** The line, from 1, of a place in a text. */
function lineAt(text: string, place: number): number {
  return text.slice(0, place).split('\n').length;
}

function topOf(row: number): number {
  return ABOVE + row * LINE;
}

interface FaultListProps {
  readonly id: string;
  readonly faults: readonly Fault[];
  onGoTo(line: number, column: number): void;
}

export function FaultList({ id, faults, onGoTo }: FaultListProps): ReactElement {
  const more = faults.length - FAULTS_SHOWN;
  return (
    <section className="faults" aria-label="Faults">
      <h2>{faults.length === 1 ? 'One line cannot be read' : `${faults.length} faults`}</h2>
      <ul id={id}>
        {faults.slice(0, FAULTS_SHOWN).map(({ line, column, message }, index) => (
          <li key={index}>
            <Button onPress={() => onGoTo(line, column)}>line {line}</Button>
            {message}
          </li>
        ))}
      </ul>
      {more > 0 ? <p>And {more} more.</p> : null}
    </section>
  );
}

/** Puts the cursor at a line and column (both from 1; a tab counts as 4 columns) of a text area, if it is there. */
export function putCursor(area: HTMLTextAreaElement | null, line: number, column: number): void {
  if (!area) return;
  const lines = area.value.split('\n');
  const before = lines.slice(0, line - 1).reduce((length, each) => length + each.length + 1, 0);
  const at = before + characterAt(lines[line - 1] ?? '', column);
  area.focus();
  area.setSelectionRange(at, before + (lines[line - 1] ?? '').length);
  area.scrollTop = Math.max(0, (line - 4) * LINE);
}
