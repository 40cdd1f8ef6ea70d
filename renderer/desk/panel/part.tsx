/*
 * A region of the coach's window. If it cannot be drawn, a sentence takes its place; the rest and the keys go on.
 */

import type { ReactElement, ReactNode } from 'react';
import { Button } from '../../ui/parts/button.tsx';
import type { Tools } from '../../ui/coach/use-deck.ts';
import { Region } from '../../ui/region.tsx';

interface PartProps {
  readonly tools: Tools;
  /** How the sentence begins: "The head" for "The head cannot be drawn." */
  readonly name: string;
  readonly area?: string | undefined;
  /** It is tried again when this changes. */
  readonly again?: unknown;
  readonly instead?: ReactNode;
  /** For something that can be closed. */
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

/** Stop for all lanes, in place of a row of actions that could not be drawn. */
export function StopButton({ tools }: { readonly tools: Tools }): ReactElement {
  const { actions } = tools;
  return <Button name="Stop all lanes" look="primary stop" onPress={() => void actions.act('stop', [])} />;
}
