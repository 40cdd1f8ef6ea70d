/*
 * A session as text. The words that cause a fault are underlined, and what is wrong stands below the line in a few
 * words, as do warnings; in full it stands in the list beside the text, where a line that is tapped puts the cursor
 * there. Lines that may no longer be changed are dimmed.
 */

import { useEffect, useImperativeHandle, useLayoutEffect, useRef, type ReactElement, type RefObject } from 'react';
import type { Fault } from '../../../app/core/result.ts';
import type { LineMeaning } from '../timetable/line-meaning.ts';
import type { WarningGroup } from '../timetable/warning-groups.ts';
import { cursorInSight, hasCursorInSight } from './cursor-in-sight.ts';
import { TAB_SAID } from './indenting.ts';
import { completing, NOTHING_KNOWN, type KnownBefore } from './completion/completing.ts';
import { lineMarks, markLines, unfinishedLine } from './lines/line-marks.ts';
import { lockedLines, lockLines } from './lines/locked-lines.ts';
import { notation } from './notation.ts';
import { setMeaning } from './meaning/set-meaning.ts';
import {
  createTextView,
  describe,
  hasText,
  hideText,
  putText,
  showFrom,
  showHidden,
  type HiddenText,
  type KeptText,
  type TextView,
} from './text-view.ts';
import styles from './session-editor.module.css';

interface SessionEditorProps {
  readonly label: string;
  readonly text: string;
  /** Another number is a text that was put there, and not typed; where it is left out, every text is that is not in the editor. */
  readonly puts?: number;
  /** Another number is another text: the one before is a step of undo. */
  readonly sheet?: number;
  /** The text with what was typed and is not drawn yet, and which one it is; where it is left out, nothing is drawn later. */
  now?(): { readonly text: string; readonly sheet: number };
  /** What the text was put there as a part of, where it was not typed here: the same again is one step of undo. */
  readonly part?: string | null;
  /** Keeps what can be undone while the editor is not there. */
  readonly undos?: RefObject<KeptText | null>;
  readonly faults: readonly Fault[];
  readonly warnings?: readonly WarningGroup[];
  /** The text that they are of. */
  readonly read: string | null;
  /** The id of the element that says what the faults are. */
  readonly faultsId: string;
  /** The first lines, that are there to be read only. */
  readonly locked?: number;
  /** The editor, for `putCursor`. */
  readonly area: RefObject<TextView | null>;
  readonly placeholder?: string;
  /** What a line means; there is nothing to ask where it is left out. */
  explain?(line: number): Promise<LineMeaning | null>;
  /** The coach has asked where there is nothing to explain. */
  onNothing?(): void;
  /** What was written before, to be offered again. */
  readonly known?: KnownBefore;
  /** Whether what the coach does may make this of the text; anything may where it is left out. */
  accepts?(text: string): boolean;
  /** Whether what the coach does begins another text: its `sheet`; null for no. */
  begins?(before: string, after: string): number | null;
  /** The line that is being written has a fault, which waits until it is left; null: it waits no more. */
  onUnfinished?(line: number | null): void;
  onChange(text: string, sheet: number): void;
}

const NO_WARNINGS: readonly WarningGroup[] = [];

export function SessionEditor(props: SessionEditorProps): ReactElement {
  const {
    label,
    text,
    puts,
    sheet = 0,
    part = null,
    undos,
    faults,
    warnings = NO_WARNINGS,
    read,
    faultsId,
    locked = 0,
    area,
    placeholder,
  } = props;
  const place = useRef<HTMLDivElement>(null);
  const own = useRef<TextView>(null);
  // The editor stays while what it calls is new with every render.
  const latest = useRef(props);
  const first = useRef({ text, sheet, locked, placeholder, explains: props.explain !== undefined });
  const hidden = useRef<HiddenText>(null);
  useLayoutEffect(() => {
    latest.current = props;
  });

  useLayoutEffect(() => {
    const { explains, ...given } = first.current;
    let told: number | null = null;
    const view = createTextView({
      ...given,
      kept: hidden.current?.state ?? undos?.current ?? null,
      parent: place.current!,
      extensions: [
        notation,
        lineMarks,
        lockedLines,
        cursorInSight,
        completing(() => latest.current.known?.() ?? NOTHING_KNOWN),
        explains
          ? setMeaning(
              (line) => latest.current.explain?.(line) ?? Promise.resolve(null),
              () => latest.current.onNothing?.(),
            )
          : [],
      ],
      accepts: (next) => latest.current.accepts?.(next) ?? true,
      begins: (before, after) => latest.current.begins?.(before, after) ?? null,
      onChange: (next, on) => latest.current.onChange(next, on),
      onUpdate(state) {
        const unfinished = unfinishedLine(state);
        if (unfinished !== told) latest.current.onUnfinished?.(unfinished);
        told = unfinished;
      },
    });
    own.current = view;
    if (hidden.current) showHidden(view, hidden.current);
    return () => {
      // The page may only be hidden, and shown again.
      hidden.current = hideText(view);
      if (undos) undos.current = view.state;
      view.destroy();
    };
  }, [undos]);
  useImperativeHandle(area, () => own.current!);
  const given = puts ?? text;
  useLayoutEffect(() => {
    // A letter may have been typed since what is drawn here was asked for: it stays.
    const put = latest.current.now?.() ?? { text: latest.current.text, sheet };
    if (own.current) putText(own.current, put.text, put.sheet, part);
  }, [given, sheet, part]);
  useLayoutEffect(() => own.current?.dispatch({ effects: lockLines.of(locked) }), [locked]);
  useLayoutEffect(() => {
    // Of another text the marks that are there go along with their lines until it has been read.
    if (own.current && read !== null && hasText(own.current, read))
      own.current.dispatch({
        effects: markLines.of({ faults, warnings }),
        scrollIntoView: hasCursorInSight(own.current),
      });
  }, [faults, warnings, read, text, puts]);
  const isFaulty = faults.length > 0;
  useLayoutEffect(() => {
    const said = isFaulty ? { 'aria-describedby': faultsId } : {};
    const attributes = {
      'aria-label': label,
      'aria-description': TAB_SAID,
      'aria-invalid': `${isFaulty}`,
      spellcheck: 'false',
      ...said,
    };
    if (own.current) describe(own.current, { ...attributes, tabindex: '0', autocapitalize: 'off', autocorrect: 'off' });
  }, [label, isFaulty, faultsId]);
  useEffect(() => {
    // What may be changed is what it is opened for; a line or two of what may not are left in sight.
    if (own.current && first.current.locked > 0) showFrom(own.current, first.current.locked - 2);
  }, []);
  return <div className={styles.whole} ref={place} />;
}
