/*
 * Carries out the keys of the coach's window during a run.
 */

import { useEffect, useRef, useState } from 'react';
import { view, type RunView } from '../../../../app/core/run/view.ts';
import { createBounceGuard } from '../../../ui/coach/commands/bounce.ts';
import { stopOrResume } from '../../../ui/coach/commands/primary.ts';
import type { Tools } from '../../../ui/coach/use-deck.ts';
import { actsInEdit, meaningOf, type KeyPress, type Meaning } from './keys.ts';
import { keysTakenBy } from './taken-keys.ts';
import type { Panel } from '../../panel/panel.tsx';

/** leave: what Escape does where there is nothing else for it to close or to take back. */
export function useRunKeys(
  tools: Tools,
  panel: Panel | null,
  setPanel: (panel: Panel | null) => void,
  leave?: () => void,
): void {
  // Kept from render to render, because a bounce may fall on either side of one.
  const [bounces] = useState(createBounceGuard);
  // The key that opened Edit, as long as it is held: the text, which has the keyboard by then, does not get its repeats.
  const opener = useRef<string | null>(null);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.repeat && event.code === opener.current) return event.preventDefault();
      opener.current = null;
      const meaning = meaningOf(pressOf(event));
      if (!meaning) return;
      const isUsed = event.defaultPrevented || hadKeyboard(event.target, 'press');
      const isWritten = hadKeyboard(event.target, 'all');
      event.preventDefault();
      if (panel?.kind === 'edit' && !actsInEdit(meaning)) return;
      if (meaning.kind === 'panel' && meaning.name === 'edit') opener.current = event.code;
      if ((meaning.kind !== 'nothing' || meaning.why !== undefined) && bounces.accept(event.key, event.timeStamp))
        carryOut(meaning, isUsed, isWritten);
    };
    const carryOut = (meaning: Meaning, isUsed: boolean, isWritten: boolean): void => {
      const { actions, link } = tools;
      const { run } = link.store.getState();
      const t = link.now();
      if (!run || t === null) return;
      // Not as of the last frame: a key may come after a command and before the frame that shows it.
      const now = view(run.state, t);
      switch (meaning.kind) {
        case 'act':
          return void actions.act(meaning.name);
        case 'stop-or-resume':
          return void actions.act(stopOrResume(now));
        case 'lane':
          if (now.lanes.some(({ number }) => number === meaning.number)) actions.toggle(meaning.number);
          return;
        case 'panel': {
          const lane = laneOfKey(now, actions.chosen());
          if (meaning.name === 'lane') return setPanel({ kind: 'lane', lane });
          if (meaning.name === 'screens') return setPanel(panel?.kind === 'screens' ? null : { kind: 'screens' });
          if (meaning.name === 'mark') return setPanel({ kind: 'mark', lanes: actions.chosen() });
          return setPanel({ kind: 'edit' });
        }
        case 'clear':
          // One press is one step: out of a field of the screens, then out of the screens.
          if (panel?.kind === 'screens') return isWritten ? undefined : setPanel(null);
          if (panel === null && actions.chosen().length === 0 && !isUsed) return leave?.();
          actions.clearChoice();
          // Escape does not close Edit.
          if (panel && panel.kind !== 'edit') setPanel(null);
          return;
        case 'nothing':
          return meaning.why === undefined ? undefined : actions.say(meaning.why, 'refused');
      }
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [tools, panel, setPanel, leave, bounces]);
}

/** Whether Escape has just taken the keyboard from a field, or with `press` from any control: that is enough for one press. */
function hadKeyboard(target: EventTarget | null, least: 'press' | 'all'): boolean {
  const taken = target instanceof Element ? keysTakenBy(target) : 'none';
  return taken === 'all' || taken === least;
}

/** The lane whose panel the key L opens: the first chosen one, or the first of all. */
export function laneOfKey({ lanes }: RunView, chosen: readonly number[]): number {
  return chosen[0] ?? lanes[0]?.number ?? 0;
}

function pressOf(event: KeyboardEvent): KeyPress {
  // Not the event's target: a tapped control has just given the keyboard back.
  const taken = keysTakenBy(document.activeElement);
  return {
    key: event.key,
    code: event.code,
    shift: event.shiftKey,
    modified: event.ctrlKey || event.altKey || event.metaKey,
    repeat: event.repeat,
    typing: taken === 'all',
    onControl: taken === 'press',
  };
}
