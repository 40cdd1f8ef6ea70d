/*
 * A session as text. The words that cause a fault are underlined, and the numbers of their lines stand
 * out; what is wrong with them stands in the list beside, where a fault that is tapped puts the cursor at
 * its words.
 */

import { useMemo, useRef, type ReactElement, type RefObject } from 'react';
import type { Fault } from '../../app/core/result.ts';
import { characterAt, faultMarks, FAULTS_SHOWN, type FaultMark } from './fault-place.ts';

/** As in the style sheet: the height of a line and what stands above the first, in px. */
const LINE = 26;
const ABOVE = 12;

interface SessionEditorProps {
  readonly label: string;
  readonly text: string;
  readonly faults: readonly Fault[];
  /** The id of the element that says what the faults are. */
  readonly faultsId: string;
  /** The number of the first line. */
  readonly firstLine: number;
  /** The text area, for `putCursor`. */
  readonly area: RefObject<HTMLTextAreaElement | null>;
  readonly placeholder?: string;
  onChange(text: string): void;
}

export function SessionEditor(props: SessionEditorProps): ReactElement {
  const { label, text, faults, faultsId, firstLine, area, placeholder, onChange } = props;
  const numbers = useRef<HTMLDivElement>(null);
  const words = useRef<HTMLDivElement>(null);
  const marks = useMemo(() => faultMarks(text, faults, firstLine), [text, faults, firstLine]);
  const follow = ({ scrollTop, scrollLeft }: HTMLTextAreaElement): void => {
    if (numbers.current) numbers.current.style.transform = `translateY(${-scrollTop}px)`;
    if (words.current) words.current.style.transform = `translate(${-scrollLeft}px, ${-scrollTop}px)`;
  };
  return (
    <div className="editor">
      <div className="editor-numbers" aria-hidden="true">
        <div ref={numbers}>
          <LineNumbers from={firstLine} count={text.split('\n').length} />
          {Array.from(new Set(marks.map(({ row }) => row)), (row) => (
            <span key={row} className="is-faulty" style={{ top: topOf(row) }}>
              {firstLine + row}
            </span>
          ))}
        </div>
      </div>
      <div className="editor-paper">
        <div className="editor-marks" aria-hidden="true">
          <div ref={words}>
            {marks.map((mark, index) => (
              <MarkedWords key={index} {...mark} />
            ))}
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
        />
      </div>
    </div>
  );
}

/** One text for all of them: a file may have as many lines as it has letters. */
function LineNumbers({ from, count }: { readonly from: number; readonly count: number }): ReactElement {
  const text = useMemo(() => Array.from({ length: count }, (_, index) => from + index).join('\n'), [from, count]);
  return <pre>{text}</pre>;
}

/** The line up to the words is there for its width alone: it cannot be seen. */
function MarkedWords({ row, before, words }: FaultMark): ReactElement {
  return (
    <span className="editor-mark" style={{ top: topOf(row) }}>
      {before}
      <u>{words}</u>
    </span>
  );
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
            <button type="button" className="text-line" onClick={() => onGoTo(line, column)}>
              line {line}
            </button>
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
