/** A folder that is gone after each test. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach } from 'vitest';

export function eachInOwnFolder(): () => string {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'standside-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));
  return () => folder;
}
