/*
 * The button of the coach's screens, built on React Aria's. If its action is not possible it can still be pressed and
 * then says why. A tap takes no keyboard focus, so that Space stays Stop. A button that ends something is held for
 * 0.6 s, also by a key; assistive technology, which cannot hold, just presses it. React Aria's `useLongPress` is for mouse
 * and touch alone, so the holding is ours. With `pressed` the button is a toggle, with `expanded` it opens something.
 */

import {
  memo,
  useEffect,
  useId,
  useLayoutEffect,
  useRef,
  useState,
  type ComponentProps,
  type ReactElement,
  type ReactNode,
} from 'react';
import { Button as AriaButton } from 'react-aria-components/Button';
import styles from './button.module.css';

/** How long a button that ends something is held, in ms. */
export const HOLD_TIME = 600;

interface Press {
  /** Checked at the press, because `why` may be a second old. Without it `why` decides. */
  readonly judge?: (() => string | null) | undefined;
  /** Why it cannot be done, as last drawn; null or nothing if it can. */
  readonly why?: string | null | undefined;
  readonly held?: boolean | undefined;
  onPress(button: HTMLButtonElement): void;
  /** Called with the reason, also when a press was too short. */
  onRefused?: ((why: string) => void) | undefined;
}

/** How large it is, and what kind of thing it does. */
type Size = 'small' | 'primary';
type Tone = 'deep' | 'stop' | 'start' | 'resume' | 'finish' | 'go' | 'wrong';
export type Look = Size | Tone | `${Size} ${Tone}`;

interface Looks {
  readonly look?: Look | undefined;
  /** A class of the place that it is in. */
  readonly className?: string | undefined;
  /** The key, as `aria-keyshortcuts` wants it. */
  readonly keys?: string | undefined;
  readonly pressed?: boolean | undefined;
  /** Whether what it opens is open. */
  readonly expanded?: boolean | undefined;
}

interface Named {
  /** The accessible name. */
  readonly name: string;
  /** The text on it, if that is not the name. */
  readonly label?: ReactNode;
  /** A second, smaller line, no part of the name: the key, what it does, what is left of its time. */
  readonly hint?: ReactNode;
  readonly children?: undefined;
}

/** A row of a list, styled by its place, or words in a text if it has no class. Its text is its name. */
interface Row {
  readonly name?: undefined;
  readonly label?: undefined;
  readonly hint?: undefined;
  readonly children: ReactNode;
}

export type NamedButtonProps = Named & Looks & Press;
export type ButtonProps = (Named | Row) & Looks & Press;

type DrawnButtonProps = (Named | Row) & Looks & Pick<Press, 'why' | 'held'> & { readonly deeds: Deeds };

export function Button({ judge, onPress, onRefused, ...drawn }: ButtonProps): ReactElement {
  return <DrawnButton {...drawn} deeds={useDeeds({ judge, why: drawn.why, onPress, onRefused })} />;
}

/** Drawn anew only where it looks different: a page has a hundred of them, and none may hold up a key in its editor. */
const DrawnButton = memo(function DrawnButton(props: DrawnButtonProps): ReactElement {
  const { name, label, hint, children, why, look, className, keys, held, pressed, expanded } = props;
  const id = useId();
  const { holding, own, aria } = usePress(props);
  return (
    <AriaButton
      {...aria}
      className={`${name !== undefined ? styles.button : className === undefined ? styles.text : ''} ${className ?? ''}`}
      {...(name === undefined ? {} : { 'aria-label': name })}
      {...(hint === undefined ? {} : { 'aria-describedby': id })}
      render={(dom) => (
        <button
          {...withOwn(dom, own)}
          data-button={name === undefined ? undefined : ''}
          data-look={look}
          data-held={holding ? '' : undefined}
          aria-disabled={why ? true : undefined}
          aria-pressed={pressed}
          aria-expanded={expanded}
          aria-keyshortcuts={keys}
          title={why ?? undefined}
        />
      )}
    >
      {held ? <span className={styles.bar} aria-hidden="true" /> : null}
      {children ?? (
        <span className={styles.label} data-label>
          {label ?? name}
        </span>
      )}
      {hint === undefined ? null : (
        <span className={styles.hint} data-hint id={id}>
          {hint}
        </span>
      )}
    </AriaButton>
  );
});

