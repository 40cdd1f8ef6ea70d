/*
 * Who has the keyboard in the coach's window. Keys are commands there, and Space is Stop: a control used by mouse or
 * touch gives the focus back to the page at once or at the next key. A control reached by Tab keeps it while it is used
 * by keys, and so does a text field, however it was reached. Escape gives it back.
 */

/** Types of an input that is not typed into. */
const UNTYPED = /^(button|checkbox|color|file|image|radio|range|reset|submit)$/;

/** Whether keys type text into it. */
export function takesText(element: Element | null): boolean {
  if (!element) return false;
  if (element.tagName === 'INPUT') return !UNTYPED.test((element as HTMLInputElement).type);
  return element.tagName === 'TEXTAREA' || (element as HTMLElement).isContentEditable;
}

/** Whether it is operated by keys: a select, a slider, a checkbox, a button or a link. */
export function takesKeys(element: Element | null): element is HTMLElement {
  return element !== null && !takesText(element) && element.matches('button, a[href], summary, select, input');
}

/** Keeps a page to that rule. Returns the function that ends this. */
export function freeKeyboard(page: Document): () => void {
  // True from a press to its click: a control that gets the focus meanwhile gets it by that tap.
  let byPointer = false;
  // The control that had the focus at the last tap, or got it by that tap.
  let held: Element | null = null;

  const giveBack = (): void => {
    const { activeElement } = page;
    if (activeElement === held && takesKeys(activeElement)) activeElement.blur();
    held = null;
  };
  /** After a tap anywhere, a control reached by Tab before is no longer used by keys. */
  const onPointerDown = (): void => {
    byPointer = true;
    held = page.activeElement;
  };
  const onFocus = ({ target }: Event): void => {
    held = byPointer && target instanceof Element ? target : null;
  };
  /** A select keeps the focus while its list is open: until something is chosen, or the next key. */
  const onUsed = (): void => {
    setTimeout(() => (held?.tagName === 'SELECT' ? undefined : giveBack()));
  };
  /** By touch a control gets the focus after the finger lifts, and before the click. */
  const onClick = (): void => {
    byPointer = false;
    onUsed();
  };
  const onChosen = (): void => {
    setTimeout(giveBack);
  };
  const onKey = (event: KeyboardEvent): void => {
    byPointer = false;
    if (/^(Shift|Control|Alt|Meta)$/.test(event.key) || isOpen(page.activeElement)) return;
    if (event.key === 'Tab') held = null;
    else if (event.key === 'Escape' && !event.isComposing) givesBackAt(page.activeElement);
    else giveBack();
  };

  const listeners: readonly (readonly [string, (event: never) => void])[] = [
    ['pointerdown', onPointerDown],
    ['focusin', onFocus],
    ['pointerup', onUsed],
    ['pointercancel', onClick],
    ['click', onClick],
    ['change', onChosen],
    ['keydown', onKey],
  ];
  for (const [name, listener] of listeners) page.addEventListener(name, listener as EventListener, true);
  return () => {
    for (const [name, listener] of listeners) page.removeEventListener(name, listener as EventListener, true);
  };
}

/** Takes the focus from a text field or a control; the page itself has none to give back. */
function givesBackAt(element: Element | null): void {
  if (takesText(element) || takesKeys(element)) (element as HTMLElement).blur();
}

/**
 * Whether a select shows its list, or a text one of what could come next: the key is for that. In a browser that cannot
 * tell, a select counts as closed, so that Space is Stop.
 */
function isOpen(element: Element | null): boolean {
  if (element?.getAttribute('aria-haspopup') === 'listbox') return true;
  if (element?.tagName !== 'SELECT') return false;
  try {
    return element.matches(':open');
  } catch {
    return false;
  }
}
