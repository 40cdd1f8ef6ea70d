/* Why a disk refuses, in words. */

import { describe, expect, test } from 'vitest';
import { codeOf, diskReason } from '../../../app/host/journal/disk.ts';
import { failure } from '../../support/system/bent-system.ts';

describe('[disk] why it refuses', () => {
  test.each([
    ['ENOSPC', 'the disk is full'],
    ['EDQUOT', 'the disk is full for this user'],
    ['EFBIG', 'the file cannot get any longer'],
    ['EROFS', 'the disk is read-only'],
    ['EACCES', 'this user may not read or write it'],
    ['EPERM', 'this user may not read or write it'],
    ['EIO', 'the disk is failing'],
    ['ENXIO', 'the disk is not there any more'],
    ['ENODEV', 'the disk is not there any more'],
    ['ESTALE', 'the shared folder is not there any more'],
    ['ETIMEDOUT', 'the disk does not answer'],
    ['ENOENT', 'it does not exist any more'],
    ['EISDIR', 'it is a folder'],
    ['ELOOP', 'its links form a circle'],
    ['NOT_ORDINARY', 'it is not an ordinary file'],
    ['EODD', 'the system says EODD'],
    ['ENOTDIR', 'there is a file in place of a folder'],
    ['EEXIST', 'there is a file in place of a folder'],
    ['EBUSY', 'another program has it open'],
    ['ENAMETOOLONG', 'its name is too long'],
    ['EMFILE', 'too many files are open on this machine'],
    ['ENFILE', 'too many files are open on this machine'],
  ])('%s: %s', (code, words) => {
    expect(diskReason(failure(code))).toBe(words);
  });

  test('a reason without a system’s name is said as it is', () => {
    expect(diskReason(new Error('another Lanecall has the folder'))).toBe('another Lanecall has the folder');
    expect(diskReason('tired')).toBe('tired');
    expect(codeOf('tired')).toBe('');
    expect(codeOf(Object.assign(new Error(), { code: 'EIO' }))).toBe('EIO');
  });
});
