// @vitest-environment happy-dom
/* A phone or a tablet that has not been let in. */

import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, test } from 'vitest';
import { createJoining } from '../../../../../renderer/link/joining/joining.ts';
import { inGroups, JoinFirst } from '../../../../../renderer/ui/coach/join/join-page.tsx';

afterEach(cleanup);

function page(device: 'phone' | 'tablet' = 'phone', takes = true) {
  const joining = createJoining();
  const entered: string[] = [];
  const enter = (typed: string): boolean => (entered.push(typed), takes);
  render(
    <JoinFirst joining={joining} device={device} enter={enter}>
      <p>the page</p>
    </JoinFirst>,
  );
  const asks = (why: string | null = null, code?: string): void =>
    act(() => joining.setState({ step: 'asks', why, ...(code === undefined ? {} : { code }) }, true));
  const isIn = (): void => act(() => joining.setState({ step: 'in' }, true));
  return { entered, asks, isIn };
}

const field = (): HTMLElement => screen.getByLabelText('The 20 characters');
const type = (value: string): void => void fireEvent.change(field(), { target: { value } });

test('[joining] a page that is in shows itself', () => {
  page();
  expect(screen.getByText('the page')).toBeTruthy();
});

test('[joining] one that is not says where the code is, and takes its letters by the button', () => {
  const { entered, asks } = page('tablet');
  asks();
  expect(screen.queryByText('the page')).toBeNull();
  expect(screen.getByRole('heading').textContent).toBe('Lanecall on this tablet');
  expect(screen.getByText(/tap “Let a tablet in”\. Scan the code/)).toBeTruthy();
  type('7k2qm 0h3tz');
  expect(screen.getByText('10 of 20')).toBeTruthy();
  fireEvent.click(screen.getByRole('button', { name: 'Join' }));
  expect(entered.map((typed) => typed.replace('-', ' ').toLowerCase())).toEqual(['7k2qm 0h3tz']);
});

test('[joining] Enter in the field is the button', () => {
  const { entered, asks } = page();
  asks();
  type('abc');
  fireEvent.submit(field());
  expect(entered).toEqual(['ABC']);
});

test('[joining] what is no code is said, until something else is typed', () => {
  const { asks } = page('phone', false);
  asks();
  type('abc');
  fireEvent.submit(field());
  expect(screen.getByRole('alert').textContent).toBe('A code has 20 letters and digits: check what you typed.');
  expect(field().getAttribute('aria-invalid')).toBe('true');
  type('abcd');
  expect([screen.getByRole('alert').textContent, field().getAttribute('aria-invalid')]).toEqual(['', 'false']);
});

test('[joining] a code that the host refuses stays in the field, to be mended', () => {
  const { asks, isIn } = page();
  asks();
  type('7K2QM0H3TZ4RVD8XWB5C');
  fireEvent.submit(field());
  isIn();
  asks('That is not the code.', '7K2QM0H3TZ4RVD8XWB5C');
  expect((field() as HTMLInputElement).value).toBe('7K2QM-0H3TZ-4RVD8-XWB5C');
});

test('[joining] why it is not in is said: a code that was used, a phone that was thrown out', () => {
  const { asks } = page();
  asks('This phone was thrown out.');
  expect(screen.getByRole('alert').textContent).toBe('This phone was thrown out.');
});

test.each([
  ['7k2qm0', '7k2qm', '7K2QM-0'],
  ['7K2QM-0H3TZ-4RVD8-XWB5C', '', '7K2QM-0H3TZ-4RVD8-XWB5C'],
  ['7k2qm 0h3tz', '', '7K2QM-0H3TZ'],
  ['7K2QM-', '7K2QM-0', '7K2QM-'],
  ['', 'A', ''],
])('[joining] typing goes by groups of five, and what is taken away stays away: %s', (typed, before, shown) => {
  expect(inGroups(typed, before)).toBe(shown);
});
