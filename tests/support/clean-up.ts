/*
 * Runs with every test file, before it: what its hosts kept is removed when it is over, after all that it does then itself.
 */

import { afterAll } from 'vitest';
import { removeDataFolders } from './host/folders/data-folder.ts';

afterAll(removeDataFolders);
