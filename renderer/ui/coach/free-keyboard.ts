/*
 * Who has the keyboard in the coach's window. Keys are commands there (Space is Stop), so what was used by
 * mouse or touch keeps no keyboard: the focus goes back to the page once it has been used, or at the next
 * key. A control reached by Tab keeps the keyboard while it is used by keys, and a field for text however it was
 * reached; Escape gives it back.
 */

/** Types of an input that is not typed into. */
const UNTYPED = /^(button|checkbox|color|file|image|radio|range|reset|submit)$/;

/** Whether keys write text there. */
export function takesText(element: Element | null): boolean {
  if (!element) return false;
  if (element.tagName === 'INPUT') return !UNTYPED.test((element as HTMLInputElement).type);
  return element.tagName === 'TEXTAREA' || (element as HTMLElement).isContentEditable;
}

/** Whether keys work it: a select, a slider, a box to tick, a button or a link. */
export function takesKeys(element: Element | null): element is HTMLElement {
  return element !== null && !takesText(element) && element.matches('button, a[href], summary, select, input');
}

/** Keeps to that rule on a page until what it returns is called. */
export function freeKeyboard(page: Document): () => void {
  // Between a press and the click that it ends in: what gets the keyboard then has it by the tap.
  let byPointer = false;
  // What had the keyboard at the last tap, or has got it by that tap.
  let held: Element | null = null;

  const giveBack = (): void => {
    const { activeElement } = page;
    if (activeElement === held && takesKeys(activeElement)) activeElement.blur();
    held = null;
  };
  /** Whatever is tapped: what was reached by Tab before is no longer used by keys. */
  const onPointerDown = (): void => {
    byPointer = true;
    held = page.activeElement;
  };
  const onFocus = ({ target }: Event): void => {
    held = byPointer && target instanceof Element ? target : null;
  };
  /** Its list is open until something is chosen: it gives the keyboard back then, or at the next key. */
  const onUsed = (): void => {
    setTimeout(() => (held?.tagName === 'SELECT' ? undefined : giveBack()));
  };
  /** By touch the keyboard comes between the finger's lifting and the click. */
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

/** Only what keys write in or work: the page itself has nothing to give back. */
function givesBackAt(element: Element | null): void {
  if (takesText(element) || takesKeys(element)) (element as HTMLElement).blur();
}

/** Whether a select shows its list; browsers that cannot say so count it as closed, so that Space is Stop. */
function isOpen(element: Element | null): boolean {
  if (element?.tagName !== 'SELECT') return false;
  try {
    return element.matches(':open');
  } catch {
    return false;
  }
}
