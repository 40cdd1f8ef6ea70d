#!/usr/bin/env node
/*
 * Stands where Electron's executable would: takes the same arguments, and runs the program of a folder or
 * file with the stand-in for the electron module.
 */

import { register } from 'tsx/esm/api';

register();
const { runProgram } = await import('./program.ts');
runProgram(process.argv.slice(2));