type AriaProps = Pick<ComponentProps<typeof AriaButton>, 'ref' | 'onPressStart' | 'onPressEnd' | 'onClick' | 'onBlur'>;
type DomProps = ComponentProps<'button'>;
type OwnProps = Pick<DomProps, 'onPointerUp' | 'onContextMenu'>;

interface Pressing {
  readonly holding: boolean;
  readonly aria: AriaProps;
  readonly own: OwnProps;
}

/** What a press does, by what the button was last given; the object stays the same. */
interface Deeds {
  refusal(): string | null;
  press(button: HTMLButtonElement): void;
  refused(why: string): void;
}

function useDeeds(press: Press): Deeds {
  const latest = useRef(press);
  useLayoutEffect(() => {
    latest.current = press;
  });
  const [deeds] = useState<Deeds>(() => ({
    refusal() {
      const { judge, why } = latest.current;
      return judge ? judge() : (why ?? null);
    },
    press: (button) => latest.current.onPress(button),
    refused: (why) => latest.current.onRefused?.(why),
  }));
  return deeds;
}

function usePress({ name, held, deeds }: DrawnButtonProps): Pressing {
  const button = useRef<HTMLButtonElement>(null);
  const [holding, setHolding] = useState(false);
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  // Enter acts when it goes down, as on any button. React Aria clicks once more when it comes up.
  const entered = useRef(false);
  useEffect(() => () => stop(timer.current), []);

  const done = (): void => {
    const refusal = deeds.refusal();
    if (refusal !== null) deeds.refused(refusal);
    else if (button.current) deeds.press(button.current);
  };
  const begin = (): void => {
    const refusal = deeds.refusal();
    if (refusal !== null) return deeds.refused(refusal);
    setHolding(true);
    stop(timer.current);
    timer.current = setTimeout(() => {
      timer.current = null;
      setHolding(false);
      if (button.current) deeds.press(button.current);
    }, HOLD_TIME);
  };
  const end = (): void => {
    setHolding(false);
    if (timer.current === null) return;
    stop(timer.current);
    timer.current = null;
    deeds.refused(`Hold ${name} for 0.6 s.`);
  };
  if (held) {
    return {
      holding,
      aria: {
        ref: button,
        // Assistive technology cannot hold.
        onPressStart: ({ pointerType }) => (pointerType === 'virtual' ? done() : begin()),
        onPressEnd: end,
        onBlur: end,
      },
      // By touch React Aria may end the press later than the finger lifts, or not at all.
      own: { onPointerUp: end, onContextMenu: (event) => event.preventDefault() },
    };
  }
  return {
    holding,
    aria: {
      ref: button,
      onPressStart: ({ pointerType, key }) => {
        entered.current = pointerType === 'keyboard' && key === 'Enter';
        if (entered.current) done();
      },
      onClick: ({ detail }) => {
        if (!entered.current && !isSecondTap(name ?? '', detail)) done();
        entered.current = false;
      },
    },
    own: {},
  };
}

/** Adds what React Aria takes no props for, and keeps a press from taking the focus. */
function withOwn(dom: DomProps, { onPointerUp, onContextMenu }: OwnProps): DomProps {
  return {
    ...dom,
    onMouseDown(event) {
      event.preventDefault();
      dom.onMouseDown?.(event);
    },
    onPointerUp(event) {
      onPointerUp?.(event);
      dom.onPointerUp?.(event);
    },
    onContextMenu,
  };
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

function stop(timer: ReturnType<typeof setTimeout> | null): void {
  if (timer !== null) clearTimeout(timer);
}
