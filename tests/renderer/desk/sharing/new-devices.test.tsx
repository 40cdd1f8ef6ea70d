// @vitest-environment happy-dom
/* News of a phone or a tablet that has just been let in. */

import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import { NewDevices } from '../../../../renderer/desk/sharing/new-devices.tsx';
import { CoachWindow } from '../../../support/coach/coach-window.ts';
import { device, told } from './told.ts';

afterEach(cleanup);

function news() {
  const coach = new CoachWindow('Main set\n8 x 50 @ 1:00\n');
  const { container } = render(<NewDevices tools={coach.tools} />);
  return { coach, container };
}

test('[sharing] a phone that has just been let in is said for as long as the host calls it new', () => {
  const { coach, container } = news();
  expect(container.textContent).toBe('');
  coach.sharing(told({ devices: [device({ isNew: true })] }));
  expect(screen.getByText('A phone is in: “Phone 1”. Not yours?')).toBeTruthy();
  coach.sharing(told({ devices: [device()] }));
  expect(container.textContent).toBe('');
});

test('[sharing] it is thrown out from there, and why it was not is said', async () => {
  const { coach } = news();
  coach.refusal = 'It is no longer let in.';
  coach.sharing(told({ devices: [device({ isNew: true, role: 'tablet', name: 'Tablet 1' })] }));
  fireEvent.click(screen.getByRole('button', { name: 'Throw out Tablet 1' }));
  await act(() => Promise.resolve());
  expect(coach.shared).toEqual([{ do: 'throw-out', device: 'a'.repeat(16) }]);
  expect(screen.getByText('It is no longer let in.')).toBeTruthy();
});

test('[sharing] several new devices are one row, each with its name on what throws it out', () => {
  const { coach, container } = news();
  const [phone, tablet] = [device({ isNew: true }), device({ isNew: true, role: 'tablet', name: 'Tablet 1' })];
  coach.sharing(told({ devices: [phone, { ...tablet, id: 'b'.repeat(16) }] }));
  expect(container.textContent).toBe('2 devices are in. Not yours?Throw out Phone 1Throw out Tablet 1');
});

test('[sharing] a wall screen, whose digits the coach has just typed, and a window of this machine are no news', () => {
  const { coach, container } = news();
  const [wall, own] = [device({ role: 'wall', isNew: true }), device({ role: 'coach', isNew: true })];
  coach.sharing(told({ devices: [wall, { ...own, id: 'b'.repeat(16) }] }));
  expect(container.textContent).toBe('');
});
