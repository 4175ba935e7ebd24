import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { keysTable } from './keys-table.ts';

const README = new URL('../../README.md', import.meta.url);

/** `UPDATE_README=1 npx vitest run … readme-keys` writes the table anew. */
it('the README has the keys as the program has them', () => {
  const text = readFileSync(README, 'utf8');
  const fresh = text.replace(/(<!-- keys:[^\n]*-->\n)[\s\S]*?(<!-- \/keys -->)/u, `$1${keysTable()}\n$2`);
  if (process.env['UPDATE_README']) writeFileSync(README, fresh);
  else expect(text).toBe(fresh);
});
