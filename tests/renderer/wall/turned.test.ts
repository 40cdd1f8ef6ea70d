// @vitest-environment happy-dom
/* A wall whose swimmers push off at the right has its lane numbers there in every layout. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';

const styles = ['strips/strips.css', 'callout/callout.css']
  .map((file) => readFileSync(join(import.meta.dirname, '../../../renderer/wall', file), 'utf8'))
  .join('\n');

afterEach(() => {
  document.head.innerHTML = '';
  document.body.innerHTML = '';
});

function partsOf(
  mode: string,
  from: string,
): { readonly strip: CSSStyleDeclaration; readonly rep: CSSStyleDeclaration } {
  document.head.innerHTML = `<style>${styles}</style>`;
  document.body.innerHTML = `
    <main class="board" data-mode="${mode}" ${from}>
      <section class="strip"><div class="strip-number"></div><div class="strip-rep"></div></section>
    </main>`;
  const styleOf = (part: string): CSSStyleDeclaration => getComputedStyle(document.querySelector(part)!);
  return { strip: styleOf('.strip'), rep: styleOf('.strip-rep') };
}

test.each(['next', 'pause', 'stopped', 'done'])('[push-off] in "%s" the number of a lane keeps its side', (mode) => {
  const turned = partsOf(mode, "data-from='right'");
  expect([turned.strip.flexDirection, turned.rep.alignItems]).toEqual(['row-reverse', 'flex-end']);
  expect(partsOf(mode, '').strip.flexDirection).not.toBe('row-reverse');
});
