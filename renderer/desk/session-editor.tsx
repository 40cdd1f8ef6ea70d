/*
 * A session as text, with its faults by line beside it: the line numbers of faulty lines stand out, and
 * a fault that is tapped puts the cursor where it is.
 */

import { useRef, type ReactElement, type RefObject } from 'react';
import type { Fault } from '../../app/core/result.ts';

interface SessionEditorProps {
  readonly label: string;
  readonly text: string;
  readonly faults: readonly Fault[];
  /** The number of the first line. */
  readonly firstLine: number;
  /** The text area, for `putCursor`. */
  readonly area: RefObject<HTMLTextAreaElement | null>;
  readonly placeholder?: string;
  onChange(text: string): void;
}

export function SessionEditor({
  label,
  text,
  faults,
  firstLine,
  area,
  placeholder,
  onChange,
}: SessionEditorProps): ReactElement {
  const numbers = useRef<HTMLDivElement>(null);
  const faulty = new Set(faults.map(({ line }) => line));
  const lines = text.split('\n').length;
  return (
    <div className="editor">
      <div className="editor-numbers" ref={numbers} aria-hidden="true">
        {Array.from({ length: lines }, (_, index) => (
          <span key={index} className={faulty.has(firstLine + index) ? 'is-faulty' : undefined}>
            {firstLine + index}
          </span>
        ))}
      </div>
      <textarea
        ref={area}
        aria-label={label}
        aria-invalid={faults.length > 0}
        value={text}
        placeholder={placeholder}
        spellCheck={false}
        autoCapitalize="off"
        autoCorrect="off"
        wrap="off"
        onChange={(event) => onChange(event.target.value)}
        onScroll={(event) => {
          if (numbers.current) numbers.current.scrollTop = event.currentTarget.scrollTop;
        }}
      />
    </div>
  );
}

interface FaultListProps {
  readonly faults: readonly Fault[];
  onGoTo(line: number, column: number): void;
}

export function FaultList({ faults, onGoTo }: FaultListProps): ReactElement {
  return (
    <section className="faults" aria-label="Faults">
      <h2>{faults.length === 1 ? 'One line cannot be read' : `${faults.length} faults`}</h2>
      <ul>
        {faults.map(({ line, column, message }) => (
          <li key={`${line} ${column} ${message}`}>
            <button type="button" className="text-line" onClick={() => onGoTo(line, column)}>
              line {line}
            </button>
            {message}
          </li>
        ))}
      </ul>
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
  area.scrollTop = Math.max(0, (line - 4) * (area.scrollHeight / Math.max(1, lines.length)));
}

function characterAt(line: string, column: number): number {
  let at = 1;
  for (let index = 0; index < line.length; index++) {
    if (at >= column) return index;
    at += line.charAt(index) === '\t' ? 4 : 1;
  }
  return line.length;
}
