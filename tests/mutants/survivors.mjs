/*
 * Two plugins for StrykerJS. One prints each change that no test noticed as soon as it is known, as
 * FILE:LINE:COLUMN and what stood there instead. The other leaves out what a programmer's mistake throws:
 * no text and no command leads there, and its words are promised to nobody.
 */

import { declareValuePlugin, PluginKind } from '@stryker-mutator/api/plugin';

const MISSED = ['Survived', 'NoCoverage'];

/** @type {import('@stryker-mutator/api/report').Reporter} */
const survivors = {
  onMutantTested({ status, fileName, location, mutatorName, replacement }) {
    if (!MISSED.includes(status)) return;
    const { start, end } = location;
    const place = `${fileName}:${start.line}:${start.column}-${end.line}:${end.column}`;
    process.stdout.write(`${status} ${mutatorName} ${place}\n  ${(replacement ?? '').replace(/\s+/g, ' ')}\n`);
  },
};

/** @type {import('@stryker-mutator/api/ignore').Ignorer} */
const thrown = {
  shouldIgnore: ({ node }) => (node.type === 'ThrowStatement' ? "a programmer's mistake" : undefined),
};

export const strykerPlugins = [
  declareValuePlugin(PluginKind.Reporter, 'survivors', survivors),
  declareValuePlugin(PluginKind.Ignore, 'thrown', thrown),
];
