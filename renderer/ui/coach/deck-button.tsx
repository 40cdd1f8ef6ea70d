/*
 * A button of the coach's screens: says why when pressed while it cannot be done, takes no focus from
 * a tap (so that Space stays Stop), and where it ends something wants to be held for 0.6 s.
 */

import {
  useEffect,
  useId,
  useRef,
  useState,
  type KeyboardEvent,
  type MouseEvent,
  type ReactElement,
  type ReactNode,
} from 'react';

/** How long a button that ends something is held, in ms. */
export const HOLD_TIME = 600;

export interface DeckButtonProps {
  /** The accessible name. */
  readonly name: string;
  /** What stands on it, where that is not the name. */
  readonly label?: ReactNode;
  /** A second, smaller line: the key, what it does. */
  readonly hint?: string | undefined;
  /** Why it cannot be done, as it looks; null or nothing where it can. */
  readonly why?: string | null | undefined;
  /** Asked at the press, because what was last drawn may be a second old; without it the look decides. */
  readonly judge?: (() => string | null) | undefined;
  readonly look?: string | undefined;
  /** The key, as `aria-keyshortcuts` wants it. */
  readonly keys?: string | undefined;
  readonly held?: boolean | undefined;
  readonly pressed?: boolean | undefined;
  onPress(): void;
  /** Told why, and that a short press was not enough. */
  onRefused(why: string): void;
}

export function DeckButton(props: DeckButtonProps): ReactElement {
  const { name, label, hint, why, look, keys, held, pressed } = props;
  const id = useId();
  const press = usePress(props);
  return (
    <button
      type="button"
      className={`deck-button ${look ?? ''} ${press.holding ? 'is-held' : ''}`}
      aria-label={name}
      aria-describedby={hint === undefined ? undefined : id}
      aria-disabled={why ? true : undefined}
      aria-keyshortcuts={keys}
      aria-pressed={pressed}
      title={why ?? undefined}
      {...(held ? press.hold : press.tap)}
      onMouseDown={(event) => event.preventDefault()}
    >
      {held ? <span className="hold-bar" aria-hidden="true" /> : null}
      <span className="deck-button-label">{label ?? name}</span>
      {hint === undefined ? null : (
        <span className="deck-button-hint" id={id}>
          {hint}
        </span>
      )}
    </button>
  );
}

/**
 * The button clicked last. Where a press puts another button in its place (Stop gives way to Resume), the
 * second tap of a double tap lands on that one, and is not meant for it.
 */
let clickedBefore = '';

/** clicks: as the browser counts them in one place, 2 for the second of a double tap. */
function isSecondTap(name: string, clicks: number): boolean {
  const before = clickedBefore;
  clickedBefore = name;
  return clicks > 1 && before !== name;
}

interface Press {
  readonly holding: boolean;
  readonly tap: object;
  readonly hold: object;
}

function usePress({ name, why, judge, onPress, onRefused }: DeckButtonProps): Press {
  const [holding, setHolding] = useState(false);
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  // A click that comes with no press before it is one by assistive technology, which cannot hold.
  const handled = useRef(false);
  useEffect(() => () => stop(timer.current), []);

  const whyNow = (): string | null => (judge ? judge() : (why ?? null));
  const clicked = ({ detail }: MouseEvent): void => {
    if (!isSecondTap(name, detail)) done();
  };
  const done = (): void => {
    const refusal = whyNow();
    if (refusal === null) onPress();
    else onRefused(refusal);
  };
  const cancel = (): void => {
    end();
    // No click comes of it.
    handled.current = false;
  };
  const begin = (): void => {
    handled.current = true;
    const refusal = whyNow();
    if (refusal !== null) return onRefused(refusal);
    setHolding(true);
    stop(timer.current);
    timer.current = setTimeout(() => {
      timer.current = null;
      setHolding(false);
      onPress();
    }, HOLD_TIME);
  };
  const end = (): void => {
    setHolding(false);
    if (timer.current === null) return;
    stop(timer.current);
    timer.current = null;
    onRefused(`Hold ${name} for 0.6 s.`);
  };
  const isPressKey = ({ key }: KeyboardEvent): boolean => key === 'Enter' || key === ' ';
  return {
    holding,
    tap: { onClick: clicked },
    hold: {
      // The first button of a mouse, a finger, a pen's tip.
      onPointerDown: (event: PointerEvent) => (event.button === 0 ? begin() : undefined),
      onPointerUp: end,
      onPointerLeave: end,
      onPointerCancel: cancel,
      onBlur: end,
      onContextMenu: (event: Event) => event.preventDefault(),
      onKeyDown: (event: KeyboardEvent) => {
        if (!isPressKey(event)) return;
        event.preventDefault();
        if (!event.repeat) begin();
      },
      onKeyUp: (event: KeyboardEvent) => {
        if (!isPressKey(event)) return;
        end();
        handled.current = false;
      },
      onClick: ({ detail }: MouseEvent) => {
        // Assistive technology clicks without a count.
        if (!handled.current || detail === 0) done();
        handled.current = false;
      },
    },
  };
}

function stop(timer: ReturnType<typeof setTimeout> | null): void {
  if (timer !== null) clearTimeout(timer);
}
