// @vitest-environment happy-dom
/*
 * What is read of a text waits until its typing pauses.
 */

import { act, renderHook } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { useSettled } from '../../../../renderer/desk/editor/use-settled.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

test('[write] a text is read once nothing has been typed for a quarter of a second, and then as it is by then', () => {
  const { result, rerender } = renderHook(useSettled, { initialProps: 'a' });
  expect(result.current).toBe('a');
  for (const text of ['ab', 'abc', 'abcd']) {
    rerender(text);
    act(() => void vi.advanceTimersByTime(249));
  }
  expect(result.current).toBe('a');
  act(() => void vi.advanceTimersByTime(1));
  expect(result.current).toBe('abcd');
});
