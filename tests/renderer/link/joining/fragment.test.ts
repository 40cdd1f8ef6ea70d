import { expect, test } from 'vitest';
import { takeCode } from '../../../../renderer/link/joining/fragment.ts';

const CODE = '7K2QM0H3TZ4RVD8XWB5C';

function opened(hash: string) {
  const replaced: unknown[] = [];
  const code = takeCode({
    location: { hash, pathname: '/remote', search: '?a' },
    history: { replaceState: (...all: unknown[]) => replaced.push(all) },
  } as unknown as Window);
  return { code, replaced };
}

test('[joining] the code is read from the fragment, and the fragment is gone at once', () => {
  expect(opened(`#${CODE}`)).toEqual({ code: CODE, replaced: [[null, '', '/remote?a']] });
});

test('[joining] a fragment that is no code is gone too', () => {
  expect(opened('#elsewhere')).toEqual({ code: null, replaced: [[null, '', '/remote?a']] });
});

test('[joining] without a fragment the address stays as it is', () => {
  expect(opened('')).toEqual({ code: null, replaced: [] });
});
