#!/usr/bin/env node
/*
 * The `lanecall` command of the package: the launcher with its first word filled in.
 */

process.argv.splice(2, 0, 'lanecall');
await import('./launch.mjs');
