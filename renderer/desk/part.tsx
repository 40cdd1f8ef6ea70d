/*
 * A region of the coach's window that fails by itself, the rest of the window and the keys going on.
 */

import type { ReactElement, ReactNode } from 'react';
import { Button } from '../ui/parts/button.tsx';
import type { Tools } from '../ui/coach/use-deck.ts';
import { Region } from '../ui/region.tsx';

interface PartProps {
  readonly tools: Tools;
  /** As the sentence begins that stands in its place: "The head". */
  readonly name: string;
  readonly area?: string | undefined;
  /** Drawn again where this is another than before. */
  readonly again?: unknown;
  readonly instead?: ReactNode;
  /** Of what can be closed. */
  readonly onClose?: () => void;
  readonly children: ReactNode;
}

const ADVICE = 'Leaves and tones go on, and so do the keys: Space stops all lanes.';

export function Part({ tools, name, area, again, instead, onClose, children }: PartProps): ReactElement {
  const close = onClose ? <Button name={`Close: ${name}`} label="Close" look="small" onPress={onClose} /> : null;
  return (
    <Region
      name={name}
      advice={ADVICE}
      area={area}
      link={tools.link}
      again={again}
      instead={
        <>
          {close}
          {instead}
        </>
      }
    >
      {children}
    </Region>
  );
}

/** Stop for all lanes, by itself: it rests on nothing that a row of actions is drawn from. */
export function StopButton({ tools }: { readonly tools: Tools }): ReactElement {
  const { actions } = tools;
  return <Button name="Stop all lanes" look="primary stop" onPress={() => void actions.act('stop', [])} />;
}
