// @vitest-environment happy-dom
/* One Escape is one step out of the screens: out of a field first, then out of the panel. */

import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import { useScreensToggle } from '../../../../renderer/desk/screens/screens-button.tsx';

afterEach(cleanup);

function Window() {
  const [isOpen, toggle] = useScreensToggle();
  return (
    <>
      <button onClick={toggle}>{isOpen ? 'open' : 'closed'}</button>
      <select aria-label="Clock" />
    </>
  );
}

test('[keys] Escape in a field of the screens leaves them open, the next press closes them', () => {
  render(<Window />);
  fireEvent.keyDown(document.body, { key: 'w' });
  expect(screen.getByRole('button').textContent).toBe('open');
  fireEvent.keyDown(screen.getByLabelText('Clock'), { key: 'Escape' });
  expect(screen.getByRole('button').textContent).toBe('open');
  fireEvent.keyDown(document.body, { key: 'Escape' });
  expect(screen.getByRole('button').textContent).toBe('closed');
});
