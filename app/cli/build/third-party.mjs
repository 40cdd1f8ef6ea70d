/*
 * Lists the packages that the built program contains, with their licences. It goes by what really went into the
 * bundles: what is only installed is not given away. MIT and its like, Apache and the typeface's licence ask that
 * their text goes along.
 */

import { readFileSync, readdirSync } from 'node:fs';
import { join, sep } from 'node:path';

/** Licences under which a package may be bundled without asking anybody. */
const ALLOWED = ['MIT', 'ISC', '0BSD', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', 'OFL-1.1'];
const TEXT = /^(licen[cs]e|copying)([.-]|$)/i;
const NOTICE = /^notice([.-]|$)/i;

/**
 * The text for all packages that files belong to, in the order of their names.
 * @param {string} version of Lanecall
 * @param {string[]} files absolute paths or a bundler's names for them; those outside node_modules are ours
 * @returns {string} throws where a licence is not allowed, or its text is nowhere
 */
export function thirdPartyText(version, files) {
  const folders = [...new Set(files.flatMap((file) => packageFolder(file) ?? []))];
  const parts = folders.map(readPackage).sort((a, b) => (a.title < b.title ? -1 : 1));
  // One package may be there twice in one version.
  const texts = new Set(parts.map(({ title, text }) => `${title}\n\n${text}`));
  return `Lanecall ${version}, under the MIT licence, carries the following, each under its own.\n\n${[...texts].join(`\n\n${'-'.repeat(72)}\n\n`)}\n`;
}

/**
 * @param {string} file
 * @returns {string | null} the folder of its package
 */
export function packageFolder(file) {
  const path = file
    .replace(/^\0/, '')
    .replace(/[?#].*$/s, '')
    .split('\\')
    .join('/');
  const found = /^(.*\/node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path);
  return found === null ? null : /** @type {string} */ (found[1]).split('/').join(sep);
}

/** @param {string} folder */
function readPackage(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  if (!ALLOWED.includes(license)) throw new Error(`${name} is bundled under ${license}, which nobody has allowed.`);
  const files = readdirSync(folder).sort();
  const named = [...files.filter((file) => TEXT.test(file)), ...files.filter((file) => NOTICE.test(file))];
  if (!named.some((file) => TEXT.test(file))) throw new Error(`${name} is bundled and has no text of its licence.`);
  const texts = named.map((file) => readFileSync(join(folder, file), 'utf8').replaceAll('\r\n', '\n').trim());
  return { title: `${name} ${version} (${license})`, text: texts.join('\n\n') };
}
