/** Strangers' files: ordinary ones only, and never more bytes than asked for. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readBounded } from '../../src/disk/bounded-file.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'standside-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const code = (path: string, most: number): unknown => {
  try {
    return readBounded(path, most);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code;
  }
};

describe('a file that is read to a bound', () => {
  it.each([0, 1, 65_535, 65_536, 65_537, 200_000])('of %i bytes is whole at the bound, none beyond', (size) => {
    const path = join(folder, 'file');
    const bytes = Buffer.from(Array.from({ length: size }, (_, i) => i % 251));
    writeFileSync(path, bytes);
    expect(readBounded(path, size).equals(bytes)).toBe(true);
    expect(readBounded(path, size + 9).equals(bytes)).toBe(true);
    if (size > 0) expect(code(path, size - 1)).toBe('EFBIG');
  });

  it('whose size the system does not say is read to its end, and counted while it is read', () => {
    // proc(5): the files there say that they have no bytes.
    expect(readBounded('/proc/self/status', 100_000).toString()).toMatch(/^Name:/);
    expect(code('/proc/self/status', 10)).toBe('EFBIG');
  });

  it('is neither a folder nor a pipe nor a device', () => {
    execFileSync('mkfifo', [join(folder, 'pipe')]);
    expect(code(folder, 10)).toBe('EISDIR');
    expect(code(join(folder, 'pipe'), 10)).toBe('EFTYPE');
    expect(code('/dev/zero', 10)).toBe('EFTYPE');
    expect(code(join(folder, 'none'), 10)).toBe('ENOENT');
  });
});
