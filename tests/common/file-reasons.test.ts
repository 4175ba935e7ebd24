import { constants } from 'node:os';
import { describe, expect, it } from 'vitest';
import { reasonOf } from '../../src/common/file-reasons.ts';
import { fileMishap, isMishap } from '../../src/common/mishap.ts';

const failure = (code: string): Error => Object.assign(new Error(code), { code });

/** Every code that a system call on files may give (POSIX.1-2017, open, read, write, rename, link, mkdir, fsync). */
const POSIX =
  'EACCES EBUSY EDQUOT EEXIST EFBIG EIO EISDIR ELOOP EMFILE ENAMETOOLONG ENFILE ENOENT ENOSPC ENOTDIR EPERM EROFS';

describe('the reason why a file cannot be used', () => {
  it.each(POSIX.split(' '))('is a clause for %s, and names no code', (code) => {
    expect(Object.keys(constants.errno)).toContain(code);
    for (const doing of ['read', 'write'] as const) {
      expect(reasonOf(failure(code), doing)).toMatch(/^(it|its|you|your|there|the|too many|another) [a-z ]+$/);
    }
  });

  it('depends on what was tried where nothing is there', () => {
    expect(reasonOf(failure('ENOENT'), 'read')).toBe('there is no such file');
    expect(reasonOf(failure('ENOENT'), 'write')).toBe('its path leads nowhere');
    expect(reasonOf(failure('ENOSPC'), 'write')).toBe('the disk is full');
  });

  it('is the system’s own word where that is not known', () => {
    expect(reasonOf(failure('EXOTIC'), 'write')).toBe('the system says EXOTIC');
  });

  it.each([new TypeError('a mistake in the program'), null, undefined, 'text', { code: 3 }])(
    'is none for %j, which is a surprise and thrown on',
    (error) => {
      let thrown: unknown = 'nothing';
      try {
        reasonOf(error, 'read');
      } catch (again) {
        thrown = again;
      }
      expect(thrown).toBe(error);
    },
  );
});

const missing = (doing: 'read' | 'written' | 'opened for writing') => fileMishap(failure('ENOENT'), '/a', doing);

describe('a mishap', () => {
  it('says what could not be done with which file', () => {
    expect(missing('read')).toEqual({ file: '/a', sentence: '/a cannot be read: there is no such file.' });
    expect(missing('written').sentence).toBe('/a cannot be written: its path leads nowhere.');
    expect(missing('opened for writing').sentence).toBe('/a cannot be opened for writing: its path leads nowhere.');
  });

  it('is told from everything else', () => {
    expect(isMishap(fileMishap(failure('EIO'), '/a', 'read'))).toBe(true);
    for (const other of [null, undefined, 'text', 3, {}, { sentence: '' }, { file: '' }])
      expect(isMishap(other)).toBe(false);
  });
});
