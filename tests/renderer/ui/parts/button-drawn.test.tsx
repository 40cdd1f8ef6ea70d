// @vitest-environment happy-dom
/*
 * When a button is drawn anew: a page has a hundred of them, and all that they are given may be new with every key.
 */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { HourPicture } from '../../../../renderer/desk/hour/hour-picture.tsx';
import { hourPicture } from '../../../../renderer/desk/hour/hour-bars.ts';
import { Button } from '../../../../renderer/ui/parts/button.tsx';
import { planOf } from '../../../support/run/deck.ts';

const drawn = vi.hoisted(() => ({ times: 0 }));

vi.mock(import('react-aria-components/Button'), async (importOriginal) => {
  const original = await importOriginal();
  const Counted: typeof original.Button = (props) => {
    drawn.times++;
    return <original.Button {...props} />;
  };
  return { ...original, Button: Counted };
});

beforeEach(() => void (drawn.times = 0));
afterEach(cleanup);

test('one that looks the same is not, and does what it was given last', () => {
  const said: string[] = [];
  const button = (what: string, why: string | null = null) => (
    <Button
      name="Skip"
      judge={() => (what === 'third' ? 'not now' : null)}
      why={why}
      onPress={() => said.push(what)}
      onRefused={(refused) => said.push(refused)}
    />
  );
  const { rerender } = render(button('first'));
  rerender(button('second'));
  fireEvent.click(screen.getByRole('button'));
  rerender(button('third'));
  fireEvent.click(screen.getByRole('button'));
  expect(drawn.times).toBe(1);
  expect(said).toEqual(['second', 'not now']);
  rerender(button('third', 'not now'));
  expect(drawn.times).toBe(2);
});

test('of the hour’s parts only the one that has changed is', () => {
  const hour = (rest: string) => hourPicture(planOf(`start 19:30\nWarm-up\n200 easy @ 4:00\nMain set\n${rest}\n`));
  const onLine = (): void => undefined;
  const { rerender } = render(<HourPicture picture={hour('100 easy @ 2:00')} swimDown={null} onLine={onLine} />);
  expect(drawn.times).toBe(2);
  rerender(<HourPicture picture={hour('100 fast @ 2:00')} swimDown={null} onLine={onLine} />);
  expect(drawn.times).toBe(2);
  rerender(<HourPicture picture={hour('200 easy @ 4:00')} swimDown={null} onLine={onLine} />);
  expect(drawn.times).toBe(3);
});
