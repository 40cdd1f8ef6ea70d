/* The page in the place of one that has crashed again and again: what is so, and what to do. */

import { expect, test } from 'vitest';
import { plainPage } from '../../../app/desktop/pages/plain-page.ts';

test.each([
  ['desk', "The coach's window has stopped", '/'],
  ['wall', 'The wall screen has stopped', '/display'],
] as const)(
  '[desktop] of %s says what has stopped, that the run goes on, and opens it again; no script',
  (kind, title, path) => {
    const page = plainPage(kind);
    expect(page).toContain(`<title>${title}</title>`);
    expect(page).toContain(`<h1>${title}</h1>`);
    expect(page).toContain(`<a href="${path}">Open it again</a>`);
    expect(page).toContain('The run goes on, and nothing of it is lost.');
    expect(page).toMatch(/^<!doctype html>\n<html lang="en">/);
    expect(page).not.toMatch(/script|http/);
  },
);
